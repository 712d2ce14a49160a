package portable

import "math"

// ln2High holds the first 32 bits of the natural logarithm of 2, so that its
// product with any exponent is exact; ln2Low is the rest.
const (
	ln2High = 0x1.62e42feep-1
	ln2Low  = math.Ln2 - ln2High
)

// Exp is e to the x. It overflows to +Inf above 709.78 and reaches 0 below
// -745.13.
func Exp(x float64) float64 {
	switch {
	case math.IsNaN(x):
		return x
	case x > 710:
		return math.Inf(1)
	case x < -746:
		return 0
	}
	return expOf(x, 0)
}

// expOf is e to the (x + rest), where rest is far smaller than x and x lies
// within -746 and 710.
func expOf(x, rest float64) float64 {
	k, r, c := reduce(x)
	r, c = twoSum(r, c+rest)
	s, e := twoSum(1, r)
	return scale(s+(e+bend(r, c)), k)
}

// Expm1 is e to the x, less 1, without loss for x near 0.
func Expm1(x float64) float64 {
	switch {
	case math.IsNaN(x) || x == 0:
		return x
	case x > 710:
		return math.Inf(1)
	case x < -50:
		return -1
	}
	k, r, c := reduce(x)
	switch {
	case k == 0:
		return x + bend(x, 0)
	case k > 60: // the 1 is far below the last place
		return expOf(x, 0)
	}
	// 2^k (1 + r + bend) - 1. Up to k = 53, 2^k - 1 is exact.
	p := scale(1, k)
	tail := float64(p * bend(r, c))
	if k > 53 {
		s, e := twoSum(p, float64(p*r))
		return s + (e + (tail - 1))
	}
	s, e := twoSum(p-1, float64(p*r))
	return s + (e + tail)
}

// OneMinusExpOver is (1 - exp(-x)) / x, continued by 1 at x = 0: the mean
// over an interval of something that decays through it. It overflows to +Inf
// below -709.78.
func OneMinusExpOver(x float64) float64 {
	switch {
	case x == 0:
		return 1
	case math.IsInf(x, -1):
		return math.Inf(1)
	}
	return -Expm1(-x) / x
}

// reduce writes x as k ln 2 + r + c, with r within half of ln 2 and c the
// rounding of r.
func reduce(x float64) (k int, r, c float64) {
	const perLn2 = 1 / math.Ln2
	k = nearest(float64(x * perLn2))
	high := x - float64(float64(k)*ln2High) // exact
	low := float64(float64(k) * ln2Low)
	r = high - low
	return k, r, (high - r) - low
}

// bend is e^(r+c) - 1 - r by its Taylor series, for r within half of ln 2
// and a c too small to matter beyond first order.
func bend(r, c float64) float64 {
	const (
		f2  = 1.0 / 2
		f3  = f2 / 3
		f4  = f3 / 4
		f5  = f4 / 5
		f6  = f5 / 6
		f7  = f6 / 7
		f8  = f7 / 8
		f9  = f8 / 9
		f10 = f9 / 10
		f11 = f10 / 11
		f12 = f11 / 12
		f13 = f12 / 13
		f14 = f13 / 14
	)
	// Pairs first, then pairs of pairs: half the wait of Horner's chain.
	r2 := float64(r * r)
	r4 := float64(r2 * r2)
	r8 := float64(r4 * r4)
	a := (f3 + float64(r*f4)) + float64(r2*(f5+float64(r*f6)))
	b := (f7 + float64(r*f8)) + float64(r2*(f9+float64(r*f10)))
	d := (f11 + float64(r*f12)) + float64(r2*(f13+float64(r*f14)))
	series := a + float64(r4*b) + float64(r8*d)
	// r squared over 2 stands apart: it is the largest term.
	return float64(f2*r2) + (float64(float64(r2*r)*series) + (c + float64(c*r)))
}
