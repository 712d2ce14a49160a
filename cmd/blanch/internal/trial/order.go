package trial

import "blanch/sim"

// Asking about an order that cannot be right.

// askAgainAfter is how long a learner leaves a doctor who cannot be reached.
const askAgainAfter = 75 * sim.Second

// flawed says that the order as it stands cannot be right.
func (l *learner) flawed() bool { return l.p.flawed(&l.infusions[0].prescription) }

// orderOpen says that the order cannot be right, and that nobody has answered
// for it yet.
func (l *learner) orderOpen() bool {
	return !l.asked && l.number == 0 && l.flawed() && l.will("query", "") && l.prescriber()
}

func (l *learner) prescriber() bool {
	for _, who := range l.p.people {
		if who.role == sim.Doctor {
			return true
		}
	}
	return false
}

// settleOrder asks whether the order stands, again and again until someone
// can be reached, and reads what was changed.
func (l *learner) settleOrder() turn {
	if l.changed {
		return l.once("read-order", "changed", act("read-order"))
	}
	if !l.tried("read-order", "read-order", "") || !l.orderOpen() {
		return passed
	}
	if l.now() < l.askAgain {
		l.by(l.askAgain)
		return passed
	}
	first := &l.infusions[0]
	for _, who := range l.p.people {
		if who.role != sim.Doctor || !l.does(act("query-order", word("person", who.id))) {
			continue
		}
		l.asked = true
		if o := l.e.View().Order; o != first.order { // as it now stands on paper
			first.prescription = l.p.prescribed(o)
			l.changed, first.toldRate = true, 0
		}
		return acted
	}
	l.askAgain = l.now() + askAgainAfter
	l.by(l.askAgain)
	return passed
}

// noteOrder writes down that an order was changed, once the drug runs.
func (l *learner) noteOrder() turn {
	if !l.changed || !l.anyRuns() {
		return passed
	}
	return l.once("note-down", "order", act("write", word("text", "order queried and changed by the prescriber, read back")))
}
