package sum

import (
	"fmt"

	"blanch/sim/quantity"
)

// Attempt is what somebody gave for the stages of a sum, as typed. What is
// empty was not asked.
type Attempt struct {
	SetUp    string // "0.1 x 70 x 60 / 16", in the unit of the answer
	Computed string // "26.25 mL/h"
	Set      string // "26.3 mL/h"
}

// StageMark is one stage held against what it had to start from.
type StageMark struct {
	Stage   Stage
	Verdict Verdict

	// Carried says that the stage began with a wrong number of an earlier one
	// and was marked with that: a slip counts once. The whole sum is wrong all
	// the same.
	Carried bool
	Said    string // what was done, or why it was not taken; empty when right
}

// implausible is how many times too large or too small a number may be before
// going on with it is no longer right in itself: whoever gets there should
// have stopped and looked.
const implausible = 10

// MarkStages marks the stages that were given apart. Met says that the last of
// them is right in itself, whatever was carried.
func (s *Sum) MarkStages(a Attempt) (stages []StageMark, met bool) {
	from, off := s.key, false
	if a.SetUp != "" {
		m := StageMark{Stage: SetUp}
		x, err := Evaluate(a.SetUp)
		q := quantity.Quantity{Value: x, Unit: s.Unit}
		switch {
		case err != nil:
			m.Verdict, m.Said = Unreadable, err.Error()
		case s.isKey(x):
			m.Verdict = Right
		default:
			m.Verdict = Wrong
			m.Said = s.Diagnose(Answer{Value: q, place: place(x, 9), figures: 9}).Sentence()
		}
		met = m.Verdict == Right
		if err == nil {
			from, off = x, !met
		}
		stages = append(stages, m)
	}
	if a.Computed != "" {
		m, x := s.stage(Compute, a.Computed, from, off)
		met = m.Verdict == Right && !off
		if m.Verdict == Right || m.Verdict == Wrong {
			from, off = x, !s.isRight(quantity.Quantity{Value: x, Unit: s.Unit})
		}
		stages = append(stages, m)
	}
	if a.Set != "" {
		m, _ := s.stage(SetDevice, a.Set, from, off)
		met = m.Verdict == Right && !off
		stages = append(stages, m)
	}
	return stages, met
}

// isKey says that an unrounded value is the key, by either convention for
// pounds.
func (s *Sum) isKey(x float64) bool {
	return near(x, s.key) || near(x, s.also)
}

// stage marks an answer against the number it had to start from.
func (s *Sum) stage(stage Stage, text string, from float64, off bool) (StageMark, float64) {
	m := StageMark{Stage: stage, Carried: off}
	whole := s.Mark(text)
	switch whole.Verdict {
	case NoUnit, WrongUnit, Unreadable:
		m.Verdict, m.Said = whole.Verdict, whole.Reason
		return m, 0
	}
	x := whole.Answer.Value.Value
	if !s.Unit.IsZero() {
		x = in(x, whole.Answer.Value.Unit, s.Unit)
	}
	m.Verdict = Right
	switch target := quantity.Round(from, s.Step); {
	case off && (from > float64(s.key*implausible) || from < s.key/implausible):
		m.Verdict = Wrong
		m.Said = fmt.Sprintf("%s is %d times away from what is plausible, or more: stop and look at the step before.", capital(written(from, s.Unit)), implausible)
	case stage == SetDevice && !near(x, target):
		m.Verdict = Wrong
		m.Said = fmt.Sprintf("%s is set as %s: rounded half up to %s.", capital(written(from, s.Unit)), quantity.Quantity{Value: target, Unit: s.Unit}, quantity.Number(s.Step))
	case stage == Compute && quantity.Round(x, s.Step) != target:
		m.Verdict = Wrong
		m.Said = fmt.Sprintf("What you set up comes to %s.", written(from, s.Unit))
		if !off {
			m.Said = whole.Diagnosis.Sentence()
		}
	}
	return m, x
}
