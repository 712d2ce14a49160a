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
		step = max(l.p.stepMLH, 1e-3)
	}
	answer := quantity.Quantity{Value: quantity.Round(v, step), Unit: unit}
	if unit.Same(unitMLH) {
		if mlh, err := answer.In(unitMLH); err == nil {
			l.toldRate = mlh
		}
	}
	if l.does(act("give", word("sum", s.id), word("text", answer.String()))) {
		return acted
	}
	return passed
}

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
	return quantity.Round(min(dose.Rate(perMin, l.conc), l.p.mostMLH), max(l.p.stepMLH, 1e-3))
}

// firstRate is the rate to start at: what the learner worked out for the
// question, or for itself.
func (l *learner) firstRate() float64 {
	dose := l.p.perMin(l.order.Start)
	if l.will("query", "") {
		dose = min(dose, l.p.most(l.order)) // an order beyond the policy is not run while it is queried
	}
	right := l.rate(dose)
	if l.outside || l.bags > 1 {
		return right // worked out anew
	}
	rate := l.toldRate
	if rate == 0 {
		rate = quantity.Round(right*l.slip("own rate"), max(l.p.stepMLH, 1e-3))
	}
	if rate <= 0 || rate > l.p.mostMLH {
		return right // the pump would not take it
	}
	return rate
}

// setTo programs the pump.
func (l *learner) setTo(mlh float64) turn {
	if mlh == l.set || mlh <= 0 {
		return passed
	}
	if !l.does(act("set", word("pump", l.p.pump), measured("rate", mlh, unitMLH))) {
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
func (l *learner) pumpAct(name string) sim.Action { return act(name, word("pump", l.p.pump)) }
