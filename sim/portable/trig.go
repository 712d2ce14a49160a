package portable

import "math"

// farthest is the largest angle, in radians, that Sin takes. Angles
// here are those of a needle; a larger one is a mistake and gives NaN.
const farthest = 1024

// Sin is the sine of x radians, NaN for x beyond 1024 in size.
func Sin(x float64) float64 {
	if !(math.Abs(x) <= farthest) {
		return math.NaN()
	}
	if x == 0 {
		return x
	}
	switch k, r, c := quarter(x); k & 3 {
	case 0:
		return sinOf(r, c)
	case 1:
		return cosOf(r, c)
	case 2:
		return -sinOf(r, c)
	default:
		return -cosOf(r, c)
	}
}

// quarter writes x as k quarter turns and r + c, with r within an eighth of
// a turn. The first two parts of the quarter turn have 42 bits, so their
// products with k are exact.
func quarter(x float64) (k int, r, c float64) {
	const (
		first  = 0x1.921fb544428p+0
		second = 0x1.4611a62633p-42
		third  = Pi/2 - first - second
	)
	k = nearest(float64(x * (2 / Pi)))
	n := float64(k)
	a := x - float64(n*first) // exact: the two are close
	b, left := twoSum(a, -float64(n*second))
	return k, b, left - float64(n*third)
}

// sinOf is sin(r + c) for r within an eighth of a turn, by Taylor's series.
func sinOf(r, c float64) float64 {
	const (
		f3  = -1.0 / 6
		f5  = -f3 / (4 * 5)
		f7  = -f5 / (6 * 7)
		f9  = -f7 / (8 * 9)
		f11 = -f9 / (10 * 11)
		f13 = -f11 / (12 * 13)
		f15 = -f13 / (14 * 15)
		f17 = -f15 / (16 * 17)
	)
	z := float64(r * r)
	series := f5 + float64(z*(f7+float64(z*(f9+float64(z*(f11+
		float64(z*(f13+float64(z*(f15+float64(z*f17)))))))))))
	cube := float64(z * r)
	return r + (float64(cube*(f3+float64(z*series))) + float64(c*(1-z/2)))
}

// cosOf is cos(r + c) for r within an eighth of a turn, by Taylor's series.
func cosOf(r, c float64) float64 {
	const (
		f4  = 1.0 / 24
		f6  = -f4 / (5 * 6)
		f8  = -f6 / (7 * 8)
		f10 = -f8 / (9 * 10)
		f12 = -f10 / (11 * 12)
		f14 = -f12 / (13 * 14)
		f16 = -f14 / (15 * 16)
		f18 = -f16 / (17 * 18)
	)
	z := float64(r * r)
	series := f4 + float64(z*(f6+float64(z*(f8+float64(z*(f10+
		float64(z*(f12+float64(z*(f14+float64(z*(f16+float64(z*f18)))))))))))))
	s, e := twoSum(1, -z/2)
	return s + (e + (float64(float64(z*z)*series) - float64(r*c)))
}
