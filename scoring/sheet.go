package scoring

import (
	"fmt"
	"slices"
	"strings"

	"blanch/sim"
	"blanch/sim/quantity"
)

const (
	sheetWidth   = 80
	mostEvidence = 3 // entries shown for one mark
)

const caution = "For training only. An invented patient and a teaching model: local policy and licensed practice decide at a real bedside."

// Text writes the sheet as plain lines of at most 80 columns, by objective:
// each mark with what was said to it and what it rests on in the run.
func (s Sheet) Text(r *sim.Result) string {
	b := &sheetWriter{}
	b.line("", "Marks: "+s.Title)
	b.line("", fmt.Sprintf("Case %s under policy %s", s.Case, s.Policy))
	b.gap()
	b.line("", "Result: "+s.result())
	for _, why := range s.Why {
		b.line("  - ", why)
	}
	if slices.ContainsFunc(s.Marks, func(m Mark) bool { return m.Verdict == DidNotApply }) {
		b.line("", "Did not apply: what the rule asks about never came up. It counts neither for nor against you.")
	}
	for _, o := range s.Objectives {
		b.marks(s, r, o.ID, o.Text)
	}
	b.marks(s, r, "", "Other")
	b.gap()
	b.line("", fmt.Sprintf("Points: %s of %s. Pass mark: %s.", points(s.Earned), points(s.OutOf), Share{s.PassPoints}))
	b.line("", caution)
	return b.String()
}

func (s Sheet) result() string {
	if s.Passed {
		return "passed"
	}
	return "not passed"
}

// points writes a number of points.
func points(p float64) string { return quantity.Number(quantity.Round(p, 0.01)) }

// ofPoints writes what was earned of what there was.
func ofPoints(earned, of float64) string {
	unit := " points"
	if points(of) == "1" {
		unit = " point"
	}
	return points(earned) + " of " + points(of) + unit
}

// sheetWriter folds lines.
type sheetWriter struct{ strings.Builder }

func (b *sheetWriter) gap() { b.WriteByte('\n') }

// line writes text behind a lead, folded; later lines stand under the text.
func (b *sheetWriter) line(lead, text string) {
	b.WriteString(lead)
	indent := strings.Repeat(" ", width(lead))
	at := width(lead)
	for i, word := range strings.Fields(text) {
		if i > 0 && at+1+width(word) > sheetWidth {
			b.WriteString("\n" + indent)
			at = width(indent)
		} else if i > 0 {
			b.WriteByte(' ')
			at++
		}
		b.WriteString(word)
		at += width(word)
	}
	b.WriteByte('\n')
}

// width counts characters; wide scripts take more columns on a screen.
func width(s string) int { return len([]rune(s)) }

// marks writes the marks that serve an objective; the empty one collects
// those that serve none.
func (b *sheetWriter) marks(s Sheet, r *sim.Result, objective, heading string) {
	begun := false
	for _, m := range s.Marks {
		if m.Serves != objective && (objective != "" || s.hasObjective(m.Serves)) {
			continue
		}
		if !begun {
			b.gap()
			b.line("", heading)
			begun = true
		}
		b.mark(m, r)
	}
}

func (s Sheet) hasObjective(id string) bool {
	for _, o := range s.Objectives {
		if o.ID == id {
			return true
		}
	}
	return false
}

func (b *sheetWriter) mark(m Mark, r *sim.Result) {
	head := m.Rule + ": " + m.Verdict.String()
	switch {
	case m.Verdict == DidNotApply:
	case m.Critical && m.Points == 0:
		head += ", critical"
	case m.Critical:
		head += ", critical, " + ofPoints(m.Earned, m.Points)
	default:
		head += ", " + ofPoints(m.Earned, m.Points)
	}
	b.line("  ", head)
	if m.Said != "" {
		b.line("    ", m.Said)
	}
	shown := 0
	for _, i := range m.Evidence {
		if i >= len(r.Journal) {
			continue
		}
		if shown == mostEvidence {
			b.line("    ", fmt.Sprintf("and %d more", len(m.Evidence)-shown))
			break
		}
		e := r.Journal[i]
		b.line("    "+e.At.Clock()+"  ", e.Text())
		shown++
	}
}
