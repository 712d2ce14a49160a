package vein

import "blanch/sim/portable"

// Ends are the hazards of the ways in which a cannula's use ends, per hour of
// running. Only a leak puts the infusion into tissue.
type Ends struct {
	Leak       float64
	Occlusion  float64
	Phlebitis  float64
	Dislodging float64
}

// All is the hazard of any end.
func (e Ends) All() float64 { return e.Leak + e.Occlusion + e.Phlebitis + e.Dislodging }

func (e Ends) times(by Ends) Ends {
	return Ends{
		Leak: float64(e.Leak * by.Leak), Occlusion: float64(e.Occlusion * by.Occlusion),
		Phlebitis: float64(e.Phlebitis * by.Phlebitis), Dislodging: float64(e.Dislodging * by.Dislodging),
	}
}

func alike(x float64) Ends { return Ends{x, x, x, x} }

const (
	// RatioPer5 is the hazard ratio for each further 5 points of share in
	// the vein, of failure of any kind (P: 0.71, 0.60 to 0.83; Pandurangadu
	// 2018, Emerg Med J 35:550).
	RatioPer5 = 0.71
	// The ratio was seen between about these shares; outside them the
	// hazard is held constant (A).
	leastStudied = 0.15
	mostStudied  = 0.90
	// The share at which a setting's base hazards are stated.
	referenceShare = 0.65

	perPuncture  = 1.5 // each earlier puncture of the same vein, on leaking (A)
	proximalHole = 2.0 // a hole between tip and heart, on leaking (A)
	distalHole   = 1.1 // a hole on the hand's side of the tip (A)
	cuffOn       = 1.3 // a cuff that cycles on the same arm, on leaking and occlusion (A)
	tourniquetOn = 3.0 // a tourniquet left on, on leaking (A)
	restless     = 1.5 // a restless patient, on leaking and occlusion (A)
	restlessPull = 3.0 // and on pulling it out (A)
)

// bySite multiplies the hazards for movement of the part (A: injuries are
// reported mostly distally, but no rate by site is published; a joint flexes
// and kinks the cannula).
var bySite = map[Site]Ends{
	Hand:     {1.6, 1.3, 1.2, 1.5},
	Wrist:    {1.8, 2.0, 1.2, 1.5},
	Forearm:  {1.0, 1.0, 1.0, 1.0},
	Fossa:    {1.3, 2.0, 1.2, 1.2},
	UpperArm: {1.0, 1.0, 0.8, 0.8},
	Neck:     {1.2, 1.2, 1.0, 1.5},
}

// Around is what surrounds a cannula and wears on it.
type Around struct {
	Proximal, Distal int // holes of failed punctures, by where they lie
	Cuff             bool
	Tourniquet       bool
	Restless         bool
}

// Hazards are the hazards per hour of running of a cannula that lies in v
// with the given share in the vein. The base is that of the setting at a share
// of 65 %.
func Hazards(base Ends, v Vein, share float64, a Around) Ends {
	share = max(leastStudied, min(mostStudied, share))
	steps := float64(100*(share-referenceShare)) / 5
	h := base.times(alike(portable.Pow(RatioPer5, steps))).times(bySite[v.Site])
	for range v.Punctures {
		h.Leak = float64(h.Leak * perPuncture)
	}
	for range a.Proximal {
		h.Leak = float64(h.Leak * proximalHole)
	}
	for range a.Distal {
		h.Leak = float64(h.Leak * distalHole)
	}
	if a.Cuff {
		h.Leak, h.Occlusion = float64(h.Leak*cuffOn), float64(h.Occlusion*cuffOn)
	}
	if a.Tourniquet {
		h.Leak = float64(h.Leak * tourniquetOn)
	}
	if a.Restless {
		h = h.times(Ends{restless, restless, 1, restlessPull})
	}
	return h
}
