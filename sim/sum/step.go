package sum

import (
	"strconv"
	"strings"

	"blanch/sim/quantity"
)

// Stage is one of the three things that a sum asks of people: to set it up, to
// compute it, and to set the device (Weeks and others, Nurse Education in
// Practice 2013, S1471-5953(12)00201-6).
type Stage uint8

// The stages. The zero value is invalid.
const (
	SetUp Stage = iota + 1
	Compute
	SetDevice
)

func (s Stage) String() string {
	switch s {
	case SetUp:
		return "set up"
	case Compute:
		return "compute"
	case SetDevice:
		return "set the device"
	}
	return "no stage"
}

// Step is one line of a worked solution.
type Step struct {
	Label string            // "dose of the whole patient"
	Line  string            // "0.1 mcg/kg/min x 70 kg = 7 mcg/min"; empty on a wrong way
	Value quantity.Quantity // unrounded
}

// figures is how many figures of a value between two steps are shown.
const figures = 4

// legible writes a value of a step; exact is false when figures were left off.
func legible(x float64) (text string, exact bool) {
	r := quantity.Round(x, place(x, figures))
	return quantity.Number(r), same(r, x)
}

// place is the place value of the n-th figure of x, at most 1: a step to round
// x to so that n figures stay.
func place(x float64, n int) float64 {
	return min(1, power(magnitude(x)-n+1))
}

// magnitude is the power of ten of the first figure of x.
func magnitude(x float64) int {
	_, exponent, _ := strings.Cut(strconv.FormatFloat(abs(x), 'e', -1, 64), "e")
	n, _ := strconv.Atoi(exponent) // not a number: 0
	return n
}

// power is ten to the n.
func power(n int) float64 {
	x, _ := strconv.ParseFloat("1e"+strconv.Itoa(n), 64)
	return x
}

// near says that two numbers differ by no more than reading and converting
// them can leave; same, by no more than the last bits of a division.
func near(x, y float64) bool { return abs(x-y) <= float64(1e-9*abs(y)) }

func same(x, y float64) bool { return abs(x-y) <= float64(1e-12*abs(y)) }

func abs(x float64) float64 {
	if x < 0 {
		return -x
	}
	return x
}

// written is a value with its unit as a step shows it.
func written(x float64, unit quantity.Unit) string {
	text, exact := legible(x)
	if unit.String() != "" {
		text = quantity.Quantity{Value: quantity.Round(x, place(x, figures)), Unit: unit}.String()
	}
	if !exact {
		return "about " + text
	}
	return text
}
