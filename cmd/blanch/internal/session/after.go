package session

import (
	"fmt"
	"strings"

	"blanch/sim"
	"blanch/sim/quantity"
)

// What can be read once the attempt has been marked, beside the sheet.

// Debrief is the hour as it was, in parts that are read one at a time. Where
// is where the recording lies, empty for nowhere.
func (s *Session) Debrief(where string) []Paper {
	s.Finish()
	r := s.e.Result()
	marks := rows(verdicts(s.a, r) + "\n" + origin(r))
	switch {
	case s.unsaved != nil:
		marks = append([]Line{fault("%s", s.NotSaved()), {Kind: Row}}, marks...)
	case where != "":
		marks = append(marks, Line{Kind: Row}, told("The recording lies in %s; blanch replay shows it again.", where))
	}
	return []Paper{
		{"Marks", marks},
		{"Timeline", s.timeline()},
		{"Sums", s.workedSums(r)},
		{"The arm", s.arm(r)},
		{"Teaching", append(s.Teaching(), s.ownWords()...)},
	}
}

func rows(text string) []Line {
	var out []Line
	for _, l := range strings.Split(strings.TrimRight(text, "\n"), "\n") {
		out = append(out, Line{Kind: Row, Text: l})
	}
	return out
}

func (s *Session) timeline() []Line {
	out := []Line{told("What was true but not shown to you at the time says so.")}
	for i, en := range s.entries {
		if en.Kind == sim.Started && s.toldLater(i) || saidAlready(s.entries[:i], en) {
			continue // an act stands once, with what came of it
		}
		out = append(out, happened(en))
	}
	if s.stopped {
		out = append(out, Line{Kind: Happened, At: s.e.Now().Exact(), Text: "You stopped the case here."})
	}
	return out
}

// ownWords are the answers to the questions for reflection.
func (s *Session) ownWords() []Line {
	var out []Line
	for i, q := range s.Reflections() {
		if s.reflects[i] == "" {
			continue
		}
		if len(out) == 0 {
			out = append(out, heading("What you said before the marks"))
		}
		out = append(out, told("%s", q), told("    %s", s.reflects[i]))
	}
	return out
}

// Sums is every sum of an attempt that is over, with what led to a wrong
// answer.
func (s *Session) Sums() []Line {
	s.Finish()
	return s.workedSums(s.e.Result())
}

// workedSums goes through every sum with the numbers of this attempt.
func (s *Session) workedSums(r *sim.Result) []Line {
	var out []Line
	for i, sum := range sums(s.a, r) {
		out = append(out, rows(sum)...)
		out = append(out, diagnosis(s.a, r, r.Answers[i])...)
		out = append(out, Line{Kind: Row})
	}
	if len(out) == 0 {
		return []Line{told("No sum was asked: what raises them was not done.")}
	}
	return out
}

// arm says how the arms fared, with what was not shown while it happened.
func (s *Session) arm(r *sim.Result) []Line {
	n := func(x, step float64) string { return quantity.Number(quantity.Round(x, step)) }
	out := []Line{told("Computed by a teaching model. On a real arm every leak is treated at once, whatever the numbers.")}
	for _, l := range r.Lines {
		if l.Central {
			continue
		}
		out = append(out, heading(fmt.Sprintf("%s, %d gauge, %s mm at %s degrees", l.Subject, l.Cannula.Gauge, quantity.Number(l.Cannula.LengthMM), quantity.Number(l.AngleDeg))))
		say := func(format string, args ...any) {
			out = append(out, told("- "+format, args...))
		}
		if l.Placed == sim.Never {
			say("The puncture failed; no cannula lay there.")
			continue
		}
		say("%s %% of it lay in the vein.", n(100*l.Share, 1))
		switch {
		case l.Pressor == sim.Never:
			say("No vasopressor ran through it.")
		case l.Leaks == sim.Never:
			say("%s; this line did not leak.", firstRan(l.Pressor))
		default:
			say("%s. It began to run beside the vein at %s, which was not shown.", firstRan(l.Pressor), l.Leaks.Clock())
		}
		for _, sight := range r.Sights {
			if sight.Subject == l.Subject && sight.At >= l.Placed {
				sign := strings.ReplaceAll(sight.Sign, "-", " ")
				if sign == "leak" {
					sign = "a first sign"
				}
				say("%s could be found from %s on.", strings.ToUpper(sign[:1])+sign[1:], sight.At.Clock())
			}
		}
		if at := judged(r, l.Subject); at != sim.Never {
			say("You judged it to be leaking at %s.", at.Clock())
		} else if l.Leaks != sim.Never {
			say("You never judged it to be leaking.")
		}
		if l.Removed != sim.Never {
			say("It was taken out at %s.", l.Removed.Clock())
		}
	}
	o := r.Outcome
	out = append(out, heading("In all"))
	if o.FirstDrug == sim.Never {
		out = append(out, told("- No drug reached the blood."))
	} else {
		reached := "Drug first reached the blood at " + o.FirstDrug.Clock()
		if o.FirstDrug == 0 {
			reached = "Drug reached the blood when you came"
		}
		out = append(out,
			told("- %s. Time without any after that: %s.", reached, seconds(o.DrugFreeS)),
			told("- In truth, from then on, the mean pressure was under the target for: %s; over the upper limit for: %s. The marks go by the pressure as it was shown.", seconds(o.UnderS), seconds(o.OverS)))
	}
	if o.TissueML > 0 {
		out = append(out,
			told("- %s mL went into tissue, with %s; the swelling was %s cm (%s mm) across at its widest.", n(o.TissueML, 0.1), inTissue(r), n(o.WidestMM/10, 0.5), n(o.WidestMM, 5)),
			told("- The middle of it was short of blood for %s.", seconds(o.IschaemicS)))
	} else {
		out = append(out, told("- Nothing went into tissue."))
	}
	return out
}

// firstRan says when the vasopressor first ran: what ran when the case opened
// ran before, and nobody said since when.
func firstRan(at sim.Time) string {
	if at == 0 {
		return "The vasopressor ran when you came"
	}
	return "The vasopressor first ran at " + at.Clock()
}

// inTissue is what went into tissue of each drug, in its own unit.
func inTissue(r *sim.Result) string {
	var out []string
	for _, d := range r.Tissue {
		unit, step := measuredIn(d.Drug)
		out = append(out, fmt.Sprintf("%s %s of %s", quantity.Number(quantity.Round(d.Amount, step)), unit, d.Drug))
	}
	if len(out) == 0 {
		return "no vasopressor"
	}
	return strings.Join(out, " and ")
}

func judged(r *sim.Result, line string) sim.Time {
	for _, en := range r.Journal {
		if en.Kind == sim.Done && en.Act == "judge" && en.Subject == line && en.Word == "leaking" {
			return en.At
		}
	}
	return sim.Never
}

func seconds(s float64) string {
	if s <= 0 {
		return "none"
	}
	return span(sim.FromSeconds(s))
}
