package scenarios

import (
	"fmt"
	"slices"
	"strings"

	"blanch/sim"
	"blanch/sim/drug"
	"blanch/sim/quantity"
)

// checkOrders checks the order, what it was meant to be, and other drugs
// beside it.
func (r *reader) checkOrders(c *Case) {
	r.checkOrder("order", &c.Order)
	if r.sound("order/keep/at or above", "order/keep/at or below") && c.Order.TargetMmHg >= c.Order.CeilMmHg {
		r.at("order/keep/at or below", Error, "range-reversed", "the upper pressure is not above the lower", "a pressure above that of at or above")
	}
	if m := c.Mended; m != nil {
		m.Drug, m.TargetMmHg, m.CeilMmHg = c.Order.Drug, c.Order.TargetMmHg, c.Order.CeilMmHg
		r.checkOrder("if queried", &m.Order)
	}
	for i := range c.Also {
		o := &c.Also[i]
		path := fmt.Sprintf("also ordered/%d", i+1)
		r.checkOrder(path, o)
		if r.sound(path+"/drug") && (o.Drug == c.Order.Drug || slices.ContainsFunc(c.Also[:i], func(above sim.Order) bool { return above.Drug == o.Drug })) {
			r.at(path+"/drug", Error, "given-twice", fmt.Sprintf("%s is ordered twice", o.Drug), "each drug once")
		}
	}
}

// ordered lists the drugs that the case orders.
func ordered(c *Case) []string {
	names := []string{c.Order.Drug}
	for _, o := range c.Also {
		names = append(names, o.Drug)
	}
	return names
}

// checkOrder checks drug, units and range of one order.
func (r *reader) checkOrder(at string, o *sim.Order) {
	drugAt := at + "/drug"
	if at == "if queried" {
		drugAt = "order/drug"
	}
	if r.sound(drugAt) {
		d, known := drug.Named(o.Drug)
		if drugAt == at+"/drug" {
			known = r.known(drugAt, "drug", o.Drug, drug.Names())
		}
		for _, f := range []struct {
			path string
			q    quantity.Quantity
		}{{at + "/start", o.Start}, {at + "/range/least", o.Least}, {at + "/range/most", o.Most}} {
			if known && r.sound(f.path) && !slices.Contains(d.DoseUnits, f.q.Unit.String()) {
				r.at(f.path, Error, "wrong-unit", fmt.Sprintf("%s is not a dose of %s", f.q, o.Drug), "a dose in "+strings.Join(d.DoseUnits, " or "))
			}
		}
	}
	least, most := at+"/range/least", at+"/range/most"
	if !r.sound(least, most) {
		return
	}
	if !o.Least.Unit.Same(o.Most.Unit) {
		r.at(most, Error, "wrong-unit", "the two ends of the range are in different units", "both in "+o.Least.Unit.String())
	} else if top, err := o.Most.In(o.Least.Unit); err == nil && top < o.Least.Value {
		r.at(most, Error, "range-reversed", "the range ends below where it begins", "least, then most")
	} else if start, err := o.Start.In(o.Least.Unit); err == nil && r.sound(at+"/start") && (start < o.Least.Value || start > top) {
		r.at(at+"/start", Warning, "start-outside-range", "the start is outside the range of the order", "a start within the range, unless the learner is to query it")
	}
}
