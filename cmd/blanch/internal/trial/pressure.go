package trial

import (
	"strings"

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
	sags := l.heldOnce && (l.shown < target || l.before-l.shown >= sagMmHg)
	if sags && l.shownAt > l.sagged {
		if t := l.lookForReason(); t != passed {
			return t
		}
	}
	if low && fresh && l.running && l.will("titrate", "") {
		return l.turnUp()
	}
	return passed
}

// lookForReason looks at the arm first, then at the patient.
func (l *learner) lookForReason() turn {
	k := &l.lines[l.on]
	if !k.central && l.will("look-first", "") && k.looked < l.shownAt && l.running {
		return l.lookAt(l.on)
	}
	if l.will("examine-patient", "") && l.lookedOver < l.shownAt-lookOverEvery && l.shown < l.order.TargetMmHg {
		l.lookedOver, l.found = l.now(), ""
		if l.does(act("look-over")) {
			if l.found != l.foundLast {
				l.remedies, l.foundLast = 0, l.found
			}
			return acted
		}
	}
	if t := l.treatPatient(); t != passed {
		return t
	}
	l.sagged = l.shownAt
	return passed
}

const (
	lookOverEvery = 10 * sim.Minute
	nothingNew    = "nothing new"
)

// remedies are what a bedside has for a patient, with the words of a finding
// that call for each.
var remedies = []struct {
	act   string
	words []string
}{
	{"press", []string{"bleed", "blood", "soaked", "wound", "ooz", "haemorr", "dressing"}},
	{"less-sedation", []string{"sedat", "asleep", "drows", "propofol", "rous", "opioid", "morphine"}},
	{"lay-flat", []string{"sit", "upright", "propped", "head of the bed", "leans", "bolt"}},
	{"fluid", []string{"dry", "thirst", "urine", "drain", "diarrh", "vomit", "fluid", "refill", "mottl", "sweat"}},
}

// treatPatient treats what looking the patient over showed: first what its
// words call for, then the rest.
func (l *learner) treatPatient() turn {
	if l.found == "" || l.found == nothingNew {
		return passed
	}
	said := strings.ToLower(l.found)
	for _, meant := range []bool{true, false} {
		for i, r := range remedies {
			calls := false
			for _, w := range r.words {
				calls = calls || strings.Contains(said, w)
			}
			if calls != meant || l.remedies&(1<<i) != 0 {
				continue
			}
			l.remedies |= 1 << i
			if !meant && l.shown >= l.order.TargetMmHg {
				return passed
			}
			if l.does(act(r.act)) {
				l.found = ""
				l.lookedOver = l.now() - lookOverEvery // look again at the next reading
				return acted
			}
		}
	}
	l.found = ""
	return passed
}

// turnUp raises the dose towards the target, within order and policy.
func (l *learner) turnUp() turn {
	mid := l.order.TargetMmHg + min(4, (l.order.CeilMmHg-l.order.TargetMmHg)/3)
	now := l.set * l.conc / 60
	up := l.step(mid - l.shown)
	next := l.rate(min(now+up, l.p.most(l.order)))
	if l.vice("keep-high", "") {
		next = l.rate(2 * now)
	}
	if next <= l.set || l.capped > 0 && next >= l.capped {
		return l.askReview()
	}
	return l.setTo(next)
}

// turnDown lowers it, and works a rate that soars out anew.
func (l *learner) turnDown() turn {
	over := l.shown - (l.order.CeilMmHg - 3)
	now := l.set * l.conc / 60
	if now > l.p.most(l.order)*1.01 {
		return l.setTo(l.rate(l.p.perMin(l.order.Start)))
	}
	next := l.rate(max(now-l.step(over), l.p.perMin(l.order.Least)))
	if next >= l.set {
		return passed
	}
	return l.setTo(next)
}

// step is a change of dose for a gap of pressure.
func (l *learner) step(mmHg float64) float64 {
	span := l.p.perMin(l.order.Most) - l.p.perMin(l.order.Least)
	return float64(span * max(0.02, min(mostOfRange, mmHg/halfWay)))
}

// askReview tells a doctor that the order is not enough.
func (l *learner) askReview() turn {
	if !l.will("call", "") {
		return passed
	}
	return l.askFor("review")
}
