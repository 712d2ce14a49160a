package sum

// weight is the body weight in kg.
func (p *path) weight() value {
	w := p.take("weight", weighed)
	if w.unit == p.unit("lb") {
		w = p.into("weight in kg", w, "kg")
		w.what = weighed
		return w
	}
	if p.slips("kilograms as pounds", UnitFactor, "taken the kilograms for pounds") {
		w.x /= p.pounds
	}
	if p.slips("pounds in place of kilograms", UnitFactor, "worked with the weight in pounds") {
		w.x = float64(w.x * p.pounds)
	}
	return w
}

// strengthOf is the concentration of the bag in a measure to the mL.
func (p *path) strengthOf(measure string) value {
	unit := measure + "/mL"
	var c value
	switch {
	case p.has("concentration"):
		c = p.into("concentration in "+unit, p.take("concentration", "the concentration"), unit)
	case p.has("stock_amount"):
		a := p.into("drug in the stock", p.take("stock_amount", "the drug in the stock"), measure)
		v := p.into("volume of the stock", p.take("stock_volume", "the volume of the stock"), "mL")
		stock := p.over("concentration of the stock", a, v, unit, flip)
		taken := p.into("stock taken", p.take("taken", "the volume taken"), "mL")
		total := p.into("volume made up to", p.take("total", "the volume made up to"), "mL")
		drug := p.times("drug taken", stock, taken, measure, forget)
		if p.slips("stock volume for final volume", WrongDatum, "divided by the volume of the stock in place of the final volume") {
			total = v
		}
		if p.slips("drug volume on top", DrugVolume, "counted the drug's own volume on top of the volume made up to") {
			total.x += taken.x
		}
		c = p.over("concentration", drug, total, unit, flip)
	default:
		labelled := p.take("amount", "the amount")
		a := p.into("drug in the bag", labelled, measure)
		v := p.into("volume of the bag", p.take("volume", "the volume"), "mL")
		if p.has("drug_volume") {
			d := p.into("volume of the drug", p.take("drug_volume", "the volume of the drug"), "mL")
			if p.slips("drug volume counted", DrugVolume, "counted the volume of the drug, where the label reckons by the volume of the bag") {
				v.x += d.x
			}
			if p.slips("stock volume for final volume", WrongDatum, "divided by the drug's own volume in place of that of the bag") {
				v = d
			}
		}
		if p.has("salt_ratio") {
			r := p.given["salt_ratio"].Value
			if p.slips("salt for base", WrongDatum, "reckoned the amount as the salt, where it is the base") {
				a.x /= r
			}
			if p.slips("base for salt", WrongDatum, "turned the amount from base into salt") {
				a.x = float64(a.x * r)
			}
		}
		if a.unit != labelled.unit && p.slips("the volume over the labelled amount", Inverted, "divided the volume by the amount as it is labelled, upside down") {
			a.x = v.x * v.x / labelled.x
		}
		c = p.over("concentration", a, v, unit, flip)
	}
	c.what = "the concentration"
	if p.has("other_concentration") {
		if other := p.given["other_concentration"]; other.Unit.Same(c.unit) {
			if p.slips("wrong bag", WrongDatum, "worked with the other bag, of %s", other) {
				c.x, _ = other.In(c.unit) // they are the same kind
			}
		}
	}
	return c
}
