// Package drug is the table of drugs: how each is supplied, what its label
// makes of it, the units its dose is ordered in, and how the blood clears it.
//
// One drug is one row of the table; nothing outside this package may know a
// drug by name to decide what it does. Every number of a row is stated again
// by [Drug.Symbols] with its unit, its range, and whether it was published
// or assumed for teaching.
//
//	d, ok := drug.Named("norepinephrine")
//	k := d.ClearanceLMin(saps2) / d.VolumeL // 1/min
//
// Strength of norepinephrine is always the base (American label, section 11;
// SCCM and ESICM task force, Crit Care Med 2024;52:521). A label in salt
// reads about twice as much for the same drug.
package drug

import (
	"blanch/sim/portable"
	"blanch/sim/quantity"
	"blanch/sim/symbol"
)

// Drug is one row of the table. The Quantity fields carry mass in g, mg or
// mcg, or activity in units. A field that does not apply is zero.
type Drug struct {
	Name      string
	Role      Role
	Supplied  Supply
	LabelMix  Recipe   // the dilution that the label makes
	DoseUnits []string // units a dose may be ordered in, the label's first
	Salts     []Salt
	Treatment Treatment // antidotes only

	// Kinetics, vasopressors only.
	VolumeL float64 // volume of the one compartment
	cleared clearance

	stated []symbol.Symbol
}

// Role is what a drug is for.
type Role uint8

// The roles. The zero value is invalid.
const (
	Vasopressor Role = iota + 1
	Antidote
)

// Supply is one vial or ampoule.
type Supply struct {
	Amount quantity.Quantity
	Volume quantity.Quantity // zero for a powder
}

// Recipe is an amount of drug in a labelled bag.
type Recipe struct {
	Amount quantity.Quantity
	Bag    quantity.Quantity
}

// Salt is a form the same drug may be labelled as.
type Salt struct {
	Name  string
	Ratio float64 // mass of salt that holds 1 of base
}

// Treatment is what an antidote's use on a leak is published as.
type Treatment struct {
	Least, Most     quantity.Quantity // dose
	InLeast, InMost quantity.Quantity // volume it is made up to
}

// clearance falls with the severity of illness as a power of SAPS II.
type clearance struct {
	lMin  float64 // at the reference score
	saps2 float64 // the reference score
	power float64
}

// Scores between which the power law is used; outside, the clearance is that
// of the nearer end (assumed: the law has no value at a score of 0).
const (
	lowestSAPS2  = 10
	highestSAPS2 = 100
)

// ClearanceLMin is the clearance from the blood in L/min at a SAPS II score.
// It is 0 for a drug without kinetics here.
func (d Drug) ClearanceLMin(saps2 float64) float64 {
	if d.cleared.lMin == 0 {
		return 0
	}
	score := min(max(saps2, lowestSAPS2), highestSAPS2)
	return float64(d.cleared.lMin * portable.Pow(score/d.cleared.saps2, d.cleared.power))
}

// HalfLifeMin is the half-life in the blood in minutes at a SAPS II score, 0
// for a drug without kinetics here.
func (d Drug) HalfLifeMin(saps2 float64) float64 {
	c := d.ClearanceLMin(saps2)
	if c == 0 {
		return 0
	}
	return float64(portable.Log(2)*d.VolumeL) / c
}

// SaltNamed is the salt of that name.
func (d Drug) SaltNamed(name string) (Salt, bool) {
	for _, s := range d.Salts {
		if s.Name == name {
			return s, true
		}
	}
	return Salt{}, false
}

// Symbols states every number of the row that the model uses.
func (d Drug) Symbols() []symbol.Symbol {
	return append([]symbol.Symbol(nil), d.stated...)
}

// Named is the drug of that generic name, and whether the table has it.
func Named(name string) (Drug, bool) {
	for _, d := range table {
		if d.Name == name {
			return d.copied(), true
		}
	}
	return Drug{}, false
}

// Names lists the table in its order.
func Names() []string {
	names := make([]string, len(table))
	for i, d := range table {
		names[i] = d.Name
	}
	return names
}

// copied keeps a caller's changes out of the table.
func (d Drug) copied() Drug {
	d.DoseUnits = append([]string(nil), d.DoseUnits...)
	d.Salts = append([]Salt(nil), d.Salts...)
	return d
}
