package portable

import "math"

// Pow is x to the power y, with the special cases of IEEE 754: anything to
// the power 0 and 1 to any power are 1, and a negative x takes whole powers
// only, NaN otherwise.
func Pow(x, y float64) float64 {
	switch {
	case y == 0 || x == 1:
		return 1
	case math.IsNaN(x) || math.IsNaN(y):
		return math.NaN()
	case y == 1:
		return x
	}
	size := math.Abs(x)
	sign := 1.0
	if math.Signbit(x) && odd(y) {
		sign = -1
	}
	switch {
	case math.IsInf(y, 0):
		switch {
		case size == 1:
			return 1
		case (size > 1) == (y > 0):
			return math.Inf(1)
		}
		return 0
	case size == 0 || math.IsInf(size, 0):
		if (size == 0) == (y > 0) {
			return math.Copysign(0, sign)
		}
		return math.Inf(int(sign))
	case x < 0 && y != math.Floor(y):
		return math.NaN()
	case size == 1:
		return sign
	}
	lh, ll := logOf(size)
	switch whole := float64(y * lh); {
	case whole > 720:
		return math.Inf(int(sign))
	case whole < -760:
		return math.Copysign(0, sign)
	}
	ph, pl := twoProduct(y, lh)
	pl += float64(y * ll)
	ph, pl = twoSum(ph, pl)
	return math.Copysign(expOf(ph, pl), sign)
}

// odd reports whether y is an odd whole number.
func odd(y float64) bool {
	half := y / 2
	return y == math.Floor(y) && half != math.Floor(half) && math.Abs(y) < 1<<53
}
