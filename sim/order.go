package sim

import (
	"cmp"

	"blanch/sim/dose"
	"blanch/sim/drug"
	"blanch/sim/quantity"
)

// Meant is the order as it was meant, whether or not anybody asked.
func (c *Case) Meant() Order {
	if c.Mended != nil {
		return c.Mended.Order
	}
	return c.Order
}

// OrderFor is what was ordered of a drug, as it was meant.
func (c *Case) OrderFor(name string) (Order, bool) { return orderAmong(c.Meant(), c.Also, name) }

func orderAmong(first Order, also []Order, name string) (Order, bool) {
	if first.Drug == name {
		return first, true
	}
	for _, o := range also {
		if o.Drug == name {
			return o, true
		}
	}
	return Order{}, false
}

// PerMinute is a dose of a drug in its base unit a minute for a weight.
func PerMinute(q quantity.Quantity, name string, kg float64) float64 {
	base := cmp.Or(drug.BaseOf(name), "mcg")
	if quantity.MustUnit(base + "/min").Same(q.Unit) {
		return q.Float(base + "/min")
	}
	return dose.PerMin(q.Float(base+"/kg/min"), kg)
}

// order is the order as it stands.
func (e *Engine) order() Order {
	if e.mended {
		return e.c.Mended.Order
	}
	return e.c.Order
}

// orderOf is what is ordered of a drug, as it stands.
func (e *Engine) orderOf(name string) (Order, bool) { return orderAmong(e.order(), e.c.Also, name) }

// perMin is a dose of the order in its drug's base unit a minute for this
// patient.
func (e *Engine) perMin(q quantity.Quantity, name string) float64 {
	return PerMinute(q, name, e.c.Patient.WeightKG)
}
