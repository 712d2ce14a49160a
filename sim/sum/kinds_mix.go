package sum

import (
	"slices"

	"blanch/sim/quantity"
)

var mixing = []*Kind{
	{
		Name:   "concentration",
		Says:   "the concentration of a mix: the drug over the labelled volume of the bag",
		Inputs: bag[1:], Ways: bagWays[1:], Units: strength,
		usual: func(g map[string]quantity.Quantity) string { return measureOf(g, "amount", "stock_amount") + "/mL" },
		fault: sameMeasure("amount", "stock_amount"),
		work: func(p *path) value {
			measure, _, _ := shape(p.want)
			return p.strengthOf(measure)
		},
	},
	{
		Name: "true_concentration",
		Says: "the concentration that is really in the bag, with the volume of the drug counted",
		Inputs: []Input{
			{"amount", "drug that is added", amounts, false},
			{"volume", "labelled volume of the bag", volumes, false},
			{"drug_volume", "volume that the drug comes in", volumes, false},
		},
		Ways: [][]string{{"amount", "volume", "drug_volume"}}, Units: strength,
		usual: func(g map[string]quantity.Quantity) string { return measureOf(g, "amount") + "/mL" },
		fault: sameMeasure("amount"),
		work: func(p *path) value {
			measure, _, _ := shape(p.want)
			a := p.into("drug", p.take("amount", "the amount"), measure)
			v := p.into("volume of the bag", p.take("volume", "the volume of the bag"), "mL")
			d := p.into("volume of the drug", p.take("drug_volume", "the volume of the drug"), "mL")
			return p.over("concentration", a, p.together(v, d), measure+"/mL", flip)
		},
	},
	{
		Name: "diluted",
		Says: "the concentration after a stock is added to a diluent",
		Inputs: []Input{
			{"stock", "concentration of the stock", append([]string{"%"}, strength...), false},
			{"stock_volume", "volume of stock that is added", volumes, false},
			{"diluent", "volume of diluent", volumes, false},
		},
		Ways: [][]string{{"stock", "stock_volume", "diluent"}}, Units: append([]string{"%"}, strength...),
		usual: func(g map[string]quantity.Quantity) string { return g["stock"].Unit.String() },
		fault: sameKind("stock"),
		work: func(p *path) value {
			c := p.take("stock", "the concentration of the stock")
			v := p.into("volume of stock", p.take("stock_volume", "the volume of the stock"), "mL")
			d := p.into("volume of diluent", p.take("diluent", "the volume of the diluent"), "mL")
			x := v.x + d.x
			if p.slips("drug volume not counted", DrugVolume, "divided by the diluent alone, without the volume of the stock") {
				x = d.x
			}
			all := p.plus("volume in all", v, d, "+", x)
			share := p.over("share of stock in the mix", v, all, "", flip)
			return p.times("concentration", c, share, c.unit.String(), forget)
		},
	},
	{
		Name: "stock_needed",
		Says: "how much of a stock makes a weaker mix",
		Inputs: []Input{
			{"stock", "concentration of the stock", append([]string{"%"}, strength...), false},
			{"target", "concentration that is wanted", append([]string{"%"}, strength...), false},
			{"final_volume", "volume that is wanted in the end", volumes, false},
		},
		Ways: [][]string{{"stock", "target", "final_volume"}}, Units: volumes, Step: 0.1, Device: "syringe",
		fault: func(s *Sum) error {
			if !s.given["target"].Unit.Same(s.given["stock"].Unit) {
				return &InputError{"target", "target and stock must be measured alike: give both in " + s.given["stock"].Unit.String()}
			}
			return nil
		},
		work: func(p *path) value {
			c := p.take("stock", "the concentration of the stock")
			t := p.into("concentration wanted", p.take("target", "the concentration wanted"), c.unit.String())
			v := p.into("final volume", p.take("final_volume", "the final volume"), "mL")
			share := p.over("share of stock in the mix", t, c, "", flip)
			return p.times("volume of stock", v, share, "mL", 0)
		},
	},
	{
		Name: "implied_concentration",
		Says: "the concentration at which a dose and a rate are one and the same",
		Inputs: []Input{
			{"dose", "dose", []string{"mcg/min", "units/min"}, false},
			{"rate", "rate of the pump", flows, false},
		},
		Ways: [][]string{{"dose", "rate"}}, Units: strength[:2],
		usual: func(g map[string]quantity.Quantity) string { return measureOf(g, "dose") + "/mL" },
		fault: sameMeasure("dose"),
		work: func(p *path) value {
			measure, _, _ := shape(p.want)
			d := p.take("dose", "the dose")
			_, _, per := shape(d.unit)
			d = p.into("dose in "+measure, d, measure+"/"+per)
			r := p.into("rate in mL/"+per, p.take("rate", "the rate"), "mL/"+per)
			return p.over("concentration", d, r, measure+"/mL", flip|turn)
		},
	},
	salts("salt", "the mass of salt that holds a mass of base", "base", "mass or concentration as base",
		func(p *path, v, r value) value { return p.times("salt", v, r, v.unit.String(), forget|twice|turn) }),
	salts("base", "the mass of base in a mass of salt", "salt", "mass or concentration as salt",
		func(p *path, v, r value) value { return p.over("base", v, r, v.unit.String(), forget|twice|turn) }),
}

