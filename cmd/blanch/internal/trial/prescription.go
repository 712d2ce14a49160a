package trial

import (
	"regexp"
	"strings"

	"blanch/sim"
	"blanch/sim/drug"
	"blanch/sim/quantity"
)

// prescription is one drug as it is ordered, and what its words come to.
type prescription struct {
	order sim.Order
	drug  drug.Drug

	aMinute, aKGMinute quantity.Unit // of its doses

	askedAmount, askedML float64 // the mix that it names, 0 when it names none
	fromDose             float64 // for a second drug: begins when the first runs at this dose or more
	onDemand             bool    // begins when the first is not enough
	fixed                bool    // not to be titrated
}

// askedMix is "4 mg in 250 mL" in the words of an order.
var askedMix = regexp.MustCompile(`([0-9][0-9.]*) (mg|units) in ([0-9][0-9.]*) (mL|L)\b`)

// askedWhen is what a second drug waits for: its sentence speaks of the
// pressure or of the first drug.
var askedWhen = regexp.MustCompile(`\b(?:if|when|once|should) [^.;:]*(?:pressure|norepinephrine|epinephrine|phenylephrine|dopamine|dose|enough|hold|target)[^;:]*`)

// askedFrom is "when norepinephrine exceeds 8 mcg/min" in the words of an
// order.
var askedFrom = regexp.MustCompile(`(?:over|above|exceeds?|reach(?:es|ed)?|beyond|more than|at least|climbs? to|comes? to) ([0-9][0-9.]* (?:mcg|units)(?:/kg)?/min)`)

// prescribed reads an order.
func (p *papers) prescribed(o sim.Order) prescription {
	rx := prescription{order: o}
	rx.drug, _ = drug.Named(o.Drug)
	rx.aMinute, rx.aKGMinute = quantity.MustUnit(rx.base()+"/min"), quantity.MustUnit(rx.base()+"/kg/min")
	if m := askedMix.FindStringSubmatch(o.Text); m != nil {
		amount, errA := quantity.Parse(m[1] + " " + m[2])
		volume, errV := quantity.Parse(m[3] + " " + m[4])
		if errA == nil && errV == nil {
			rx.askedAmount, rx.askedML = amount.Value, volume.Float("mL")
		}
	}
	said := strings.ToLower(o.Text)
	rx.fixed = strings.Contains(said, "fixed") || strings.Contains(said, "not titrated") || strings.Contains(said, "do not titrate")
	when := askedWhen.FindString(said)
	if m := askedFrom.FindStringSubmatch(when); m != nil && len(p.ordered) > 0 {
		if q, err := quantity.Parse(m[1]); err == nil {
			rx.fromDose = p.ordered[0].perMin(q, p.weightKG)
		}
	}
	rx.onDemand = when != "" && rx.fromDose == 0
	return rx
}

func (rx *prescription) base() string {
	if rx.drug.Base == "" {
		return "mcg"
	}
	return rx.drug.Base
}

// perMin is a dose in the drug's base unit a minute for a weight; 0 when it
// is none.
func (rx *prescription) perMin(q quantity.Quantity, kg float64) float64 {
	switch {
	case q.Unit.Same(rx.aMinute):
		v, _ := q.In(rx.aMinute)
		return v
	case q.Unit.Same(rx.aKGMinute):
		v, _ := q.In(rx.aKGMinute)
		return v * kg
	}
	return 0
}

// strength is amount over labelled volume, in the drug's base unit per mL.
func (rx *prescription) strength(amount, ml float64) float64 {
	if rx.drug.Base == "units" {
		return amount / ml
	}
	return 1000 * amount / ml
}

// allows says that the policy lets a mix run through an arm.
func (p *papers) allows(rx *prescription, amount, ml float64) bool {
	most, limited := p.policy.MostMcgML[rx.order.Drug]
	return !limited || rx.strength(amount, ml) <= most*(1+1e-9)
}

// most is the highest dose that order and policy both allow through an arm.
func (p *papers) most(rx *prescription) float64 {
	most := rx.perMin(rx.order.Most, p.weightKG)
	if limit, ok := p.policy.MostMcgMin[rx.order.Drug]; ok {
		most = min(most, limit)
	}
	return most
}

// tooLittle is a share of the highest dose so small that it must be a slip of
// unit or point (assumed).
const tooLittle = 1.0 / 500

// flawed says that an order asks for what it forbids itself or the policy
// does, or for next to nothing.
func (p *papers) flawed(rx *prescription) bool {
	start := rx.perMin(rx.order.Start, p.weightKG)
	least, most := rx.perMin(rx.order.Least, p.weightKG), rx.perMin(rx.order.Most, p.weightKG)
	strong := rx.askedAmount > 0 && !p.allows(rx, rx.askedAmount, rx.askedML)
	limit, limited := p.policy.MostMcgMin[rx.order.Drug]
	return strong || start < least*(1-1e-9) || start > most*(1+1e-9) || start > p.most(rx)*(1+1e-9) ||
		limited && start < limit*tooLittle
}

// meant is the dose to start at: the ordered one, or while an order that
// cannot be right stands unasked, the same number by the minute where the
// policy allows that, and else its highest.
func (p *papers) meant(rx *prescription) float64 {
	start, most := rx.perMin(rx.order.Start, p.weightKG), p.most(rx)
	if limit, ok := p.policy.MostMcgMin[rx.order.Drug]; ok && start > limit*(1+1e-9) && rx.order.Start.Value <= limit/2 {
		return rx.order.Start.Value
	}
	return min(start, most)
}
