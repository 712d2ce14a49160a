package trial

import (
	"fmt"
	"strings"

	"blanch/cmd/blanch/internal/fold"
)

const width = 80

const honest = "The learners are simulated and their manners are assumed. Leaks and " +
	"ischaemia describe the model of this case, never patients."

// Text writes the report as plain lines of at most 80 columns.
func (r *Report) Text() string {
	var b strings.Builder
	folded(&b, "", fmt.Sprintf("Trying %s: %s", r.Case, r.Title))
	folded(&b, "", fmt.Sprintf("In %s under %s; %d runs of each of %d kinds of learner, each kind with the luck of seeds %d to %d.", r.Place, r.Policy, r.Runs, len(r.Kinds), r.Seed, r.Seed+uint64(r.Runs)-1))
	b.WriteString("\n")
	folded(&b, "Verdict: ", r.Summary)
	r.writeFindings(&b, func(Level) bool { return true })
	r.writeMarks(&b)
	r.writeArms(&b)
	r.writeLost(&b)
	if len(r.Walks) > 0 {
		b.WriteString("\nWalk-throughs of the case\n")
		for _, w := range r.Walks {
			passed := "does not pass"
			if w.Passed {
				passed = "passes"
			}
			folded(&b, "  ", fmt.Sprintf("%s: %s %% of the points, %s", w.Walk, number(w.Share, 0.1), passed))
		}
	}
	b.WriteString("\nHow runs ended, of " + fmt.Sprint(r.Runs*len(r.Kinds)) + "\n")
	for _, e := range r.Endings {
		fmt.Fprintf(&b, "  %-32s %6d\n", e.Ending, e.Reached)
	}
	b.WriteString("\nWho they are\n")
	for _, k := range r.Kinds {
		folded(&b, fmt.Sprintf("  %-20s", k.Kind), k.Says)
	}
	b.WriteString("\n")
	folded(&b, "", honest)
	return b.String()
}

// Brief is the verdict alone, with its faults and cautions.
func (r *Report) Brief() string {
	var b strings.Builder
	folded(&b, fmt.Sprintf("%s, tried %d times by each kind of learner: ", r.Case, r.Runs), r.Summary)
	r.writeFindings(&b, func(l Level) bool { return l != Note })
	return b.String()
}

func (r *Report) writeFindings(b *strings.Builder, wanted func(Level) bool) {
	for _, f := range r.Findings {
		if !wanted(f.Level) {
			continue
		}
		folded(b, fmt.Sprintf("  %s: ", f.Level), fmt.Sprintf("%s [%s]", f.Said, f.Code))
		if f.Shown != nil {
			b.WriteString("    " + f.Shown.Again + "\n")
		}
	}
}

// summary sums the findings up in a line.
func summary(findings []Finding) string {
	faults, cautions := 0, 0
	for _, f := range findings {
		switch f.Level {
		case Fault:
			faults++
		case Caution:
			cautions++
		}
	}
	out := "the case can be won, and it tells an expert from a hurried novice"
	if faults > 0 {
		out = counted(faults, "fault")
	}
	if cautions > 0 {
		out += "; " + counted(cautions, "caution")
	}
	return out
}

func counted(n int, what string) string {
	if n == 1 {
		return "1 " + what
	}
	return fmt.Sprintf("%d %ss", n, what)
}

func (r *Report) writeMarks(b *strings.Builder) {
	fmt.Fprintf(b, "\n%-20s %6s   %8s   %8s   %s\n", "Marks", "pass", "% of", "10th to", "case ends,")
	fmt.Fprintf(b, "%-20s %6s   %8s   %8s   %s\n", "", "", "points", "90th", "median")
	for _, k := range r.Kinds {
		fmt.Fprintf(b, "  %-18s %4s %%   %8s   %8s   %s\n", k.Kind, percent(float64(k.Passed)/float64(r.Runs)), number(k.Share.Median, 0.1),
			number(k.Share.Low, 1)+" to "+number(k.Share.High, 1), clock(k.Minutes.Median))
	}
	folded(b, "  ", fmt.Sprintf("Between %s: %s %s; 1 when every one is above every other, large from %s (Cliff 1993; Romano 2006).",
		r.Effect.Between, r.Effect.Measure, number(r.Effect.Value, 0.01), number(r.Effect.Large, 0.001)))
}

func (r *Report) writeArms(b *strings.Builder) {
	fmt.Fprintf(b, "\n%-20s %6s   %12s   %s\n", "Arms in the model", "leaked", "ischaemia", "10th to 90th, min")
	for _, k := range r.Kinds {
		ischaemia, to := "-", ""
		if k.Ischaemic != nil {
			ischaemia = number(k.Ischaemic.Median, 1) + " min"
			to = number(k.Ischaemic.Low, 1) + " to " + number(k.Ischaemic.High, 1)
		}
		line := fmt.Sprintf("  %-18s %4s %%   %12s   %s", k.Kind, percent(float64(k.Leaked)/float64(r.Runs)), ischaemia, to)
		b.WriteString(strings.TrimRight(line, " ") + "\n")
	}
}

// mostLost is how many rules are told of a kind, and oftenLost the share of
// runs from which a rule is told.
const mostLost, oftenLost = 5, 0.05

func (r *Report) writeLost(b *strings.Builder) {
	b.WriteString("\nWhat they lose, % of runs\n")
	for _, k := range r.Kinds {
		var lost []string
		for _, l := range k.Lost {
			if share := float64(l.Runs) / float64(r.Runs); len(lost) < mostLost && share >= oftenLost {
				lost = append(lost, fmt.Sprintf("%s %s", l.Rule, percent(share)))
			}
		}
		if more := len(k.Lost) - len(lost); more > 0 && len(lost) == mostLost {
			lost = append(lost, fmt.Sprintf("and %d more", more))
		}
		if len(lost) == 0 {
			lost = []string{"next to nothing"}
		}
		folded(b, fmt.Sprintf("  %-20s", k.Kind), strings.Join(lost, ", "))
	}
}

// clock writes minutes as a clock does.
func clock(minutes float64) string {
	m := int(minutes + 0.5)
	return fmt.Sprintf("%d:%02d", m/60, m%60)
}

// folded writes text behind a lead; later lines stand under the text.
func folded(b *strings.Builder, lead, text string) {
	hang := fold.Under(lead)
	hang = hang[:min(len(hang), width/3)]
	b.WriteString(strings.TrimRight(strings.Join(fold.Rows(lead, hang, text, width), "\n"), " ") + "\n")
}
