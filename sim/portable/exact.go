package portable

import "math"

// twoSum is a+b as the rounded sum and what the rounding left off (Knuth).
func twoSum(a, b float64) (sum, left float64) {
	sum = a + b
	shadow := sum - a
	return sum, (a - (sum - shadow)) + (b - shadow)
}

// twoProduct is a*b as the rounded product and what the rounding left off
// (Dekker). Neither factor may exceed 2^996 in size.
func twoProduct(a, b float64) (product, left float64) {
	product = float64(a * b)
	ah, al := halves(a)
	bh, bl := halves(b)
	left = float64(ah*bh) - product
	left += float64(ah * bl)
	left += float64(al * bh)
	left += float64(al * bl)
	return product, left
}

// halves splits a into two parts of 26 bits (Veltkamp).
func halves(a float64) (high, low float64) {
	const splitter = 1<<27 + 1
	t := float64(splitter * a)
	high = t - (t - a)
	return high, a - high
}

// scale is x times 2^k, rounded once.
func scale(x float64, k int) float64 {
	if k >= -1000 && k <= 1000 { // x is near one here, so this is exact
		return float64(x * math.Float64frombits(uint64(1023+k)<<52))
	}
	return math.Ldexp(x, k)
}

// nearest whole number to a number of moderate size.
func nearest(x float64) int {
	return int(math.Floor(x + 0.5))
}
