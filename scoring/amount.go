package scoring

import (
	"math"

	"blanch/sim/quantity"
)

// Amounts other than times. Each is a type of its own, so that a dose cannot
// be held against a concentration. An amount that is not known is NaN and
// fails every comparison.
type (
	// Share is a part of a whole, 0 to 1; written "81 %".
	Share struct{ v float64 }
	// Dose is of the ordered drug, in mcg/min, or in units/min for a drug that is
	// measured in units.
	Dose struct {
		v     float64
		units bool
	}
	// Concentration is of the ordered drug, in mcg/mL or units/mL.
	Concentration struct {
		v     float64
		units bool
	}
	// Pressure is in mmHg.
	Pressure struct{ v float64 }
	// Mass of drug is in mg.
	Mass struct{ v float64 }
	// Volume is in mL.
	Volume struct{ v float64 }
	// Length is in mm.
	Length struct{ v float64 }
)

var unknown = math.NaN()

// amount is any of the above.
type amount interface{ value() float64 }

func (a Share) value() float64         { return a.v }
func (a Dose) value() float64          { return a.v }
func (a Concentration) value() float64 { return a.v }
func (a Pressure) value() float64      { return a.v }
func (a Mass) value() float64          { return a.v }
func (a Volume) value() float64        { return a.v }
func (a Length) value() float64        { return a.v }

// smaller says left < right, or left <= right.
func smaller[A amount](left, right A, orEqual bool) bool {
	l, r := left.value(), right.value()
	return l < r || orEqual && l == r
}

// String is in percent to one place, "81 %", "64.6 %".
func (a Share) String() string    { return written(100*a.v, 0.1, "%") }
func (a Pressure) String() string { return written(a.v, 1, "mmHg") }
func (a Volume) String() string   { return written(a.v, 0.1, "mL") }
func (a Length) String() string   { return written(a.v, 0.1, "mm") }

func (a Dose) String() string {
	if a.units {
		return written(a.v, 0.001, "units/min")
	}
	return written(a.v, 0.1, "mcg/min")
}

func (a Concentration) String() string {
	if a.units {
		return written(a.v, 0.01, "units/mL")
	}
	return written(a.v, 0.1, "mcg/mL")
}

// String is in mg, or in mcg under 1 mg.
func (a Mass) String() string {
	if a.v < 1 {
		return written(a.v*1000, 0.1, "mcg")
	}
	return written(a.v, 0.01, "mg")
}

// written is v with its unit in safe notation, or "not known".
func written(v, step float64, unit string) string {
	if math.IsNaN(v) || math.IsInf(v, 0) {
		return "not known"
	}
	return quantity.Number(quantity.Round(v, step)) + " " + unit
}
