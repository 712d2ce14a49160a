// Package drug is the table of drugs: how each is supplied, what its label
// makes of it, the units its dose is ordered in, and how the blood clears it.
//
// One drug is one row of the table; nothing outside this package may know a
// drug by name to decide what it does. Every number of a row is stated again
// by [Drug.Symbols] with its unit, its range, and whether it was published
// or assumed for teaching.
//
//	d, ok := drug.Named("norepinephrine")
//	k := d.ClearanceLMin(saps2, kg) / d.VolumeL // 1/min
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

	// Base is the unit that amounts of it are kept in: "mcg" or "units".
	Base string

	// Kinetics: vasopressors, and antidotes that reach the blood.
	VolumeL float64 // volume of the one compartment
	cleared clearance

	Potency Potency

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

// Receptor is what a vasopressor constricts through; it decides what undoes
// it.
type Receptor uint8

// Receptors. The zero value is none.
const (
	Alpha Receptor = iota + 1 // undone by an alpha blocker
	V1                        // vasopressin's own; not undone by one
)

// Potency is how strongly a drug acts, in its base unit. All assumed unless
// [Drug.Symbols] says otherwise.
type Potency struct {
	Receptor  Receptor
	E50       float64 // per L of blood: half of the greatest rise in pressure
	BetaE50   float64 // per L of blood: half of the greatest beta effect on the heart; 0 none
	TissueE50 float64 // per mL of tissue fluid: half of the constriction
	KLocal    float64 // 1/min, breakdown in the tissue
	Blocks    float64 // antidotes, per L of blood: doubles what an alpha agonist needs there
}

// Treatment is what an antidote's use on a leak is published as.
type Treatment struct {
	Least, Most     quantity.Quantity // dose
	InLeast, InMost quantity.Quantity // volume it is made up to
}

// clearance is a power law in the severity of illness and in body weight.
type clearance struct {
	lMin    float64 // at the reference score and weight
	saps2   float64 // the reference score
	power   float64 // of the score; 0 when it does not matter
	kg      float64 // the reference weight
	kgPower float64 // of the weight; 0 when it does not matter
}

// Scores between which the power law is used; outside, the clearance is that
// of the nearer end (assumed: the law has no value at a score of 0).
const (
	lowestSAPS2  = 10
	highestSAPS2 = 100
)

// ClearanceLMin is the clearance from the blood in L/min at a SAPS II score
// and a body weight. It is 0 for a drug without kinetics here.
func (d Drug) ClearanceLMin(saps2, kg float64) float64 {
	c := d.cleared
	out := c.lMin
	if c.power != 0 {
		score := min(max(saps2, lowestSAPS2), highestSAPS2)
		out = float64(out * portable.Pow(score/c.saps2, c.power))
	}
	if c.kgPower != 0 {
		out = float64(out * portable.Pow(kg/c.kg, c.kgPower))
	}
	return out
}

// HalfLifeMin is the half-life in the blood in minutes at a SAPS II score and
// a body weight, 0 for a drug without kinetics here.
func (d Drug) HalfLifeMin(saps2, kg float64) float64 {
	c := d.ClearanceLMin(saps2, kg)
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
	if d := find(name); d != nil {
		return d.copied(), true
	}
	return Drug{}, false
}

func find(name string) *Drug {
	for i := range table {
		if table[i].Name == name {
			return &table[i]
		}
	}
	return nil
}

// IsAntidote says that the name is of a drug that undoes a leak.
func IsAntidote(name string) bool {
	d := find(name)
	return d != nil && d.Role == Antidote
}

// BaseOf is the base unit of the drug of that name, empty when there is none.
func BaseOf(name string) string {
	if d := find(name); d != nil {
		return d.Base
	}
	return ""
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
