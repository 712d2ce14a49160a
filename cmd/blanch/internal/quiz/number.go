package quiz

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"blanch/cmd/blanch/internal/session"
	"blanch/sim/quantity"
	"blanch/sim/sum"
)

// mostTries is how often an answer without a possible unit is asked again in
// practice before it counts as missed.
const mostTries = 3

// number takes one stage of a sum.
func (s *Sitting) number(text string) ([]session.Line, error) {
	a := s.now
	if text == "" {
		if a.stage < sum.SetDevice {
			a.stage++
			return nil, nil
		}
		return []session.Line{fault("write the number with its unit; ? helps")}, nil
	}
	if a.stage == sum.SetUp {
		_, err := sum.Evaluate(text)
		if err == nil {
			a.typed.SetUp = text
			a.stage = sum.Compute
			return nil, nil
		}
		// Whoever has the answer gives it.
		if got, wrong := sum.Read(text); wrong != nil || got.Value.Unit.IsZero() {
			return []session.Line{fault("%v", err)}, nil
		}
		a.stage = sum.SetDevice
	}
	m := a.drawn.Sum.Mark(text)
	if m.Verdict == sum.Unreadable {
		return []session.Line{fault("%s", m.Reason), told("It was not marked. Write it so that it can be read in one way only.")}, nil
	}
	a.note(m)
	if m.Verdict == sum.NoUnit || m.Verdict == sum.WrongUnit {
		if s.o.Assess {
			return s.end(false, text, append([]session.Line{told("Not met: %s.", m.Reason)}, a.working(0, "")...))
		}
		if a.try++; a.try > mostTries {
			a.try = mostTries
			return s.end(false, text, append([]session.Line{told("It counts as missed: %s.", m.Reason)}, a.working(0, "")...))
		}
		return []session.Line{fault("%s", m.Reason), told("A number is nothing without the unit that belongs to it. Write it again; it no longer counts as right first time.")}, nil
	}
	if a.stage == sum.Compute {
		a.typed.Computed = text
		a.stage = sum.SetDevice
		return nil, nil
	}
	a.typed.Set = text
	right, said := a.markNumber(m)
	return s.end(right, text, said)
}

// note keeps what there is to say on notation that can be misread.
func (a *asked) note(m sum.Mark) {
	if len(m.Answer.Unsafe) == 0 {
		return
	}
	said := []session.Line{told("On notation: your answer was taken as %s, but as you wrote it, it can be misread (%s).", m.Answer.Value, sum.NotationRule)}
	for _, u := range m.Answer.Unsafe {
		said = append(said, told("  - %s.", u))
	}
	if !slices.Contains(a.notes, said[0]) {
		a.notes = append(a.notes, said...)
	}
}

// markNumber marks all that was typed. The answer that is set decides.
func (a *asked) markNumber(m sum.Mark) (bool, []session.Line) {
	y := a.drawn.Sum
	if a.typed.SetUp == "" && a.typed.Computed == "" || m.Verdict == sum.Right && a.soundBefore() {
		if m.Verdict == sum.Right {
			out := []session.Line{told("%s", verdict(true, a.Critical))}
			if set := y.Answer(); a.drawn.Device != "" && m.Answer.Value != set {
				out = append(out, told("It is set as %s.", set))
			}
			return true, append(out, a.working(0, "")...)
		}
		return false, append([]session.Line{told("%s", verdict(false, a.Critical))}, a.diagnosed(m)...)
	}
	stages, met := y.MarkStages(a.typed)
	out := []session.Line{told("%s", verdict(met, a.Critical))}
	for _, st := range stages {
		out = append(out, a.stageLine(st))
	}
	steps := len(y.Steps())
	switch {
	case met:
		return true, append(out, a.working(0, "")...)
	case a.soundBefore():
		return false, append(out, a.working(steps, fmt.Sprintf("You left the path here: all before was right, and then you set %s%s.", m.Answer.Value, times(m.Answer.Value, y.Key())))...)
	case m.Verdict == sum.Right:
		out = append(out, told("The number you set is the right one, and what came before does not lead to it: the sum counts as missed until it does."))
	}
	return false, append(out, a.diagnosed(m)...)
}

// times says how far off a number is, where it is off by a factor that harms:
// minutes and hours mixed up, or a misplaced point.
func times(set, key quantity.Quantity) string {
	v, err := set.In(key.Unit)
	if err != nil || key.Value == 0 {
		return ""
	}
	for _, factor := range []float64{10, 60, 100, 1000} {
		switch near := v / key.Value; {
		case math.Abs(near/factor-1) < 0.02:
			return fmt.Sprintf(", %g times as much", factor)
		case math.Abs(near*factor-1) < 0.02:
			return fmt.Sprintf(", a %s of it", map[float64]string{10: "tenth", 60: "sixtieth", 100: "hundredth", 1000: "thousandth"}[factor])
		}
	}
	return ""
}

// soundBefore says that the stages before the last are right in themselves.
func (a *asked) soundBefore() bool {
	if a.typed.SetUp != "" {
		stages, _ := a.drawn.Sum.MarkStages(sum.Attempt{SetUp: a.typed.SetUp})
		if stages[0].Verdict != sum.Right {
			return false
		}
	}
	return a.typed.Computed == "" || a.drawn.Sum.Mark(a.typed.Computed).Verdict == sum.Right
}

// stageLine says how one stage went. Of a critical question nothing is carried
// forward: only the number that is set counts.
func (a *asked) stageLine(st sum.StageMark) session.Line {
	name := capital(st.Stage.String())
	switch {
	case st.Verdict == sum.Right && st.Carried && a.Critical:
		return told("  %s: it follows from your own number, but in a critical question only the right number counts.", name)
	case st.Verdict == sum.Right && st.Carried:
		return told("  %s: right, going on from your own number. A slip counts once.", name)
	case st.Verdict == sum.Right:
		return told("  %s: right.", name)
	case st.Said == "":
		return told("  %s: not right.", name)
	}
	return told("  %s: not right. %s", name, st.Said)
}

// diagnosed explains a wrong number: the slip in one sentence, where it leads,
// and the steps with the place where they were left.
func (a *asked) diagnosed(m sum.Mark) []session.Line {
	d := m.Diagnosis
	switch len(d.Slips) {
	case 0:
		if m.Verdict == sum.Right {
			return a.working(0, "")
		}
		return append([]session.Line{told("No single slip that is known here leads to %s. Hold your steps against these.", m.Answer.Value)}, a.working(0, "")...)
	case 1:
		slip := d.Slips[0]
		out := []session.Line{told("%s", d.Sentence())}
		return append(out, a.working(slip.Step, fmt.Sprintf("You left the path here, which leads to %s.", m.Answer.Value))...)
	}
	return append([]session.Line{told("%s", d.Sentence())}, a.working(0, "")...)
}

// working is the steps, with a remark after one of them.
func (a *asked) working(at int, remark string) []session.Line {
	out := []session.Line{told("Step by step:")}
	lines := a.drawn.Sum.Working()
	for i, l := range lines {
		out = append(out, told("  %s", l))
		if i+1 == at || at > len(lines) && i+1 == len(lines) {
			out = append(out, told("     %s", remark))
		}
	}
	return out
}

func capital(s string) string { return strings.ToUpper(s[:1]) + s[1:] }
