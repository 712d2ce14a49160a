package trial

import (
	"blanch/scenarios"
	"blanch/sim"
	"blanch/sim/vein"
)

// papers is all that a learner may read: the briefing, the orders, the policy,
// the stock, and which veins and people there are. Nothing of it is hidden
// from a person who plays.
type papers struct {
	policy  *scenarios.Policy
	ordered []prescription    // the first is the one with a pressure to keep
	asks    map[string]string // the drug that a sum is about, where it is about one

	weightKG float64
	veins    []offer
	inPlace  []sim.InPlace
	people   []person
	cuff     sim.Side
	relief   sim.Time
	ends     sim.Time

	pumps     []sim.Pump
	cannulae  []vein.Cannula
	bagsML    []float64
	vials     []sim.Vial
	premixed  []sim.Premixed
	pharmacy  bool
	scanner   bool
	nitrate   bool
	withdraws string
}

// offer is a vein as anyone sees it: its name, and where it lies.
type offer struct {
	id   string
	side sim.Side
	site vein.Site
}

type person struct {
	id   string
	role sim.Role
}

func readPapers(c *scenarios.Case, place *sim.Place, policy *scenarios.Policy) *papers {
	p := &papers{
		policy: policy, asks: map[string]string{}, weightKG: c.Patient.WeightKG, inPlace: c.InPlace,
		cuff: c.CuffArm, relief: c.Relief, ends: c.Ends,
		pumps: place.Pumps, cannulae: place.Cannulae, bagsML: place.BagsML, vials: place.Vials, premixed: place.Premixed,
		pharmacy: place.Pharmacy, scanner: place.Ultrasound, nitrate: place.Nitrate,
		withdraws: "adding to the bag",
	}
	if policy.WithdrawFirst {
		p.withdraws = "withdrawing first"
	}
	p.ordered = append(p.ordered, p.prescribed(c.Order))
	for _, o := range c.Also {
		p.ordered = append(p.ordered, p.prescribed(o))
	}
	for _, q := range c.Ask {
		p.asks[q.ID] = q.Drug
	}
	for _, v := range c.Veins {
		site := v.Site
		if k, ok := vein.KindNamed(v.Kind); ok {
			site = k.Site
		}
		p.veins = append(p.veins, offer{v.ID, v.Side, site})
	}
	for _, one := range place.People {
		p.people = append(p.people, person{one.ID, one.Role})
	}
	return p
}

func (p *papers) hasBag(ml float64) bool {
	for _, b := range p.bagsML {
		if b == ml {
			return true
		}
	}
	return false
}

// vial is the stock of a drug that is in date.
func (p *papers) vial(name string) (sim.Vial, bool) {
	for _, v := range p.vials {
		if v.Drug == name && v.Number > 0 && !v.Past {
			return v, true
		}
	}
	return sim.Vial{}, false
}

// siteAllowed, sizeAllowed: what the policy says of a line.
func (p *papers) siteAllowed(s vein.Site) bool {
	for _, site := range p.policy.Sites {
		if site == s {
			return true
		}
	}
	return false
}

func (p *papers) sizeAllowed(c vein.Cannula) bool {
	if c.LengthMM < p.policy.LeastMM {
		return false
	}
	for _, g := range p.policy.Gauges {
		if g == c.Gauge {
			return true
		}
	}
	return false
}

func (p *papers) offered(id string) offer {
	for _, v := range p.veins {
		if v.id == id {
			return v
		}
	}
	return offer{id: id}
}

func (p *papers) person(id string) int {
	for i, one := range p.people {
		if one.id == id {
			return i
		}
	}
	return -1
}

// shares says that a line that carried one vasopressor may carry another.
func (p *papers) shares() bool { return p.policy.SharedWith == "other-vasopressor" }

// wants says that the policy asks for a second person at one of these moments.
func (p *papers) wants(moments ...string) bool {
	for _, w := range p.policy.SecondChecks {
		for _, m := range moments {
			if w == m {
				return true
			}
		}
	}
	return false
}
