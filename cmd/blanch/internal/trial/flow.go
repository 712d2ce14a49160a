package trial

import (
	"strings"

	"blanch/sim"
)

// mendFlow sees to bags that run out and lines that are blocked, inflamed or
// out: whatever stops the infusion besides a leak.
func (l *learner) mendFlow() turn {
	if l.began == sim.Never {
		return passed
	}
	if l.lowBag {
		if t := l.nextBag(); t != passed {
			return t
		}
	}
	if l.on >= 0 && !l.lines[l.on].spoilt && l.running {
		if l.tipTrouble() {
			return l.retire(l.on, l.lines[l.on].tip)
		}
		return passed
	}
	if l.running || l.emptyBag || l.on < 0 || l.leaking >= 0 && !l.settled() {
		return passed
	}
	// The pump stands.
	if l.blocked > 0 && !l.lines[l.on].spoilt {
		k := &l.lines[l.on]
		if l.blocked == 1 && !k.central {
			if t := l.once("straighten", k.id, act("straighten", word("arm", string(k.side)))); t != passed {
				return t
			}
			return l.restart()
		}
		return l.retire(l.on, "blocked")
	}
	if l.lines[l.on].spoilt {
		return l.replace()
	}
	return l.restart()
}

// tipTrouble says that a look showed the line in use to be of no more use.
func (l *learner) tipTrouble() bool { return l.lines[l.on].tip != "" }

// retire names what is wrong with a line and moves on to another.
func (l *learner) retire(i int, verdict string) turn {
	k := &l.lines[i]
	if verdict != "" {
		if t := l.once("judge", k.id, act("judge", word("line", k.id), word("verdict", verdict))); t != passed {
			return t
		}
	}
	k.spoilt = true
	return l.replace()
}

// replace takes the infusion to a sound line, and makes one when there is
// none.
func (l *learner) replace() turn {
	if i := l.usable(l.on); i >= 0 {
		return l.moveTo(i)
	}
	t := l.place()
	if t == passed {
		l.by(l.now() + 5*sim.Minute)
	}
	return t
}

// moveTo takes the infusion to another line and lets it run.
func (l *learner) moveTo(i int) turn {
	k := &l.lines[i]
	if l.on == i {
		return l.restart()
	}
	if l.running { // while the pump stands, the drug comes first
		if t := l.settleCuff(i); t == acted {
			return t
		}
	}
	name := "move-primed"
	if k.central {
		name = "move"
	}
	if l.on < 0 {
		name = "connect"
	}
	if !l.does(act(name, word("pump", l.p.pump), word("line", k.id))) {
		k.spoilt = true // taken, out, or not to be had
		return acted
	}
	l.on = i
	l.blocked = 0
	if l.running {
		l.runs()
	}
	return acted
}

// restart lets a pump that stands run on.
func (l *learner) restart() turn {
	if l.running || l.emptyBag || l.on >= 0 && l.lines[l.on].spoilt {
		return passed
	}
	switch {
	case l.does(l.pumpAct("start")), strings.Contains(l.refusal, "running already"):
		l.runs()
		return acted
	case strings.Contains(l.refusal, "is empty"):
		l.emptyBag = true
		return acted
	}
	l.by(l.now() + sim.Minute)
	return waits
}

// emptied puts up the next bag before anything else is thought of.
func (l *learner) emptied() turn {
	if !l.emptyBag || l.began == sim.Never {
		return passed
	}
	return l.nextBag()
}

// nextBag makes up another bag ahead of the empty one, and changes over.
func (l *learner) nextBag() turn {
	if !l.renewing {
		l.renewing, l.bag = true, ""
	}
	if t := l.mixBag(); t != passed {
		return t
	}
	if l.bag == "" {
		l.lowBag, l.renewing = false, false
		return passed // nothing left to make one from
	}
	if l.running {
		if !l.does(l.pumpAct("stop")) {
			l.running = false
			return acted
		}
		l.running = false
		return acted
	}
	if !l.hung {
		if !l.does(act("hang", word("bag", l.bag), word("pump", l.p.pump))) {
			l.lowBag, l.emptyBag, l.renewing = false, false, false
			return passed
		}
		l.hung = true
		return acted
	}
	l.lowBag, l.emptyBag, l.renewing = false, false, false
	if l.on == l.leaking {
		return passed
	}
	return l.restart()
}