// salts makes the two kinds between salt and base.
func salts(name, says, from, means string, work func(p *path, v, r value) value) *Kind {
	masses := []string{"mg", "mcg/mL"}
	return &Kind{
		Name: name, Says: says,
		Inputs: []Input{{from, means, masses, false}, {"salt_ratio", "mass of the salt that holds 1 of base", nil, false}},
		Ways:   [][]string{{from, "salt_ratio"}}, Units: masses,
		usual: func(g map[string]quantity.Quantity) string { return g[from].Unit.String() },
		fault: sameKind(from),
		work: func(p *path) value {
			return work(p, p.take(from, "the "+from), p.take("salt_ratio", "the ratio of salt to base"))
		},
	}
}

// together is the volume of a bag with that of the drug in it.
func (p *path) together(v, d value) value {
	x := v.x + d.x
	if p.slips("drug volume not counted", DrugVolume, "left out the volume of the drug") {
		x = v.x
	}
	if p.slips("drug volume taken away", DrugVolume, "taken the volume of the drug away from that of the bag") {
		x = v.x - d.x
	}
	if p.slips("stock volume for final volume", WrongDatum, "divided by the volume of the drug in place of the final volume") {
		x = d.x
	}
	return p.plus("volume in all", v, d, "+", x)
}

// sameMeasure wants an answer whose measure is that of the first of some
// inputs that is given: units are no mass.
func sameMeasure(names ...string) func(*Sum) error {
	return func(s *Sum) error {
		if s.Unit.IsZero() {
			return nil
		}
		for _, n := range names {
			q, ok := s.given[n]
			if !ok {
				continue
			}
			have, _, _ := shape(q.Unit)
			want, _, _ := shape(s.Unit)
			if !quantity.MustUnit(have).Same(quantity.MustUnit(want)) {
				return &InputError{"", "the answer cannot be in " + s.Unit.String() + ": " + n + " is in " + q.Unit.String()}
			}
		}
		return nil
	}
}

// sameKind wants an answer that is measured like an input.
func sameKind(name string) func(*Sum) error {
	return func(s *Sum) error {
		if u := s.given[name].Unit; !s.Unit.IsZero() && !s.Unit.Same(u) {
			return &InputError{"", "the answer cannot be in " + s.Unit.String() + ": " + name + " is in " + u.String()}
		}
		return nil
	}
}

// all runs faults one after the other.
func all(faults ...func(*Sum) error) func(*Sum) error {
	return func(s *Sum) error {
		i := slices.IndexFunc(faults, func(f func(*Sum) error) bool { return f(s) != nil })
		if i < 0 {
			return nil
		}
		return faults[i](s)
	}
}
