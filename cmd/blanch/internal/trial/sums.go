package trial

import (
	"math"

	"blanch/sim"
	"blanch/sim/dose"
	"blanch/sim/luck"
	"blanch/sim/quantity"
)

// answerSums answers what was asked, by an honest calculation or with this
// learner's slip in it.
func (l *learner) answerSums() turn {
	if len(l.sums) == 0 || !l.will("sums", "") {
		return passed
	}
	s := l.sums[0]
	l.sums = l.sums[1:]
	right, ok := l.reckon(s.id)
	unit, err := quantity.ParseUnit(s.unit)
	if !ok || err != nil {
		return passed
	}
	v, err := right.In(unit)
	if err != nil {
		return passed
	}
	v *= l.slip(s.id)
	step := figures(v)
	if unit.Same(unitMLH) {
		step = max(l.stepOf(s.id), 1e-3)
	}
	answer := quantity.Quantity{Value: quantity.Round(v, step), Unit: unit}
	if unit.Same(unitMLH) {
		if mlh, err := answer.In(unitMLH); err == nil {
			l.asksOf(s.id).toldRate = mlh
		}
	}
	if l.does(act("give", word("sum", s.id), word("text", answer.String()))) {
		return acted
	}
	return passed
}

// asksOf is the infusion that a sum is about: of the drug that it names, or
// the one that was made ready last.
func (l *learner) asksOf(id string) *infusion {
	if drug := l.p.asks[id]; drug != "" {
		if f := l.infusionOf(drug); f != nil {
			return f
		}
	}
	last := &l.infusions[0]
	for i := range l.infusions {
		if f := &l.infusions[i]; f.bag != "" && f.began == sim.Never {
			last = f
		}
	}
	return last
}

func (l *learner) stepOf(id string) float64 { return l.asksOf(id).stepMLH }

// slip is what a sum is wrong by: 1 when it is right.
func (l *learner) slip(id string) float64 {
	if !l.happens("slip", id, l.kind.slips) || len(l.kind.slipsBy) == 0 {
		return 1
	}
	n := luck.Bits(l.luck, "slip by", id, 0) % uint64(len(l.kind.slipsBy))
	return l.kind.slipsBy[n]
}

// figures is a step that keeps five figures.
func figures(v float64) float64 {
	if v <= 0 {
		return 1e-4
	}
	return math.Pow(10, math.Floor(math.Log10(v))-4)
}

// rate is what a dose a minute comes to on the pump, within what it can run.
func (l *learner) rate(perMin float64) float64 {
	if l.conc <= 0 {
		return 0
	}
	return quantity.Round(min(dose.Rate(perMin, l.conc), l.mostMLH), max(l.stepMLH, 1e-3))
}

// firstRate is the rate to start at: what the learner worked out for the
// question, or for itself.
func (l *learner) firstRate() float64 {
	dose := l.perMin(l.order.Start, l.p.weightKG)
	if l.will("query", "") {
		dose = l.p.meant(&l.prescription) // what cannot be right is not run while it is queried
	}
	right := l.rate(dose)
	if l.outside || l.flawed() && l.number == 0 && l.will("query", "") {
		return right // worked out anew
	}
	rate := l.toldRate
	if rate == 0 {
		rate = quantity.Round(right*l.slip("own rate"), max(l.stepMLH, 1e-3))
	}
	if rate <= 0 || rate > l.mostMLH {
		return right // the pump would not take it
	}
	return rate
}

// setTo programs the pump.
func (l *learner) setTo(mlh float64) turn {
	if mlh == l.set || mlh <= 0 {
		return passed
	}
	if !l.does(act("set", word("pump", l.pump), measured("rate", mlh, unitMLH))) {
		again := !l.outside
		l.outside, l.capped = true, mlh // what a pump will not take is worked out anew
		l.titrated()
		if again {
			return acted
		}
		return passed
	}
	l.set = mlh
	l.titrated()
	return acted
}

func (l *learner) titrated() { l.lastSet = l.now() }

// pumpAct is an action on the pump alone.
func (l *learner) pumpAct(name string) sim.Action { return act(name, word("pump", l.pump)) }
