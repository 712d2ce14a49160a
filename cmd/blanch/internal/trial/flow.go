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
		if t := l.once("judge", k.id+verdict, act("judge", word("line", k.id), word("verdict", verdict))); t != passed {
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
	t := l.place(false)
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
		l.settleCuff(i) // and the drug follows at once
	}
	name := "move-primed"
	if k.central {
		name = "move"
	}
	if l.on < 0 {
		name = "connect"
	}
	if !l.does(act(name, word("pump", l.pump), word("line", k.id))) {
		k.spoilt = true // taken, out, or not to be had
		return acted
	}
	l.on = i
	l.blocked = 0
	l.changedOver = true
	if l.running {
		l.runs()
	}
	return acted
}

// afterMove has a second person see the pump on its new line, where the policy
// asks for it.
func (l *learner) afterMove() turn {
	if !l.changedOver || !l.running {
		return passed
	}
	t := l.checkPump("changeover")
	if t == passed {
		l.changedOver = false
	}
	return t
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
	if t := l.ahead(); t != passed {
		return t
	}
	if l.bag == "" {
		l.lowBag, l.renewing = false, false
		return passed // nothing left to make one from
	}
	if l.running {
		l.does(l.pumpAct("stop"))
		l.running = false
		return acted
	}
	if !l.hung {
		if !l.does(act("hang", word("bag", l.bag), word("pump", l.pump))) {
			l.lowBag, l.emptyBag, l.renewing = false, false, false
			return passed
		}
		dose := l.set * l.conc / 60
		l.hung, l.conc = true, l.newConc
		if rate := l.rate(dose); rate != l.set && dose > 0 {
			l.setTo(rate) // another strength, the same dose
			if t := l.checkPump("new-concentration"); t == acted {
				return t
			}
		}
		return acted
	}
	l.lowBag, l.emptyBag, l.renewing = false, false, false
	if l.on == l.leaking && l.on >= 0 {
		return passed
	}
	return l.restart()
}

// ahead makes the next bag ready, and has it checked.
func (l *learner) ahead() turn {
	if !l.renewing {
		l.renewing, l.bag = true, ""
	}
	if t := l.makeBag(); t != passed {
		return t
	}
	return l.checkBag(!l.emptyBag)
}

const (
	bagAhead = 25 * sim.Minute // a bag is made ready this long before it is wanted (assumed)
	bagThink = 5 * sim.Minute
)

// readyBag makes the next bag while the one that hangs still lasts, where the
// case goes on that long.
func (l *learner) readyBag() turn {
	if !l.running || l.set <= 0 || !l.will("bag-ahead", "") {
		return passed
	}
	if l.renewing && l.bag != "" && !l.lowBag {
		return l.ahead() // label and check what was begun
	}
	if l.now() < l.bagSeen {
		return passed
	}
	for _, in := range l.e.View().Infusions {
		if in.Pump != l.pump {
			continue
		}
		left := sim.FromSeconds(in.LeftML / l.set * 3600)
		if left < bagAhead && l.now()+left < l.p.ends {
			return l.ahead()
		}
		l.bagSeen = l.now() + max(bagThink, (left-bagAhead)/3) // the rate may go up meanwhile
	}
	return passed
}
