package sim

import (
	"maps"

	"blanch/sim/drug"
	"blanch/sim/quantity"
	"blanch/sim/sum"
)

// Inputs are what the engine reckoned the key of a sum from, in the terms of
// package sum.
type Inputs struct {
	Kind  string
	Given map[string]quantity.Quantity
}

// Worked is the sum with the numbers of this run; nil when it is of a kind
// that package sum does not have. With kg it is reckoned with that weight in
// place of the actual one.
func (a AnswerRecord) Worked(kg float64) *sum.Sum {
	if a.From == nil {
		return nil
	}
	k, ok := sum.Named(a.From.Kind)
	if !ok {
		return nil
	}
	given := maps.Clone(a.From.Given)
	if _, weighed := given["weight"]; weighed && kg > 0 {
		given["weight"] = quantity.Of(kg, "kg")
	}
	s, err := k.New(given, a.Key.Unit)
	if err != nil {
		return nil // a stopped pump, an empty bag: no slip is looked for
	}
	return s
}

// inputs are what a key is reckoned from, as [Engine.key] reckons it.
func (e *Engine) inputs(q Question, at Time) *Inputs {
	b, p := e.about(q)
	of := func(v, step float64, unit string) quantity.Quantity {
		return quantity.Of(quantity.Round(v, step), unit)
	}
	given := map[string]quantity.Quantity{}
	kind := ""
	switch q.What {
	case SumConcentration:
		kind = "concentration"
		base, ml := e.base(b.agent), b.nominalML()
		given["amount"], given["volume"] = of(float64(b.Nominal*ml), 0.001, base), of(ml, 0.1, "mL")
		if mg := given["amount"].Value / 1000; base == "mcg" && mg >= 1 {
			given["amount"] = quantity.Of(mg, "mg") // as vials are labelled
		}
		if own := of(b.VolumeML-ml, 0.1, "mL"); own.Value > 0 && !b.Withdrawn {
			given["drug_volume"] = own
		}
		if d, ok := drug.Named(b.Drug); ok && len(d.Salts) > 0 {
			given["salt_ratio"] = quantity.Quantity{Value: d.Salts[len(d.Salts)-1].Ratio}
		}
	case SumRate:
		kind = "rate"
		o, ordered := e.orderOf(b.Drug)
		if !ordered {
			o = e.order()
		}
		base := e.base(b.agent)
		given["dose"], given["concentration"] = o.Start, quantity.Of(legible(b.Nominal), base+"/mL")
		if kg := e.c.Patient.WeightKG; kg > 0 {
			given["weight"] = quantity.Of(kg, "kg")
		}
		for _, other := range e.bags {
			if other.Drug == b.Drug && legible(other.Nominal) != legible(b.Nominal) {
				given["other_concentration"] = quantity.Of(legible(other.Nominal), base+"/mL")
			}
		}
	case SumRunOut:
		kind = "run_out"
		given["volume"], given["rate"] = of(e.leftAt(p, at.Seconds()), 0.1, "mL"), quantity.Of(p.rate, "mL/h")
	case SumFirstDrug:
		kind = "first_drug"
		given["dead_volume"], given["rate"] = of(p.site.column.DeadML(), 0.01, "mL"), quantity.Of(p.rate, "mL/h")
	case SumDose:
		kind = "dose"
		given["rate"], given["concentration"] = quantity.Of(p.rate, "mL/h"), quantity.Of(legible(p.bag.Nominal), e.base(p.bag.agent)+"/mL")
		if kg := e.c.Patient.WeightKG; kg > 0 {
			given["weight"] = quantity.Of(kg, "kg")
		}
	case SumAntidote:
		kind = "split"
		given["whole"], given["parts"] = of(e.lastBag(true).VolumeML, 0.1, "mL"), quantity.Quantity{Value: 2}
	}
	return &Inputs{Kind: kind, Given: given}
}
