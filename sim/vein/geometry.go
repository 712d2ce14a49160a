package vein

import "blanch/sim/portable"

// Geometry is how a cannula comes to lie.
type Geometry struct {
	PathMM   float64 // through tissue, from skin to the near wall
	InVeinMM float64 // what is left of the cannula inside the vein; 0 when it does not reach
	Share    float64 // InVeinMM over the cannula's length
	Ratio    float64 // outer diameter over vein diameter
}

// Lie computes the geometry of c placed into v at angleDeg to the skin.
// Path = depth / sin(angle), depth to the near wall; the published rule
// "1.4 x depth at 45 degrees" is its value there (Ultrasound J 2019 11:27,
// Table 1). The cannula cannot lie in more vein than is straight.
func Lie(v Vein, c Cannula, angleDeg float64) Geometry {
	g := Geometry{
		PathMM: v.DepthMM / portable.Sin(float64(angleDeg*(portable.Pi/180))),
		Ratio:  OuterMM(c.Gauge) / v.DiameterMM,
	}
	g.InVeinMM = c.LengthMM - g.PathMM
	if g.InVeinMM < 0 {
		g.InVeinMM = 0
	}
	if v.StraightMM > 0 && g.InVeinMM > v.StraightMM {
		g.InVeinMM = v.StraightMM
	}
	g.Share = g.InVeinMM / c.LengthMM
	return g
}

// OuterMM is a cannula's outer diameter in mm by gauge: the middle of what
// ISO 10555-5 allows for that gauge's colour (ranges from memory).
// It is 0 for a gauge that is not made.
func OuterMM(gauge int) float64 {
	switch gauge {
	case 14:
		return 2.1
	case 16:
		return 1.7
	case 18:
		return 1.25
	case 20:
		return 1.05
	case 22:
		return 0.85
	case 24:
		return 0.7
	case 26:
		return 0.6
	}
	return 0
}

// Colour is the colour of a gauge in the open standard (ISO 10555-5, from
// memory). It is always shown beside the gauge, never instead of it.
func Colour(gauge int) string {
	switch gauge {
	case 14:
		return "orange"
	case 16:
		return "grey"
	case 18:
		return "green"
	case 20:
		return "pink"
	case 22:
		return "blue"
	case 24:
		return "yellow"
	case 26:
		return "violet"
	}
	return ""
}

// TourniquetGain is how much wider a vein is under a tourniquet (P: about
// 14 %; wrist cephalic area +30 % under a 25 mmHg cuff, Mollison, Can J
// Anaesth; basilic diameter about +14 %, Mahler 2011).
const TourniquetGain = 0.14

// WithTourniquet is v while a tourniquet is on.
func WithTourniquet(v Vein) Vein {
	v.DiameterMM = float64(v.DiameterMM * (1 + TourniquetGain))
	return v
}
