package sum

import (
	"slices"

	"blanch/sim/quantity"
)

var rates = []*Kind{
	{
		Name:   "rate",
		Says:   "the pump rate that gives a dose",
		Inputs: slices.Concat([]Input{{"dose", "dose ordered", doses, false}}, person, bag),
		Ways:   with(bagWays, "dose"), Units: flows, Step: 0.1, Device: "pump",
		fault: all(needsWeight("dose"), likeTheDrug("dose")),
		work:  func(p *path) value { return p.rate() },
	},
	{
		Name:   "rate_per_kg",
		Says:   "the flow to each kilogram that gives a dose to each kilogram",
		Inputs: slices.Concat([]Input{{"dose", "dose ordered", []string{"mcg/kg/min", "units/kg/min"}, false}}, bag),
		Ways:   with(bagWays, "dose"), Units: []string{"mL/kg/min"},
		fault: likeTheDrug("dose"),
		work: func(p *path) value {
			d := p.take("dose", "the dose")
			measure, _, per := shape(d.unit)
			c := p.strengthOf(measure)
			return p.over("rate", d, c, "mL/kg/"+per, flip|turn)
		},
	},
	{
		Name:   "dose",
		Says:   "the dose that a pump rate gives",
		Inputs: slices.Concat([]Input{{"rate", "rate of the pump", flows, false}}, person, bag),
		Ways:   with(bagWays, "rate"), Units: doses,
		usual: func(g map[string]quantity.Quantity) string {
			measure := measureOf(g, "concentration", "amount", "stock_amount")
			if _, ok := g["weight"]; ok {
				return measure + "/kg/min"
			}
			return measure + "/min"
		},
		fault: all(answerNeedsWeight, sameMeasure("concentration", "amount", "stock_amount")),
		work:  func(p *path) value { return p.doseOf() },
	},
	{
		Name: "new_rate",
		Says: "the new pump rate when the dose is changed",
		Inputs: []Input{
			{"dose", "dose that runs", doses, false},
			{"new_dose", "dose that is wanted", doses, false},
			{"rate", "rate that runs", flows, false},
		},
		Ways: [][]string{{"dose", "new_dose", "rate"}}, Units: flows, Step: 0.1, Device: "pump",
		fault: alike("new_dose", "dose"),
		work: func(p *path) value {
			old := p.take("dose", "the old dose")
			now := p.into("new dose", p.take("new_dose", "the new dose"), old.unit.String())
			rate := p.take("rate", "the old rate")
			times := p.over("change of the dose", now, old, "", flip)
			times.what = "the change of the dose"
			if p.slips("dose added to the rate", WrongDatum, "added the change of the dose to the rate") {
				times.x = (rate.x + now.x - old.x) / rate.x
			}
			return p.times("new rate", rate, times, rate.unit.String(), twice)
		},
	},
	{
		Name: "new_dose",
		Says: "the dose that a changed pump rate gives",
		Inputs: []Input{
			{"dose", "dose that ran", doses, false},
			{"rate", "rate that ran", flows, false},
			{"new_rate", "rate that runs now", flows, false},
		},
		Ways: [][]string{{"dose", "rate", "new_rate"}}, Units: doses,
		usual: func(g map[string]quantity.Quantity) string { return g["dose"].Unit.String() },
		fault: sameKind("dose"),
		work: func(p *path) value {
			d := p.take("dose", "the old dose")
			old := p.take("rate", "the old rate")
			now := p.into("new rate", p.take("new_rate", "the new rate"), old.unit.String())
			times := p.over("change of the rate", now, old, "", flip)
			times.what = "the change of the rate"
			if p.slips("rate added to the dose", WrongDatum, "added the change of the rate to the dose") {
				times.x = (d.x + now.x - old.x) / d.x
			}
			return p.times("new dose", d, times, d.unit.String(), twice)
		},
	},
	{
		Name: "wrong_entry",
		Says: "the dose that really runs when the pump was told another concentration than the bag has",
		Inputs: []Input{
			{"programmed", "dose that the pump shows", doses, false},
			{"told", "concentration that the pump was told", strength, false},
			{"concentration", "concentration that hangs", strength, false},
		},
		Ways: [][]string{{"programmed", "told", "concentration"}}, Units: doses,
		usual: func(g map[string]quantity.Quantity) string { return g["programmed"].Unit.String() },
		fault: all(sameKind("programmed"), alike("told", "concentration")),
		work: func(p *path) value {
			d := p.take("programmed", "the dose on the pump")
			c := p.take("concentration", "the concentration that hangs")
			told := p.into("concentration told", p.take("told", "the concentration that the pump was told"), c.unit.String())
			times := p.over("times too strong", c, told, "", flip)
			times.what = "the ratio of the two concentrations"
			return p.times("dose that runs", d, times, d.unit.String(), forget|twice)
		},
	},
	{
		Name: "error_factor",
		Says: "how many times too large a value is",
		Inputs: []Input{
			{"intended", "what was meant", slices.Concat(doses, strength, flows), false},
			{"programmed", "what there is", slices.Concat(doses, strength, flows), false},
		},
		Ways:  [][]string{{"intended", "programmed"}},
		fault: alike("programmed", "intended"),
		work: func(p *path) value {
			meant := p.take("intended", "what was meant")
			got := p.into("what there is", p.take("programmed", "what there is"), meant.unit.String())
			return p.over("times too large", got, meant, "", flip)
		},
	},
}

