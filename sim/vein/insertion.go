package vein

import "blanch/sim/portable"

// Technique is how a vein is found.
type Technique uint8

// The techniques.
const (
	ByFeel Technique = iota + 1
	UnderUltrasound
)

// First-stick success is one continuous curve for each technique.
const (
	// By landmark, logistic in the cannula-to-vein ratio through 92 % below
	// and 65 % above a ratio of 0.41 (P: van Loon 2021, PLoS One, 610
	// patients), each read at the middle of its group: 0.32 and 0.52 (A).
	feelMiddle = 0.588
	feelSlope  = 9.1
	// Deeper than this a vein cannot be felt well; the chance then falls by
	// a factor e for each further feelFade mm (A).
	feelDepth = 6.0
	feelFade  = 4.0

	// Under ultrasound in difficult access, logistic in diameter through
	// 39 % under and 63 % at or over 4 mm (P: Witting 2010, J Emerg Med, 180
	// patients), read at 3.0 and 4.8 mm (A).
	scanMiddle = 3.82
	scanSlope  = 0.544
	// An arm that is not known to be difficult gains this on the logit (A).
	scanEasier = 1.3

	// A tip that reaches less far does not work (A).
	leastInVeinMM = 2.0

	// The chance of going through the far wall (A).
	backWallFrom = 30.0  // degrees
	backWallPer  = 0.004 // for each further degree, at backWallAtMM
	backWallAtMM = 3.0   // width under a tourniquet
	backWallMost = 0.5
)

// Success is the chance that the first stick of c into v at angleDeg gives
// a working line, 0 to 1.
func Success(v Vein, c Cannula, angleDeg float64, t Technique, difficult bool) float64 {
	g := Lie(v, c, angleDeg)
	if g.InVeinMM < leastInVeinMM {
		return 0 // the tip does not reach or barely enters
	}
	var p float64
	switch t {
	case UnderUltrasound:
		logit := float64(scanSlope * (v.DiameterMM - scanMiddle))
		if !difficult {
			logit += scanEasier
		}
		p = logistic(logit)
	default:
		p = logistic(float64(feelSlope * (feelMiddle - g.Ratio)))
		if v.DepthMM > feelDepth {
			p = float64(p * portable.Exp((feelDepth-v.DepthMM)/feelFade))
		}
	}
	return float64(p * (1 - BackWall(v, angleDeg)))
}

// BackWall is the chance of going through the far wall (A: none at a flat
// angle, rising with the angle beyond 30 degrees and falling with the width
// of the vein under a tourniquet).
func BackWall(v Vein, angleDeg float64) float64 {
	if angleDeg <= backWallFrom {
		return 0
	}
	p := float64(backWallPer*(angleDeg-backWallFrom)) * backWallAtMM / WithTourniquet(v).DiameterMM
	return min(p, backWallMost)
}

func logistic(x float64) float64 { return 1 / (1 + portable.Exp(-x)) }
