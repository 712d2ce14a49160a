package sum

import "blanch/sim/quantity"

// Family is a class of mistakes. Of what goes wrong in published sums of
// nurses, converting units, leaving out the unit, misreading what is given and
// coarse rounding are the commonest (BMC Nursing 2022;21:309; CMAJ
// 2008;178:42).
type Family uint8

// The families. The zero value is invalid.
const (
	UnitFactor Family = iota + 1 // 60, 1000, pounds, or the weight of a dose per kg
	Inverted                     // a ratio upside down
	WrongDatum                   // another number than the one that was asked for
	DrugVolume                   // the drug's own volume counted where it is not, or the reverse
	PlaceValue                   // a decimal point or a digit in the wrong place
	Rounding                     // too early, too coarse, or cut off
)

var familyNames = [...]string{"", "unit factor", "inverted ratio", "wrong datum", "drug volume", "place value", "rounding"}

func (f Family) String() string {
	if int(f) >= len(familyNames) {
		return ""
	}
	return familyNames[f]
}

// Slip is one wrong way through a sum, and where it leads.
type Slip struct {
	Name   string // "60 twice": the same in every sum of a kind
	Family Family
	Stage  Stage // which of the three it belongs to
	Step   int   // where it left the path, counted from 1
	Label  string

	// Value is the answer it leads to, unrounded, in the unit of the key.
	Value quantity.Quantity

	clause string  // "multiplied by 60 twice"
	also   float64 // the same by the other convention for pounds
	exact  bool    // leads to this one number, however it is written
	digits bool    // two digits swapped: only told of a number with digits enough to show it
	steps  []Step
}

// Clause is what was done, to stand after "have": "multiplied by 60 twice".
func (s Slip) Clause() string { return s.clause }

// offer is a slip that a program could make.
type offer struct {
	name, clause string
	family       Family
	step         int
	digits       bool
}
