package trial

import (
	"blanch/sim"
	"blanch/sim/luck"
)

// Titrating by what the monitor shows, and looking for the reason when it
// falls.

const (
	settles     = 4 * sim.Minute // a change of the rate is given this long to show
	sagMmHg     = 7              // a fall between two readings that wants a reason (assumed)
	halfWay     = 30.0           // mmHg of gap for which the whole range of the order is wanted (assumed)
	mostOfRange = 1.0 / 6        // of the order's range, in one step (assumed)
)

func (l *learner) happensAt(what string, index int, chance float64) bool {
	return luck.Happens(l.luck, what, "", index, chance)
}

// mindPressure answers the reading on the screen.
func (l *learner) mindPressure() turn {
	if l.began == sim.Never || l.shown == 0 || l.on < 0 {
		return passed
	}
	target, ceil := l.order.TargetMmHg, l.order.CeilMmHg
	low, high := l.shown < target+1, l.shown > ceil-1
	l.heldOnce = l.heldOnce || l.shown >= target
	fresh := l.shownAt > l.lastSet+settles
	switch {
	case high && fresh && !l.vice("keep-high", ""):
		return l.turnDown()
	case low && l.vice("treat-anyway", l.lines[l.on].id):
		return passed // taken for a leak
	}
	if l.sags() && l.shownAt > l.sagged {
		if t := l.lookForReason(); t != passed {
			return t
		}
	}
	if low && fresh && l.running && l.will("titrate", "") {
		return l.turnUp()
	}
	return passed
}

// sags says that a pressure that had been held falls.
func (l *learner) sags() bool {
	return l.heldOnce && (l.shown < l.order.TargetMmHg || l.before-l.shown >= sagMmHg)
}

// lookForReason looks at the arm first, then at pump and bag, then at the
// patient.
func (l *learner) lookForReason() turn {
	for i := range l.infusions {
		f := &l.infusions[i]
		if !f.running || f.on < 0 || l.lines[f.on].central {
			continue
		}
		if k := &l.lines[f.on]; l.will("look-first", "") && k.whole < l.shownAt-settles {
			l.infusion = f
			t := l.lookAt(f.on)
			l.infusion = &l.infusions[0]
			return t
		}
	}
	if l.will("read-pump", "") && l.pumpRead < l.shownAt-lookOverEvery {
		l.pumpRead = l.now()
		if l.does(l.pumpAct("read-pump")) {
			return acted
		}
	}
	if l.will("examine-patient", "") && l.lookedOver < l.shownAt-lookOverEvery && l.shown < l.order.TargetMmHg {
		return l.lookOver()
	}
	l.sagged = l.shownAt
	return passed
}

const (
	handBefore = 9 * sim.Minute  // a hand on the arm this long before a raise, at most (assumed)
	lookBefore = 29 * sim.Minute // and a look at the patient (assumed)
)

// turnUp raises the dose towards the target, within order and policy, with a
// hand on the arm and a look at the patient before it.
func (l *learner) turnUp() turn {
	mid := l.order.TargetMmHg + min(4, (l.order.CeilMmHg-l.order.TargetMmHg)/3)
	now := l.set * l.conc / 60
	next := l.rate(min(now+l.step(mid-l.shown), l.mostHere()))
	switch {
	case l.vice("keep-high", ""):
		next = l.rate(2 * now)
	case l.vice("past-the-order", ""):
		next = l.rate(now + l.step(mid-l.shown))
	case l.now() < l.eased+worksWithin && l.shown > l.order.TargetMmHg-wellUnder && l.will("examine-patient", ""):
		l.by(l.eased + worksWithin)
		return passed // what was done for the patient is given its time
	}
	if next <= l.set || l.capped > 0 && next >= l.capped {
		return l.notEnough()
	}
	if k := &l.lines[l.on]; !k.central {
		if l.will("look-first", "") && min(k.felt, k.whole) < l.now()-handBefore && l.now() >= k.whole+sim.Minute {
			if t := l.lookAt(l.on); t != passed {
				return t
			}
		}
		if l.will("examine-patient", "") && l.lookedOver < l.now()-lookBefore {
			return l.lookOver()
		}
	}
	return l.setTo(next)
}

// wellUnder is how far the pressure may be under the target while a remedy is
// given its time, in mmHg (assumed).
const wellUnder = 10

// mostHere is the highest dose: what the order allows, and through an arm the
// policy too.
func (l *learner) mostHere() float64 {
	if l.lines[l.on].central {
		return l.perMin(l.order.Most, l.p.weightKG)
	}
	return l.p.most(&l.prescription)
}

// notEnough is the end of the range: another drug that is ordered goes up
// within its own, and a doctor is told.
func (l *learner) notEnough() turn {
	for i := 1; i < len(l.infusions); i++ {
		f := &l.infusions[i]
		if !f.running || f.fixed || f.order.Most.Unit.IsZero() || l.now() < f.lastSet+2*settles {
			continue
		}
		l.infusion = f
		now := f.set * f.conc / 60
		t := passed
		if next := l.rate(min(now*1.25, l.mostHere())); next > f.set {
			t = l.setTo(next)
		}
		l.infusion = &l.infusions[0]
		if t != passed {
			return t
		}
	}
	return l.askReview()
}

// turnDown lowers it, and works a rate that soars out anew.
func (l *learner) turnDown() turn {
	over := l.shown - (l.order.CeilMmHg - 3)
	now := l.set * l.conc / 60
	if now > l.mostHere()*1.01 {
		return l.setTo(l.rate(l.perMin(l.order.Start, l.p.weightKG)))
	}
	next := l.rate(max(now-l.step(over), l.perMin(l.order.Least, l.p.weightKG)))
	if next >= l.set {
		return passed
	}
	return l.setTo(next)
}

// step is a change of dose for a gap of pressure.
func (l *learner) step(mmHg float64) float64 {
	span := l.mostHere() - l.perMin(l.order.Least, l.p.weightKG)
	return float64(max(0, span) * max(0.02, min(mostOfRange, mmHg/halfWay)))
}

// askReview tells a doctor that the order is not enough.
func (l *learner) askReview() turn {
	if !l.will("call", "") {
		return passed
	}
	return l.askFor("review")
}
