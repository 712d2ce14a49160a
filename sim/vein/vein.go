// Package vein knows veins and cannulae: how much of a cannula comes to lie
// in a vein, how likely the first stick is to succeed, and how quickly a
// line that carries an infusion comes to leak.
//
// Lengths are millimetres, angles degrees, shares fractions of one. Values
// marked P are published (the source stands beside them); values marked A
// are assumed for teaching and are never clinical truth.
package vein

// Site is where on the limb a vein lies.
type Site string

// Sites, distal to proximal.
const (
	Hand     Site = "hand"
	Wrist    Site = "wrist"
	Forearm  Site = "forearm"
	Fossa    Site = "fossa" // antecubital
	UpperArm Site = "upper-arm"
	Neck     Site = "neck" // external jugular
)

// Sites lists every site, distal to proximal.
func Sites() []Site { return []Site{Hand, Wrist, Forearm, Fossa, UpperArm, Neck} }

// Vein is one vein at the place where it may be punctured.
type Vein struct {
	Site       Site
	DiameterMM float64
	DepthMM    float64 // from skin to the near wall
	StraightMM float64 // usable straight length
	Punctures  int     // earlier punctures in it
}

// Cannula is one size in stock.
type Cannula struct {
	Gauge    int
	LengthMM float64
}
