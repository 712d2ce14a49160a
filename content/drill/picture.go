package drill

import (
	"strconv"

	"blanch/sim/quantity"
)

// Picture is what there is to see, as plain fields that a face can draw. What
// a field does not show is zero. The stem says all of it too, and no field
// gives the answer.
type Picture struct {
	Bags     []Bag
	Vials    []Vial
	Syringes []Syringe
	Pumps    []Pump
	Lines    []Line
	Cannulae []Cannula
}

// Bag is a bag by its label.
type Bag struct {
	Drug          string
	Amount        quantity.Quantity
	Volume        quantity.Quantity // of the label
	Concentration quantity.Quantity
	Left          quantity.Quantity // what is still in it
	Note          string            // such as "as bitartrate"
}

// Label is the lines on the bag.
func (b Bag) Label() []string {
	out := []string{b.Drug}
	if b.Note != "" {
		out = append(out, b.Note)
	}
	switch {
	case !b.Amount.Unit.IsZero() && !b.Volume.Unit.IsZero():
		out = append(out, b.Amount.String()+" in "+b.Volume.String())
	case !b.Amount.Unit.IsZero():
		out = append(out, b.Amount.String())
	case !b.Volume.Unit.IsZero():
		out = append(out, b.Volume.String())
	}
	if !b.Concentration.Unit.IsZero() {
		out = append(out, b.Concentration.String())
	}
	if !b.Left.Unit.IsZero() {
		out = append(out, b.Left.String()+" left")
	}
	return out
}

// Vial is a vial or ampoule by its label. Volume is zero for a powder.
type Vial struct {
	Drug   string
	Amount quantity.Quantity
	Volume quantity.Quantity
	Number int // how many there are; 0 where that is not said
}

// Label is the lines on the vial, and how many there are.
func (v Vial) Label() []string {
	out := []string{v.Drug, v.Amount.String()}
	if !v.Volume.Unit.IsZero() {
		out[1] += " in " + v.Volume.String()
	} else {
		out = append(out, "powder")
	}
	if v.Number > 1 {
		out = append(out, strconv.Itoa(v.Number)+" vials")
	}
	return out
}

// Syringe is a syringe by its label.
type Syringe struct {
	Drug          string
	Concentration quantity.Quantity
	Volume        quantity.Quantity // what is in it
}

// Pump is the fields of a pump.
type Pump struct {
	Drug          string
	Rate          quantity.Quantity
	Dose          quantity.Quantity
	Concentration quantity.Quantity
	Weight        quantity.Quantity
	Left          quantity.Quantity // of the volume to run
	State         string            // "running", "stopped"
}

// Line is a line from pump to tip.
type Line struct {
	Dead quantity.Quantity // volume
	Flow quantity.Quantity
}

// Cannula is a cannula in a vein.
type Cannula struct {
	Gauge  int
	Length quantity.Quantity
	Depth  quantity.Quantity // of the vein's near wall
	Angle  quantity.Quantity // to the skin
}