// rate is the pump rate of a dose.
func (p *path) rate() value {
	d := p.take("dose", "the dose")
	measure, perKG, per := shape(d.unit)
	var w value
	if p.has("weight") {
		w = p.weight()
	}
	c := p.strengthOf(measure)
	// Of a dose in an hour that is the ratio upside down.
	if (perKG || per != "h") && p.slips("dose and concentration swapped", WrongDatum, "put the concentration where the dose belongs, and the dose where the concentration belongs") {
		d.x, c.x = c.x, d.x
	}
	switch {
	case perKG:
		d = p.times("dose of the whole patient", d, w, measure+"/"+per, forget|twice|turn)
	case p.has("weight"):
		if p.slips("total read as per kg", UnitFactor, "multiplied by the weight, though the dose is that of the whole patient") {
			d.x = float64(d.x * w.x)
		}
	}
	d = p.into("dose in an hour", d, measure+"/h")
	d.what = "the dose in an hour"
	return p.over("rate", d, c, "mL/h", flip|turn)
}

// doseOf is the dose of a pump rate, in the shape that is asked for.
func (p *path) doseOf() value {
	measure, perKG, per := shape(p.want)
	r := p.take("rate", "the rate")
	_, _, runs := shape(r.unit)
	r = p.into("rate in mL", r, "mL/"+runs)
	var w value
	if p.has("weight") {
		w = p.weight()
	}
	c := p.strengthOf(measure)
	d := p.times("drug in 1 "+runs, r, c, measure+"/"+runs, turn)
	d = p.into("dose in 1 "+per, d, measure+"/"+per)
	d.what = "the dose of the whole patient"
	switch {
	case perKG:
		d = p.over("dose to each kg", d, w, measure+"/kg/"+per, forget|twice|turn)
	case p.has("weight"):
		if p.slips("total read as per kg", UnitFactor, "divided by the weight, though the dose of the whole patient is asked for") {
			d.x /= w.x
		}
	}
	return d
}

// needsWeight wants a body weight where a dose is by the kilogram.
func needsWeight(name string) func(*Sum) error {
	return func(s *Sum) error {
		if _, perKG, _ := shape(s.given[name].Unit); !perKG {
			return nil
		}
		if _, ok := s.given["weight"]; !ok {
			return &InputError{"weight", "weight is missing: " + name + " is in " + s.given[name].Unit.String()}
		}
		return nil
	}
}

func answerNeedsWeight(s *Sum) error {
	if _, perKG, _ := shape(s.Unit); s.Unit.IsZero() || !perKG {
		return nil
	}
	if _, ok := s.given["weight"]; !ok {
		return &InputError{"weight", "weight is missing: the answer is asked for in " + s.Unit.String()}
	}
	return nil
}

// likeTheDrug wants a dose measured as the bag is: units are no mass.
func likeTheDrug(name string) func(*Sum) error {
	return func(s *Sum) error {
		have, _, _ := shape(s.given[name].Unit)
		for _, n := range []string{"concentration", "amount", "stock_amount"} {
			q, ok := s.given[n]
			if !ok {
				continue
			}
			if of, _, _ := shape(q.Unit); !quantity.MustUnit(of).Same(quantity.MustUnit(have)) {
				return &InputError{n, n + " is in " + q.Unit.String() + " and " + name + " in " + s.given[name].Unit.String() + ": both must be mass, or both units"}
			}
		}
		return nil
	}
}

// alike wants two inputs that are measured alike.
func alike(a, b string) func(*Sum) error {
	return func(s *Sum) error {
		if !s.given[a].Unit.Same(s.given[b].Unit) {
			return &InputError{a, a + " is in " + orBare(s.given[a].Unit) + " and " + b + " in " + orBare(s.given[b].Unit) + ": give both alike"}
		}
		return nil
	}
}
