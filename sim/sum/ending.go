package sum

import (
	"fmt"
	"strings"

	"blanch/sim/quantity"
)

// slipsAtTheEnd adds what people do to a whole answer: a factor that no step
// of this sum has, the decimal point, two digits, the rounding.
func (s *Sum) slipsAtTheEnd(right *path) {
	last := len(s.steps)
	one := func(name string, f Family, stage Stage, factor float64, clause string) {
		s.add(Slip{Name: name, Family: f, Stage: stage, Step: last, clause: clause,
			Value: quantity.Quantity{Value: float64(s.key * factor)}, also: float64(s.also * factor)})
	}
	if !right.grand && s.hasMass() && !s.Unit.IsZero() {
		one("1000 too many", UnitFactor, SetUp, 1000, "mixed up mg and mcg, which makes it 1000 times too much")
		one("1000 too few", UnitFactor, SetUp, 1/1000.0, "mixed up mg and mcg, which makes it 1000 times too little")
	}
	if !right.sixty && s.hasTime() && !s.Unit.IsZero() {
		one("60 too many", UnitFactor, SetUp, 60, "mixed up minutes and hours, which makes it 60 times too much")
		one("60 too few", UnitFactor, SetUp, 1/60.0, "mixed up minutes and hours, which makes it 60 times too little")
	}
	one("point to the right", PlaceValue, Compute, 10, "put the decimal point one place too far to the right")
	one("point to the left", PlaceValue, Compute, 1/10.0, "put the decimal point one place too far to the left")

	answer := quantity.Round(s.key, s.Step)
	for _, x := range swaps(answer) {
		q := quantity.Quantity{Value: x, Unit: s.Unit}
		s.add(Slip{Name: "digits of the answer swapped to " + quantity.Number(x), Family: PlaceValue, Stage: Compute, Step: last,
			clause: fmt.Sprintf("swapped two digits of %s", quantity.Quantity{Value: answer, Unit: s.Unit}), Value: q, also: x})
	}
	if down := quantity.Round(s.key-s.Step/2, s.Step); answer > s.key && !near(answer, s.key) && down > 0 && down < answer {
		s.add(Slip{Name: "cut off", Family: Rounding, Stage: SetDevice, Step: last + 1,
			clause: fmt.Sprintf("cut off the digits behind %s, where a half and more goes up", quantity.Number(down)), Value: quantity.Quantity{Value: down}, also: down})
	}
	// Nobody moves a number by more than a twentieth in the name of rounding.
	before := answer
	for _, r := range []struct {
		step float64
		word string
	}{{1, "whole numbers"}, {5, "the nearest 5"}, {10, "the nearest 10"}} {
		coarse := quantity.Round(s.key, r.step)
		if r.step > s.Step && coarse != before && coarse != answer && abs(coarse-s.key) < s.key/20 {
			before = coarse
			s.add(Slip{Name: "rounded to " + r.word, Family: Rounding, Stage: SetDevice, Step: last + 1,
				clause: fmt.Sprintf("rounded to %s, where the answer is wanted to %s", r.word, quantity.Quantity{Value: s.Step, Unit: s.Unit}), Value: quantity.Quantity{Value: coarse}, also: coarse})
		}
	}
}

// hasMass says that a mass of drug plays a part in the sum.
func (s *Sum) hasMass() bool { return s.has("mcg", "mg", "g") }

func (s *Sum) hasTime() bool { return s.has("h", "min", "d", "s") }

func (s *Sum) has(parts ...string) bool {
	within := func(u quantity.Unit) bool {
		for _, part := range strings.Split(u.String(), "/") {
			for _, want := range parts {
				if part == want {
					return true
				}
			}
		}
		return false
	}
	if within(s.Unit) {
		return true
	}
	for _, q := range s.given {
		if within(q.Unit) {
			return true
		}
	}
	return false
}
