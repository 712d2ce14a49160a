package vein

import "blanch/sim/portable"

const (
	// RatioPer5 is the hazard ratio for each further 5 points of share in
	// the vein (P: 0.71, 0.60 to 0.83; Pandurangadu 2018, Emerg Med J 35:550).
	RatioPer5 = 0.71
	// The ratio was seen between about these shares; outside them the
	// hazard is held constant (A).
	leastStudied = 0.20
	mostStudied  = 0.90
	// The share at which a setting's base hazard is stated.
	referenceShare = 0.65
	// Each earlier puncture of the same vein multiplies the hazard by this (A).
	perPuncture = 1.5
)

// bySite multiplies the hazard for movement of the part (A: injuries are
// reported mostly distally, but no rate by site is published; a joint flexes).
var bySite = map[Site]float64{
	Hand:     1.6,
	Wrist:    1.8,
	Forearm:  1.0,
	Fossa:    1.3,
	UpperArm: 1.0,
}

// HazardPerHour is the hazard of leaking into tissue, per hour of running,
// of a cannula that lies in v with the given share in the vein. The base is
// the hazard of the setting at a share of 65 % (P, derived: 0.0005/h under
// strict selection, Cardenas-Garcia 2015; 0.0032/h under a protocol, Yerke
// 2024).
func HazardPerHour(base float64, v Vein, share float64) float64 {
	share = max(leastStudied, min(mostStudied, share))
	steps := float64(100*(share-referenceShare)) / 5
	h := float64(base * portable.Pow(RatioPer5, steps))
	h = float64(h * bySite[v.Site])
	for range v.Punctures {
		h = float64(h * perPuncture)
	}
	return h
}
