package session

import (
	"fmt"

	"blanch/sim"
	"blanch/sim/drug"
	"blanch/sim/quantity"
)

// Bench is where drugs are made up and sums are done.
type Bench struct {
	Sums     []Sum    // open
	Answered []string // what was given, without a word on whether it is right
	Bags     []BagCard
	Pumps    []PumpCard
}

// BagCard is a bag or a syringe as it hangs or lies there.
type BagCard struct {
	ID      string
	Syringe bool
	Label   []string // what is written on it
	LeftML  string
	leftML  float64
	fullML  float64
}

// PumpCard is a pump's front.
type PumpCard struct{ ID, Rate, Unit, State string }

// mostSyringeML is the largest syringe, as the actions have it.
const mostSyringeML = 20

// Bench copies what lies on the bench and hangs on the pumps.
func (s *Session) Bench() Bench {
	v := s.e.View()
	var b Bench
	b.Sums = s.Board().Sums
	for _, en := range s.entries {
		if en.Kind == sim.Answered {
			b.Answered = append(b.Answered, fmt.Sprintf("%s: you gave %s", en.Subject, en.Word))
		}
	}
	for _, bag := range v.Bags {
		card := BagCard{ID: bag.ID, leftML: bag.VolumeML, fullML: bag.VolumeML}
		d, known := drug.Named(bag.Drug)
		card.Syringe = known && d.Role == drug.Antidote && bag.VolumeML <= mostSyringeML
		for _, in := range v.Infusions {
			if in.Bag == bag.ID {
				card.leftML = in.LeftML
			}
		}
		card.LeftML = quantity.Number(quantity.Round(card.leftML, 0.1)) + " mL"
		card.Label = labelText(bag)
		b.Bags = append(b.Bags, card)
	}
	for _, in := range v.Infusions {
		card := PumpCard{ID: in.Pump, Rate: quantity.Number(in.MLH), Unit: "mL/h", State: "stopped"}
		if in.Running {
			card.State = "running"
		}
		b.Pumps = append(b.Pumps, card)
	}
	return b
}

// labelText is what stands on a bag. The concentration is written once the learner
// has worked it out, where the case asks for it.
func labelText(bag sim.BagRecord) []string {
	if bag.LabelledAt == sim.Never {
		return []string{bag.ID, "no label"}
	}
	out := []string{bag.ID, bag.Drug}
	if bag.Nominal > 0 {
		out = append(out, concentration(bag.Drug, bag.Nominal))
	} else {
		out = append(out, "concentration: asked of you")
	}
	if bag.MixedAt == 0 {
		out = append(out, "hung when you came")
	} else {
		out = append(out, "made "+bag.MixedAt.Clock())
	}
	if bag.CheckedAt != sim.Never {
		out = append(out, "checked "+bag.CheckedAt.Clock())
	}
	return out
}

// BagPicture draws a bag or a syringe.
func (s *Session) BagPicture(c BagCard, width, height int, rich bool) []string {
	if c.Syringe {
		return pen(rich).Syringe(c.leftML, mostSyringeML, width)
	}
	return pen(rich).Bag(append(append([]string(nil), c.Label...), c.LeftML+" left"), width, height)
}

// PumpPicture draws the front of a pump.
func (s *Session) PumpPicture(c PumpCard, width int, rich bool) []string {
	return pen(rich).PumpFields(c.Rate, c.Unit, c.State, width)
}
