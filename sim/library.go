package sim

import (
	"fmt"

	"blanch/sim/dose"
	"blanch/sim/quantity"
)

// DrugLimit is what the library of a pump holds for one drug. Doses are as
// they would be ordered; a quantity without a unit is no limit.
type DrugLimit struct {
	Drug string
	Soft DoseRange // the pump warns outside it
	Hard DoseRange // the pump refuses outside it
}

// DoseRange is a range of doses, open where an end is not set.
type DoseRange struct{ Least, Most quantity.Quantity }

// limitOf is the entry of a pump's library for the bag that hangs on it.
func (p *pumpState) limitOf() (DrugLimit, bool) {
	if p.bag != nil {
		for _, l := range p.Library {
			if l.Drug == p.bag.Drug {
				return l, true
			}
		}
	}
	return DrugLimit{}, false
}

// refusedDose is what a pump says when a rate gives a dose beyond a hard
// limit; empty when it takes it. Dose and limit are held against each other
// with the concentration on the label and the patient's weight as programmed.
func (e *Engine) refusedDose(p *pumpState, mlh float64) string {
	l, ok := p.limitOf()
	if !ok || mlh <= 0 {
		return ""
	}
	if beyond := e.beyond(p, mlh, l.Hard, "hard"); beyond != "" {
		return p.ID + " refuses: " + beyond
	}
	return ""
}

// warn notes that a pump warns of the dose that its rate gives. It does not warn
// again while rate and bag stay the same.
func (e *Engine) warn(p *pumpState, at Time) {
	l, ok := p.limitOf()
	if !ok || p.rate <= 0 || p.warnedOf == (warned{p.bag.ID, p.rate}) {
		return
	}
	if beyond := e.beyond(p, p.rate, l.Soft, "soft"); beyond != "" {
		p.warnedOf = warned{p.bag.ID, p.rate}
		e.note(Entry{At: at, Kind: Alarm, Subject: p.ID, What: beyond + "; it takes the rate all the same"})
	}
}

// warned is the rate of a bag that a pump warned of last.
type warned struct {
	bag string
	mlh float64
}

// beyond says by what a rate is outside a range, in the unit of its limit.
func (e *Engine) beyond(p *pumpState, mlh float64, r DoseRange, kind string) string {
	perMin, base := dose.Dose(mlh, p.bag.Nominal), e.base(p.bag.agent)
	for _, end := range []struct {
		limit quantity.Quantity
		word  string
		sign  float64
	}{{r.Most, "over", 1}, {r.Least, "under", -1}} {
		if end.limit.Unit.IsZero() {
			continue
		}
		perUnit := perMin
		if v, err := end.limit.In(quantity.MustUnit(base + "/min")); err == nil {
			perUnit = float64(perMin / v * end.limit.Value)
		} else {
			perUnit = float64(perMin / dose.PerMin(end.limit.Float(base+"/kg/min"), e.c.Patient.WeightKG) * end.limit.Value)
		}
		if float64(end.sign*(perUnit-end.limit.Value)) > float64(libraryEdge*end.limit.Value) {
			return fmt.Sprintf("%s %s of %s is %s its %s limit of %s", quantity.Number(legible(perUnit)), end.limit.Unit, p.bag.Drug, end.word, kind, end.limit)
		}
	}
	return ""
}

// libraryEdge lets a dose that is just the limit pass, whatever the last bits
// of the division are.
const libraryEdge = 1e-9
