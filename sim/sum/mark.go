package sum

import (
	"fmt"
	"math"
	"slices"

	"blanch/sim/quantity"
)

// Verdict is what an answer comes to.
type Verdict uint8

// The verdicts. The zero value is invalid. What a missing unit means is for
// the caller: in practice one asks again, in an assessment it is not met.
const (
	Right      Verdict = iota + 1
	Wrong              // another number
	NoUnit             // a number without its unit
	WrongUnit          // a unit that measures something else
	Unreadable         // no answer that can be taken
)

func (v Verdict) String() string {
	switch v {
	case Right:
		return "right"
	case Wrong:
		return "wrong"
	case NoUnit:
		return "unit is missing"
	case WrongUnit:
		return "unit of something else"
	case Unreadable:
		return "cannot be read"
	}
	return "no verdict"
}

// Mark is one answer held against its sum.
type Mark struct {
	Verdict   Verdict
	Answer    Answer
	Reason    string    // why it was not taken; for NoUnit, WrongUnit and Unreadable, and for Wrong where a part of a whole thing is the fault
	Fits      bool      // NoUnit: the number would be right in the unit of the key
	Diagnosis Diagnosis // Wrong and NoUnit: which slips lead there
}

// Mark reads an answer and holds it against the key.
func (s *Sum) Mark(text string) Mark {
	a, err := Read(text)
	if err != nil {
		return Mark{Verdict: Unreadable, Answer: a, Reason: err.Error()}
	}
	return s.MarkAnswer(a)
}

// MarkAnswer holds an answer that was read against the key.
func (s *Sum) MarkAnswer(a Answer) Mark {
	m := Mark{Answer: a}
	switch {
	case a.Value.Unit.IsZero() && !s.Unit.IsZero():
		m.Verdict = NoUnit
		m.Reason = fmt.Sprintf("the unit is missing: %s is a number without one; give it in %s", quantity.Number(a.Value.Value), s.Unit)
		a.Value.Unit = s.Unit
		if m.Fits = s.right(a); !m.Fits {
			m.Diagnosis = s.Diagnose(a)
		}
	case !a.Value.Unit.Same(s.Unit):
		m.Verdict = WrongUnit
		m.Reason = fmt.Sprintf("%s is another kind of amount; give %s", a.Value, inUnit(s.Unit))
	case s.part(a) != 0:
		m.Verdict = Wrong
		m.Diagnosis = s.Diagnose(a)
		m.Reason = fmt.Sprintf("You cannot %s %s of a %s: give the whole number", s.Kind.Whole[0], quantity.Number(quantity.Round(s.part(a), 0.001)), s.Kind.Whole[1])
	case s.right(a):
		m.Verdict = Right
	default:
		m.Verdict = Wrong
		m.Diagnosis = s.Diagnose(a)
	}
	return m
}

// part is what an answer has beyond a whole number, where it counts things of
// which there are no parts.
func (s *Sum) part(a Answer) float64 {
	if s.Kind.Whole[0] == "" || s.Step != 1 {
		return 0
	}
	x := a.Value.Value
	if !s.Unit.IsZero() {
		x = in(x, a.Value.Unit, s.Unit)
	}
	if near(x, quantity.Round(x, 1)) {
		return 0
	}
	return x - math.Floor(x)
}

// right is as isRight; a time in hours and minutes is right to the minute,
// where that is about as fine as the answer is wanted.
func (s *Sum) right(a Answer) bool {
	if a.clock && a.Value.Unit.Same(s.Unit) {
		step := in(s.Step, s.Unit, a.Value.Unit)
		if step >= 0.5 && near(quantity.Round(in(s.key, s.Unit, a.Value.Unit), 1), a.Value.Value) {
			return true
		}
	}
	return s.isRight(a.Value)
}

// isRight says that a value sets the device as the key does, by either
// convention for pounds, or lies within the tolerance.
func (s *Sum) isRight(q quantity.Quantity) bool {
	x := q.Value
	if !s.Unit.IsZero() {
		v, err := q.In(s.Unit)
		if err != nil {
			return false
		}
		x = v
	}
	set := quantity.Round(x, s.Step)
	if set == quantity.Round(s.key, s.Step) || set == quantity.Round(s.also, s.Step) {
		return true
	}
	return abs(x-s.key) <= s.allowed()
}

// allowed is how far from the key an answer may lie, besides setting the
// device as the key does: the tolerance, but never half way to a wrong way
// that sets it otherwise.
func (s *Sum) allowed() float64 {
	most := float64(s.Tolerance * s.key)
	for _, slip := range s.slips {
		if !s.hidden(slip) {
			most = min(most, float64(abs(slip.Value.Value-s.key)*0.499))
		}
	}
	return most
}

// hidden says that a slip sets the device as the key does.
func (s *Sum) hidden(slip Slip) bool {
	set := quantity.Round(slip.Value.Value, s.Step)
	return set == quantity.Round(s.key, s.Step) || set == quantity.Round(s.also, s.Step)
}

// Overlap is slips that nothing tells apart with the numbers of one sum.
type Overlap struct {
	Key   bool // nor from the key: whoever slips so is marked right
	Slips []Slip
}

// Overlaps lists what the numbers of this sum do not tell apart: slips that
// set the device as the key does, and slips that lead to one number. Whoever
// draws the numbers of a sum draws others then.
func (s *Sum) Overlaps() []Overlap {
	var out []Overlap
	blind := Overlap{Key: true}
	done := make([]bool, len(s.slips))
	// What is told in the same words is one slip to whoever reads it.
	said := func(o Overlap, slip Slip) bool {
		return slices.ContainsFunc(o.Slips, func(t Slip) bool { return t.clause == slip.clause })
	}
	for i, slip := range s.slips {
		if s.hidden(slip) {
			done[i] = true
			if !said(blind, slip) {
				blind.Slips = append(blind.Slips, slip)
			}
		}
	}
	if blind.Slips != nil {
		out = append(out, blind)
	}
	for i, slip := range s.slips {
		if done[i] {
			continue
		}
		same := Overlap{Slips: []Slip{slip}}
		own := s.shown(slip)
		for j := i + 1; j < len(s.slips); j++ {
			if !done[j] && s.fits(own, s.slips[j]) {
				done[j] = true
				if !said(same, s.slips[j]) {
					same.Slips = append(same.Slips, s.slips[j])
				}
			}
		}
		if len(same.Slips) > 1 {
			out = append(out, same)
		}
	}
	return out
}

// Exactly says that a value is the key without any rounding.
func (s *Sum) Exactly(q quantity.Quantity) bool {
	x := q.Value
	if !s.Unit.IsZero() {
		x = in(x, q.Unit, s.Unit)
	}
	return s.isKey(x)
}

// ByOwnPounds says that an answer is right by the convention for pounds that
// the sum itself goes by, and not only by the other.
func (s *Sum) ByOwnPounds(q quantity.Quantity) bool {
	x := q.Value
	if !s.Unit.IsZero() {
		x = in(x, q.Unit, s.Unit)
	}
	return quantity.Round(x, s.Step) == quantity.Round(s.key, s.Step)
}
