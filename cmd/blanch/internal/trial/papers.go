package trial

import (
	"regexp"

	"blanch/scenarios"
	"blanch/sim"
	"blanch/sim/drug"
	"blanch/sim/quantity"
	"blanch/sim/vein"
)

// papers is all that a learner may read: the briefing, the order, the policy,
// the stock, and which veins and people there are. Nothing of it is hidden
// from a person who plays.
type papers struct {
	policy *scenarios.Policy
	order  sim.Order
	drug   drug.Drug

	aMinute, aKGMinute quantity.Unit // of its doses

	weightKG float64
	veins    []offer
	inPlace  []sim.InPlace
	people   []person
	cuff     sim.Side
	relief   sim.Time
	ends     sim.Time

	pump      string
	stepMLH   float64
	mostMLH   float64
	cannulae  []vein.Cannula
	bagsML    []float64
	vials     []sim.Vial
	scanner   bool
	nitrate   bool
	withdraws string

	// Of the order as it is written.
	mixMG, mixML float64
	mixFlawed    bool
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
		policy: policy, order: c.Order, weightKG: c.Patient.WeightKG, inPlace: c.InPlace,
		cuff: c.CuffArm, relief: c.Relief, ends: c.Ends,
		pump: place.Pumps[0].ID, stepMLH: place.Pumps[0].StepMLH, mostMLH: place.Pumps[0].MostMLH,
		cannulae: place.Cannulae, bagsML: place.BagsML, vials: place.Vials,
		scanner: place.Ultrasound, nitrate: place.Nitrate,
		withdraws: "adding to the bag",
	}
	if policy.WithdrawFirst {
		p.withdraws = "withdrawing first"
	}
	p.drug, _ = drug.Named(c.Order.Drug)
	p.aMinute, p.aKGMinute = quantity.MustUnit(p.drug.Base+"/min"), quantity.MustUnit(p.drug.Base+"/kg/min")
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
	p.mixMG, p.mixML, p.mixFlawed = p.mix(p.order)
	return p
}

// askedMix is "4 mg in 250 mL" in the words of an order.
var askedMix = regexp.MustCompile(`([0-9][0-9.]*) (mg|units) in ([0-9][0-9.]*) (mL|L)\b`)

// mix is what to make up for an order: what it names where that can be had
// and is within the policy, else the strongest whole vials the policy allows.
// It is flawed when the order names a stronger one.
func (p *papers) mix(o sim.Order) (mg, ml float64, flawed bool) {
	vial, ok := p.vial(o.Drug)
	if !ok || len(p.bagsML) == 0 {
		return 0, 0, false
	}
	if m := askedMix.FindStringSubmatch(o.Text); m != nil {
		amount, errA := quantity.Parse(m[1] + " " + m[2])
		volume, errV := quantity.Parse(m[3] + " " + m[4])
		if errA == nil && errV == nil {
			mg, ml = amount.Value, volume.Float("mL")
			flawed = !p.allows(mg, ml)
			if p.hasBag(ml) && mg <= vial.MG*float64(vial.Number) && p.allows(mg, ml) {
				return mg, ml, flawed
			}
		}
	}
	best := 0.0
	for _, bag := range p.bagsML {
		for n := 1; n <= vial.Number; n++ {
			amount := vial.MG * float64(n)
			if c := p.conc(amount, bag); p.allows(amount, bag) && c > best {
				best, mg, ml = c, amount, bag
			}
		}
	}
	if best == 0 { // nothing in stock is weak enough
		mg, ml = vial.MG, p.bagsML[0]
		for _, bag := range p.bagsML {
			ml = max(ml, bag)
		}
	}
	return mg, ml, flawed
}

func (p *papers) hasBag(ml float64) bool {
	for _, b := range p.bagsML {
		if b == ml {
			return true
		}
	}
	return false
}

// conc is amount over labelled volume, in the drug's base unit per mL.
func (p *papers) conc(amount, ml float64) float64 {
	if p.drug.Base == "units" {
		return amount / ml
	}
	return 1000 * amount / ml
}

func (p *papers) allows(amount, ml float64) bool {
	most, limited := p.policy.MostMcgML[p.order.Drug]
	return !limited || p.conc(amount, ml) <= most*(1+1e-9)
}

// vial is the stock of a drug.
func (p *papers) vial(name string) (sim.Vial, bool) {
	for _, v := range p.vials {
		if v.Drug == name && v.Number > 0 {
			return v, true
		}
	}
	return sim.Vial{}, false
}

// perMin is a dose of the order, in the drug's base unit a minute.
func (p *papers) perMin(q quantity.Quantity) float64 {
	switch {
	case q.Unit.Same(p.aMinute):
		v, _ := q.In(p.aMinute)
		return v
	case q.Unit.Same(p.aKGMinute):
		v, _ := q.In(p.aKGMinute)
		return v * p.weightKG
	}
	return 0
}

// most is the highest dose that order and policy both allow.
func (p *papers) most(o sim.Order) float64 {
	most := p.perMin(o.Most)
	if limit, ok := p.policy.MostMcgMin[o.Drug]; ok {
		most = min(most, limit)
	}
	return most
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
