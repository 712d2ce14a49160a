package tissue

import "blanch/sim/portable"

const (
	// FlapHalfH is the warm ischaemia in hours at which half of pig skin flaps
	// are lost (P: 9 h, 85 flaps; "Critical ischemia times and survival patterns
	// of experimental pig flaps", abstract; by Picard-Ami, Plast Reconstr Surg
	// 1990, from memory).
	FlapHalfH = 9.0
	// flapPower is how steep the curve is (A: the surviving area is seen to
	// fall after 6 h, the same abstract; read as 5 % lost).
	flapPower = 7.3
)

// FlapLost is the share of flaps lost after h hours of warm ischaemia, 0 to 1.
// It is a scale for teaching from an animal, and no mark may depend on it.
func FlapLost(h float64) float64 {
	if h <= 0 {
		return 0
	}
	x := portable.Pow(h/FlapHalfH, flapPower)
	return x / (1 + x)
}
