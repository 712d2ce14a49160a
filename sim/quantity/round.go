package quantity

import (
	"math"
	"strconv"
)

// slack, as a share of one step, is how far below a half still counts as the
// half: sums such as 3 x 86 x 60 / 1600 may land a bit or two under 9.675.
const slack = 1e-9

// Round gives the multiple of step that is nearest to x, a half going up in
// size (away from zero): Round(12.5, 1) is 13, Round(9.675, 0.01) is 9.68.
// The result is the float64 nearest to the decimal one would write, so that
// [Number] prints it short. x that is not finite comes back as it is. Round
// panics when step is not a positive number.
func Round(x, step float64) float64 {
	if !(step > 0) || math.IsInf(step, 1) {
		panic("quantity: step must be a positive number")
	}
	if math.IsNaN(x) || math.IsInf(x, 0) {
		return x
	}
	// A step like 0.01 is not a binary fraction, but its inverse is whole:
	// dividing by that whole number is what makes the result clean.
	inverse := 1 / step
	whole := inverse == math.Floor(inverse)
	size := math.Abs(x)
	n := size / step
	if whole {
		n = float64(size * inverse)
	}
	if n > 1e15 {
		return x // finer than a float64 of this size can tell
	}
	n = math.Floor(n + (0.5 + slack))
	var r float64
	switch {
	case n == 0:
		return 0
	case whole:
		r = n / inverse
	default:
		r = clean(float64(n * step))
	}
	if x < 0 {
		return -r
	}
	return r
}

// clean drops what multiplication left beyond the fifteenth digit.
func clean(x float64) float64 {
	r, err := strconv.ParseFloat(strconv.FormatFloat(x, 'e', 14, 64), 64)
	if err != nil {
		return x
	}
	return r
}

// Number writes x as the shortest decimal that reads back as x: a leading
// zero, no trailing zero, no exponent, no comma. Round first what is shown.
func Number(x float64) string {
	switch {
	case x == 0: // also the negative zero
		return "0"
	case math.IsNaN(x) || math.IsInf(x, 0):
		return "no number"
	}
	return strconv.FormatFloat(x, 'f', -1, 64)
}
