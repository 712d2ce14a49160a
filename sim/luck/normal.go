package luck

import (
	"math"

	"blanch/sim/portable"
)

// normalAt is the point of the standard normal distribution below which a
// share p lies, 0 < p < 1, to about seven digits: routine PPND7 of algorithm
// AS 241 (Wichura, Applied Statistics 37, 1988, 477-484).
func normalAt(p float64) float64 {
	const (
		a0, a1, a2, a3 = 3.3871327179, 50.434271938, 159.29113202, 59.109374720
		b1, b2, b3     = 17.895169469, 78.757757664, 67.187563600
		c0, c1, c2, c3 = 1.4234372777, 2.7568153900, 1.3067284816, 0.17023821103
		d1, d2         = 0.73700164250, 0.12021132975
		e0, e1, e2, e3 = 6.6579051150, 3.0812263860, 0.42868294337, 0.017337203997
		f1, f2         = 0.24197894225, 0.012258202635
	)
	q := p - 0.5
	if math.Abs(q) <= 0.425 {
		r := 0.180625 - float64(q*q)
		over := a0 + float64(r*(a1+float64(r*(a2+float64(r*a3)))))
		under := 1 + float64(r*(b1+float64(r*(b2+float64(r*b3)))))
		return q * over / under
	}
	tail := p
	if q > 0 {
		tail = 1 - p
	}
	r := math.Sqrt(-portable.Log(tail))
	var z float64
	if r <= 5 {
		r -= 1.6
		over := c0 + float64(r*(c1+float64(r*(c2+float64(r*c3)))))
		z = over / (1 + float64(r*(d1+float64(r*d2))))
	} else {
		r -= 5
		over := e0 + float64(r*(e1+float64(r*(e2+float64(r*e3)))))
		z = over / (1 + float64(r*(f1+float64(r*f2))))
	}
	return math.Copysign(z, q)
}
