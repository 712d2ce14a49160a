package portable

import "math"

// Log is the natural logarithm of x: -Inf at 0, NaN below.
func Log(x float64) float64 {
	switch {
	case math.IsNaN(x) || math.IsInf(x, 1):
		return x
	case x < 0:
		return math.NaN()
	case x == 0:
		return math.Inf(-1)
	}
	high, low := logOf(x)
	return high + low
}

// logOf is the logarithm of a finite x above 0 as a sum of two parts, good
// to about 65 bits.
//
// With x = 2^k m and m near 1, log m = 2 atanh s, where s = (m-1)/(m+1) is at
// most 0.172 in size, so its odd Taylor series is short.
func logOf(x float64) (high, low float64) {
	m, k := math.Frexp(x)
	if m < math.Sqrt2/2 {
		m = float64(2 * m)
		k--
	}
	f := m - 1
	if f == 0 {
		return float64(float64(k) * ln2High), float64(float64(k) * ln2Low)
	}
	// s to twice the precision.
	dh, dl := twoSum(m, 1)
	sh := f / dh
	p, e := twoProduct(sh, dh)
	sl := (((f - p) - e) - float64(sh*dl)) / dh

	// s squared and s cubed, likewise.
	qh, ql := twoProduct(sh, sh)
	ql += float64(2 * sh * sl)
	ch, cl := twoProduct(qh, sh)
	cl += float64(qh*sl) + float64(ql*sh)

	// 2/3 + 2/5 s^2 + 2/7 s^4 + ..., the first term to twice the precision.
	const (
		thirdsHigh = 0x1.5555555555555p-1
		thirdsLow  = 2.0/3 - thirdsHigh
	)
	q := qh
	series := float64(q * (2.0/5 + float64(q*(2.0/7+float64(q*(2.0/9+float64(q*(2.0/11+
		float64(q*(2.0/13+float64(q*(2.0/15+float64(q*(2.0/17+float64(q*(2.0/19+
			float64(q*(2.0/21+float64(q*(2.0/23))))))))))))))))))))
	ph, pl := twoSum(thirdsHigh, series+thirdsLow)

	// log m = 2s + s^3 (ph + pl)
	th, tl := twoProduct(ch, ph)
	tl += float64(ch*pl) + float64(cl*ph)
	high, low = twoSum(float64(2*sh), th)
	low += float64(2*sl) + tl

	if k != 0 {
		lead, left := twoSum(float64(float64(k)*ln2High), high)
		high, low = lead, left+(low+float64(float64(k)*ln2Low))
	}
	return twoSum(high, low)
}
