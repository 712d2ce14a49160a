package trial

import (
	"slices"

	"blanch/sim"
)

// Watching the arm.

// deepMM is a depth from which swelling is felt late: such a line is also
// looked at under ultrasound where there is one (assumed).
const deepMM = 8

// keepChecks looks at the arm on this learner's schedule.
func (l *learner) keepChecks() turn {
	if !l.running || l.on < 0 || l.lines[l.on].central {
		return passed
	}
	k := &l.lines[l.on]
	due := max(k.looked, k.since) + sim.Time(float64(l.gap())*l.kind.every)
	if k.looked < l.worried {
		due = l.now()
	}
	if l.now() < due {
		l.by(due)
		return passed
	}
	l.draws++
	if chance, named := l.kind.steps["check"]; named && !l.happensAt("check", l.draws, chance) {
		k.looked = l.now() // meant to look, and did not
		return passed
	}
	return l.lookAt(l.on)
}

// longAct is the longest that one act, such as placing a line, keeps the hands
// from an arm.
const longAct = 6*sim.Minute + 30*sim.Second

// overdue puts a hand on the line in use while other work goes on at length,
// before the policy's gap is over.
func (l *learner) overdue() turn {
	if !l.running || l.on < 0 || l.on == l.leaking || l.lines[l.on].central || l.kind.every >= 1 || !slices.Contains(l.kind.looks, "feel") {
		return passed
	}
	k := &l.lines[l.on]
	if l.now() < max(k.felt, k.since)+min(l.gap()*7/10, l.gap()-longAct) {
		return passed
	}
	k.felt = l.now()
	if l.does(onLine("feel", k.id)) {
		return acted
	}
	return passed
}

// gap is the longest that the policy lets an arm go unchecked now.
func (l *learner) gap() sim.Time {
	if l.now() > l.began+l.p.policy.EarlyFor {
		return l.p.policy.CheckLater
	}
	return l.p.policy.CheckEarly
}

// lookAt goes through the acts of one look, and judges what they showed.
func (l *learner) lookAt(i int) turn {
	id, did := l.lines[i].id, false
	for _, name := range l.kind.looks {
		did = l.does(onLine(name, id)) || did
		if l.on != i && l.leaking < 0 {
			break
		}
	}
	if l.deepLine(&l.lines[i]) && len(l.kind.looks) > 1 && l.lines[i].in && !l.lines[i].signs {
		for _, name := range []string{"compare", "view-tip"} {
			if name != "view-tip" || l.p.scanner {
				did = l.does(onLine(name, id)) || did
			}
		}
	}
	l.lines[i].looked, l.lines[i].whole = l.now(), l.now()
	if !did {
		return passed
	}
	return acted
}

// lookAgain goes back to an arm that was treated.
func (l *learner) lookAgain() turn {
	if l.leaking < 0 || l.treated == sim.Never || !l.will("look-again", "") {
		return passed
	}
	id := l.lines[l.leaking].id
	if due := l.treated + lookAgainAfter; l.now() < due {
		l.by(due)
		return passed
	}
	for _, name := range []string{"uncover", "feel", "refill", "measure", "ask-pain", "beyond"} {
		if t := l.onceOn("look-again", name, id); t != passed {
			return t
		}
	}
	return passed
}

// lookAgainAfter is when an arm that was treated is looked at again (common
// practice: within the quarter hour).
const lookAgainAfter = 10 * sim.Minute
