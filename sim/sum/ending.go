package sum

import (
	"fmt"
	"strings"

	"blanch/sim/quantity"
)

// slipsAtTheEnd adds what people do to a whole answer: a factor that no step
// of this sum has, the decimal point, two digits, the rounding.
func (s *Sum) slipsAtTheEnd(right *path) {
	answer := quantity.Round(s.key, s.Step)
	last := len(s.steps) + 1 // the answer
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

	for _, x := range swaps(answer) {
		q := quantity.Quantity{Value: x, Unit: s.Unit}
		s.add(Slip{Name: "digits of the answer swapped to " + quantity.Number(x), Family: PlaceValue, Stage: Compute, Step: last,
			clause: fmt.Sprintf("swapped two digits of %s", quantity.Quantity{Value: answer, Unit: s.Unit}), Value: q, also: x, digits: true})
	}
	s.rounded(answer)
}

// rounded adds what people do in the name of rounding: to fewer digits than
// asked, rightly or by cutting them off, and to the nearest 5.
func (s *Sum) rounded(answer float64) {
	one := func(name string, x float64, clause string) {
		s.add(Slip{Name: name, Family: Rounding, Stage: SetDevice, Step: len(s.steps) + 1, clause: clause,
			Value: quantity.Quantity{Value: x}, also: x, exact: true})
	}
	in := func(x float64) string { return quantity.Quantity{Value: x, Unit: s.Unit}.String() }
	down := func(step float64) float64 { return quantity.Round(s.key-step/2, step) }
	cut := func(x float64) {
		one("cut off behind "+quantity.Number(x), x, fmt.Sprintf("cut off the digits behind %s, where a half and more goes up", quantity.Number(x)))
	}
	coarser := func(step float64) {
		to := "the nearest " + in(step)
		if step == 1 {
			to = "whole numbers"
		}
		one("rounded to "+to, quantity.Round(s.key, step), fmt.Sprintf("rounded to %s, which is coarser than asked (the nearest %s)", to, in(s.Step)))
	}
	if x := down(s.Step); answer > s.key && !near(answer, s.key) && x > 0 && x < answer {
		cut(x)
	}
	before := answer
	for step := power(magnitude(s.Step) + 1); step <= power(magnitude(s.key)); step = power(magnitude(step) + 1) {
		x := quantity.Round(s.key, step)
		if x != before && x != answer {
			coarser(step)
		}
		// One digit alone is no number that was cut.
		if low := down(step); x > s.key && low < x && low >= float64(10*step) {
			cut(low)
		}
		before = x
	}
	// To the nearest 5 nobody moves a number by more than a twentieth.
	if x := quantity.Round(s.key, 5); s.Step < 5 && x != quantity.Round(s.key, 10) && x != quantity.Round(s.key, 1) && x != answer && abs(x-s.key) < s.key/20 {
		coarser(5)
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
