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
		if a.drawn.Sum.Unit.IsZero() {
			return []session.Line{fault("write the number; ? helps")}, nil
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
			return s.end(false, answered(m), append([]session.Line{told("Not met: %s.", m.Reason)}, a.working(0, "")...))
		}
		if a.try++; a.try > mostTries {
			a.try = mostTries
			return s.end(false, answered(m), append([]session.Line{told("It counts as missed: %s.", m.Reason)}, a.working(0, "")...))
		}
		why := "A number is nothing without the unit that belongs to it."
		if m.Verdict == sum.WrongUnit {
			why = "The unit tells what was worked out, and this one belongs to something else."
		}
		return []session.Line{fault("%s", m.Reason), told("%s Write it again; it no longer counts as right first time.", why)}, nil
	}
	if a.stage == sum.Compute {
		a.typed.Computed = text
		a.stage = sum.SetDevice
		return nil, nil
	}
	a.typed.Set = text
	right, said := a.markNumber(m)
	return s.end(right, answered(m), said)
}

// answered is what was answered, in safe notation.
func answered(m sum.Mark) string {
	if m.Verdict == sum.NoUnit {
		return quantity.Number(m.Answer.Value.Value) + ", without a unit"
	}
	return m.Answer.Value.String()
}

// markNumber marks all that was typed. The answer that is set decides, and it
// alone: whoever puts right at the device what went wrong before it has the
// right number there, though not at the first try.
func (a *asked) markNumber(m sum.Mark) (bool, []session.Line) {
	y := a.drawn.Sum
	var stages []sum.StageMark
	if a.typed.SetUp != "" || a.typed.Computed != "" {
		stages, _ = y.MarkStages(a.typed)
	}
	sound := true // all before the last stage was right
	for _, st := range stages[:max(0, len(stages)-1)] {
		sound = sound && st.Verdict == sum.Right && !st.Carried
	}
	right := m.Verdict == sum.Right
	out := []session.Line{told("%s", a.headline(m, stages, sound))}
	if !right || !sound {
		for _, st := range stages {
			out = append(out, a.stageLine(st))
		}
	}
	switch {
	case right && sound:
		if set := y.Answer(); a.drawn.Device != "" && m.Answer.Value != set && m.Answer.Value.Unit == set.Unit {
			out = append(out, told("It is set as %s.", set))
		}
		return true, append(out, a.working(0, "")...)
	case right:
		a.try = max(a.try, 2)
		out = append(out, told("The number you set is the right one, and it counts. What you typed before does not lead to it, so it does not count as right first time."))
		return true, append(out, a.working(leaves(stages))...)
	case sound && stages != nil:
		return false, append(out, a.working(len(y.Steps()), fmt.Sprintf("You left the path here: all before was right, and then you set %s%s.", m.Answer.Value, times(m.Answer.Value, y.Key())))...)
	case stages != nil:
		if at, remark := leaves(stages); at > 0 {
			return false, append(out, a.working(at, remark)...)
		}
		if !slices.ContainsFunc(stages, func(st sum.StageMark) bool { return len(st.Diagnosis.Slips) > 0 }) {
			out = append(out, told("No single slip that is known here leads there. Compare your own steps with these."))
		}
		return false, append(out, a.working(0, "")...)
	}
	return false, append(out, a.diagnosed(m)...)
}

// leaves is the step at which the first wrong stage left the path, where one
// slip explains it; 0 for none.
func leaves(stages []sum.StageMark) (step int, remark string) {
	for _, st := range stages {
		if st.Verdict != sum.Wrong {
			continue
		}
		if len(st.Diagnosis.Slips) != 1 {
			return 0, ""
		}
		what := "What you set"
		switch st.Stage {
		case sum.SetUp:
			what = "Your set-up"
		case sum.Compute:
			what = "What you computed"
		}
		return st.Diagnosis.Slips[0].Step, what + " left the path here."
	}
	return 0, ""
}

// headline says how the answer that is set went. The warning of harm is kept
// for what can harm: under 84 for 84.1 it would lose its force, and would no
// longer be read where the number is 60 times too large. The question is
// missed all the same, and what is critical about it stands.
func (a *asked) headline(m sum.Mark, stages []sum.StageMark, sound bool) string {
	d := m.Diagnosis
	switch {
	case m.Verdict == sum.Right || !a.closeBy(m):
		return verdict(m.Verdict == sum.Right, a.Critical)
	case m.Reason != "":
		return "Not right. Close: only a whole number can be used."
	case !sound:
		return verdict(false, a.Critical)
	case len(d.Slips) == 0:
		return "Not right. Close: look where you rounded."
	}
	early, late := false, false
	for _, s := range d.Slips {
		early = early || s.Stage < sum.SetDevice
		late = late || s.Stage == sum.SetDevice
	}
	switch {
	case early && late && len(stages) == 0:
		return "Not right. Close: rounded too early, or not as asked."
	case early && !late:
		return "Not right. Close: rounded too early."
	}
	return "Not right. Close: not rounded as asked."
}

// What is a near miss is our own choice: a twentieth, where nothing but
// rounding explains the number; a fiftieth, where nothing is known that does.
const (
	closeByRounding = 1.0 / 20
	closeByNothing  = 1.0 / 50
)

func (a *asked) closeBy(m sum.Mark) bool {
	key := a.drawn.Sum.Key()
	v := m.Answer.Value.Value
	if !key.Unit.IsZero() {
		var err error
		if v, err = m.Answer.Value.In(key.Unit); err != nil {
			return false
		}
	}
	off := math.Abs(v/key.Value - 1)
	switch {
	case m.Reason != "":
		return math.Abs(v-key.Value) < 1
	case m.Diagnosis.Rounded():
		return off <= closeByRounding
	}
	return len(m.Diagnosis.Slips) == 0 && off <= closeByNothing
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

// stageLine says how one stage went. Of a critical question nothing is carried
// forward: only the number that is set counts.
func (a *asked) stageLine(st sum.StageMark) session.Line {
	said := st.Said
	switch {
	case st.Carried && a.Critical:
		said += " In a critical question only the right number counts."
	case st.Carried:
		said += " A slip counts once: going on from it was done rightly."
	}
	name := capital(st.Stage.String())
	if st.Stage == sum.SetDevice {
		name = capital(deviceOf(a.drawn.Device).name)
	}
	return told("  %s: %s", name, said)
}

// diagnosed explains a wrong number: the slip in one sentence, where it leads,
// and the steps with the place where they were left.
func (a *asked) diagnosed(m sum.Mark) []session.Line {
	d := m.Diagnosis
	switch {
	case m.Reason != "":
		return append([]session.Line{told("%s.", m.Reason)}, a.working(len(a.drawn.Sum.Steps()), "Here only a whole number can be given.")...)
	case len(d.Slips) == 0:
		return append([]session.Line{told("No single slip that is known here leads to %s. Compare your own steps with these.", m.Answer.Value)}, a.working(0, "")...)
	case len(d.Slips) == 1:
		out := []session.Line{told("%s", d.Sentence())}
		return append(out, a.working(d.Slips[0].Step, fmt.Sprintf("You left the path here, which leads to %s.", m.Answer.Value))...)
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
