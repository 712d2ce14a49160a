package sum

import (
	"fmt"
	"strings"

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
	// and follows from it: a slip counts once. The whole sum is wrong all the
	// same.
	Carried bool

	// Said begins with what was typed in this stage, and says how it went. It
	// never says what a wrong number of an earlier stage would be set as: that
	// would read as an order to set it.
	Said      string
	Diagnosis Diagnosis // which slips of this stage lead there; of what is Wrong
}

// implausible is how many times too large or too small a number may be before
// going on with it is no longer right in itself: whoever gets there should
// have stopped and looked.
const implausible = 10

// MarkStages marks the stages that were given apart. Met says that the last of
// them is right in itself, whatever was carried.
func (s *Sum) MarkStages(a Attempt) (stages []StageMark, met bool) {
	before := earlier{x: s.key}
	if a.SetUp != "" {
		m, x := s.setUp(a.SetUp)
		met = m.Verdict == Right
		if m.Verdict != Unreadable {
			before = earlier{x: x, off: !met, name: "your set-up"}
		}
		stages = append(stages, m)
	}
	if a.Computed != "" {
		m, x, taken := s.stage(Compute, a.Computed, before)
		met = m.Verdict == Right && !m.Carried
		if taken {
			before = earlier{x: x, off: !s.isRight(quantity.Quantity{Value: x, Unit: s.Unit}), name: "the number before it"}
		}
		stages = append(stages, m)
	}
	if a.Set != "" {
		m, _, _ := s.stage(SetDevice, a.Set, before)
		met = m.Verdict == Right && !m.Carried
		stages = append(stages, m)
	}
	return stages, met
}

// earlier is what a stage had to start from: the key where nothing was given.
type earlier struct {
	x    float64
	off  bool   // it is wrong
	name string // empty where nothing was given
}

// isKey says that an unrounded value is the key, by either convention for
// pounds.
func (s *Sum) isKey(x float64) bool {
	return near(x, s.key) || near(x, s.also)
}

// setUp marks the sum as it was typed.
func (s *Sum) setUp(text string) (StageMark, float64) {
	m := StageMark{Stage: SetUp, Verdict: Right}
	x, err := Evaluate(text)
	if err != nil {
		m.Verdict, m.Said = Unreadable, capital(err.Error())+"."
		return m, 0
	}
	comes := fmt.Sprintf("%s comes to %s", strings.TrimSpace(text), written(x, s.Unit))
	if s.isKey(x) {
		m.Said = comes + ": right."
		return m, x
	}
	m.Verdict = Wrong
	m.Diagnosis = s.Diagnose(Answer{Value: quantity.Quantity{Value: x, Unit: s.Unit}, exact: true})
	m.Said = comes + ": not right." + led(m.Diagnosis.Sentence())
	return m, x
}

func led(sentence string) string {
	if sentence == "" {
		return ""
	}
	return " " + sentence
}

// stage marks an answer against the number it had to start from. Taken says
// that it could be read, and is x.
func (s *Sum) stage(stage Stage, text string, before earlier) (m StageMark, x float64, taken bool) {
	m = StageMark{Stage: stage, Verdict: Right}
	whole := s.Mark(text)
	switch whole.Verdict {
	case NoUnit, WrongUnit, Unreadable:
		m.Verdict, m.Said = whole.Verdict, capital(whole.Reason)+"."
		return m, 0, false
	}
	x = whole.Answer.Value.Value
	if !s.Unit.IsZero() {
		x = in(x, whole.Answer.Value.Unit, s.Unit)
	}
	typed := whole.Answer.Value.String()
	right := whole.Verdict == Right || stage == Compute && s.right(whole.Answer)
	follows := quantity.Round(x, s.Step) == quantity.Round(before.x, s.Step)
	far := before.x > float64(s.key*implausible) || before.x < s.key/implausible
	switch {
	case right && before.off && !follows:
		m.Said = fmt.Sprintf("%s is the right number, though %s does not lead to it.", typed, before.name)
	case right:
		m.Said = typed + ": right."
	case before.off && follows && far:
		m.Verdict = Wrong
		m.Said = fmt.Sprintf("%s follows from %s, and is wrong with it: %d times or more away from what this order needs.", typed, before.name, implausible)
		if stage == Compute {
			m.Said += " Stop and look at such a number before you go on."
		}
	case before.off && follows:
		m.Carried = true
		m.Said = fmt.Sprintf("%s follows from %s, and is wrong with it.", typed, before.name)
	case before.off:
		m.Verdict = Wrong
		m.Said = fmt.Sprintf("%s: not right, and it does not follow from %s.", typed, before.name)
	default:
		m.Verdict = Wrong
		m.Diagnosis = whole.Diagnosis
		m.Said = typed + ": not right."
		if before.name != "" {
			// What came before was right, so that only a later slip is one of
			// this stage.
			m.Diagnosis = whole.Diagnosis.From(Compute)
			m.Said = fmt.Sprintf("%s: not right. %s was right: %s.", typed, capital(before.name), written(before.x, s.Unit))
		}
		if whole.Reason != "" {
			m.Said = typed + ": not right. " + whole.Reason + "."
		}
		m.Said += led(m.Diagnosis.Sentence())
	}
	return m, x, true
}
