package sum

import (
	"strings"

	"blanch/sim/quantity"
)

// into converts a value to another unit, one factor a step.
func (p *path) into(label string, v value, unit string) value {
	if v.unit == p.unit(unit) {
		return v
	}
	to := strings.Split(p.unit(unit).String(), "/")
	from := strings.Split(v.unit.String(), "/")
	for i := range from {
		for j := range to {
			a, b := p.unit(from[i]), p.unit(to[j])
			if (i == 0) != (j == 0) || !a.Same(b) || a == b {
				continue
			}
			from[i] = to[j]
			// The factor counts how many of the small unit make the large one.
			many, small, large := p.factor(a, b)
			// Going to the smaller unit makes the number larger, and under
			// the line it makes it smaller.
			up := (small == b) == (i == 0)
			v = p.scale(label, v, many, small.String()+"/"+singular(large), up, strings.Join(from, "/"))
		}
	}
	return v
}

func singular(u quantity.Unit) string {
	_, one, _ := strings.Cut(quantity.Quantity{Value: 1, Unit: u}.String(), " ")
	return one
}

// factor is how many of the smaller of two units make the larger.
func (p *path) factor(a, b quantity.Unit) (many float64, small, large quantity.Unit) {
	kg, lb := p.unit("kg"), p.unit("lb")
	if a.Same(kg) {
		return p.pounds, lb, kg
	}
	ab, _ := quantity.Quantity{Value: 1, Unit: a}.In(b) // they are the same kind
	if ab >= 1 {
		return ab, b, a
	}
	ba, _ := quantity.Quantity{Value: 1, Unit: b}.In(a)
	return ba, a, b
}

// scale multiplies or divides by a factor between units.
func (p *path) scale(label string, v value, many float64, unit string, up bool, to string) value {
	n := quantity.Number(many)
	p.sixty = p.sixty || many == 60
	p.grand = p.grand || many == 1000
	verb, instead, should, sign := "multiplied", "divided", "multiplies", "x"
	right, turned := float64(v.x*many), v.x/many
	again := float64(right * many)
	if !up {
		verb, instead, should, sign = instead, verb, "divides", "/"
		right, turned = turned, right
		again = right / many
	}
	x := right
	if many == p.pounds {
		// The names are the same by either convention.
		to := p.unit(strings.Split(to, "/")[0])
		if p.slips("pounds and kilograms mixed up", UnitFactor, "taken %s for %s", plain(v.unit), plain(to)) {
			x = v.x
		}
		if p.slips("pounds turned", UnitFactor, "%s by 2.2 where one %s", instead, should) {
			x = turned
		}
	} else {
		small, large, _ := strings.Cut(unit, "/")
		if p.slips(n+" forgotten", UnitFactor, "left out the %s %s in 1 %s", n, small, large) {
			x = v.x
		}
		// Nobody is seen to use the 1000 mL of a litre twice, or a million.
		mass := many == 1000 && small != "mL"
		if (many == 60 || mass) && p.slips(n+" twice", UnitFactor, "%s by %s twice", verb, n) {
			x = again
		}
		if (many == 60 || mass) && p.slips(n+" turned", UnitFactor, "%s by %s where one %s", instead, n, should) {
			x = turned
		}
	}
	out := value{x: x, unit: p.unit(to), what: v.what}
	line := ""
	if p.make == "" {
		by := n + " " + unit
		if !up {
			by = "(" + by + ")"
		}
		line = written(v.x, v.unit) + " " + sign + " " + by + " = " + written(x, out.unit)
	}
	return p.record(label, line, out)
}

// plain is a unit of weight in words.
func plain(u quantity.Unit) string {
	if u == quantity.MustUnit("lb") {
		return "pounds"
	}
	return "kilograms"
}

// shape is what a dose is measured in: its measure, whether it is by the
// kilogram, and its time; empty where it has none.
func shape(u quantity.Unit) (measure string, perKG bool, per string) {
	if u.IsZero() {
		return "", false, ""
	}
	for i, part := range strings.Split(u.String(), "/") {
		one := quantity.MustUnit(part)
		switch {
		case i == 0:
			measure = part
		case one.Same(quantity.MustUnit("kg")):
			perKG = true
		case one.Same(quantity.MustUnit("h")):
			per = part
		}
	}
	return measure, perKG, per
}
