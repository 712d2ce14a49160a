package session

import (
	"fmt"

	"blanch/sim"
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
		card.Syringe = bag.VolumeML <= mostSyringeML
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
		out = append(out, quantity.Number(quantity.Round(bag.Nominal, 0.01))+" mcg/mL")
	} else {
		out = append(out, "concentration: asked of you")
	}
	out = append(out, "made "+bag.MixedAt.Clock())
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

// CallDesk is who can be spoken to, and what can be said and asked.
type CallDesk struct {
	People   []Contact
	Facts    []Fact
	Requests []string
}

// Contact is someone with where they are.
type Contact struct{ ID, About string }

// Fact is one thing that a call can say.
type Fact struct{ Name, Says string }

// factSays words the facts that calls are built from.
var factSays = map[string]string{
	"who": "who the patient is, and who you are", "reason": "why you are calling", "pressure": "the pressure and its course",
	"drug": "which drug runs", "dose": "at what dose", "line": "through which line",
	"time-running": "for how long it has run", "site": "what the site looks and feels like", "done-so-far": "what has been done",
	"lines-tried": "which lines were tried", "plan": "what you mean to do next",
}

// CallDesk copies who is there.
func (s *Session) CallDesk() CallDesk {
	var d CallDesk
	for _, p := range s.e.View().People {
		d.People = append(d.People, Contact{p.ID, person(p)})
	}
	for _, f := range sim.FactNames() {
		d.Facts = append(d.Facts, Fact{f, factSays[f]})
	}
	d.Requests = sim.RequestNames()
	return d
}

// Written is what the learner has written in the notes.
func (s *Session) Written() []Line {
	var out []Line
	for _, en := range s.entries {
		if en.Kind == sim.Started && en.Act == "write" {
			out = append(out, happened(en))
		}
	}
	return out
}
