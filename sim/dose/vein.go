package dose

import "blanch/sim/portable"

// PathMM is the length of a cannula that lies between the skin and a vein at
// depthMM, at an angle to the skin in degrees: the depth over its sine.
func PathMM(depthMM, angleDeg float64) float64 {
	return depthMM / portable.Sin(float64(angleDeg*(portable.Pi/180)))
}
