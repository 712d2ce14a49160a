package trial

import (
	"blanch/sim"
	"blanch/sim/quantity"
)

// prepare goes from the order to the running pump, one act a turn.
func (l *learner) prepare() turn {
	if l.began < sim.Never || !l.isDue() {
		return passed
	}
	if l.number > 0 && !l.will("second-drug", "") {
		return passed
	}
	if !l.takePump() {
		return passed
	}
	for _, part := range []func(*learner) turn{(*learner).readUp, (*learner).readNotes, (*learner).firstLine, (*learner).makeBag, (*learner).hangAndStart} {
		if t := part(l); t != passed {
			return t
		}
	}
	return passed
}

// readUp reads and asks.
func (l *learner) readUp() turn {
	if t := l.once("read-order", "", act("read-order")); t != passed {
		return t
	}
	if t := l.settleOrder(); t == acted {
		return t
	}
	if who := l.helper(sim.Nurse, sim.Colleague); who >= 0 && !l.here[who] {
		if t := l.once("send-for", l.p.people[who].id, act("send-for", word("person", l.p.people[who].id))); t == acted {
			return t
		}
	}
	return l.once("ask-arms", "", act("ask-arms"))
}

func (l *learner) readNotes() turn { return l.once("read-notes", "", act("read-notes")) }

// helper is someone of these roles: at the bed and free, or at the bed, or the
// first that can be sent for; -1 for none.
func (l *learner) helper(roles ...sim.Role) int {
	best, rank := -1, 0
	for _, role := range roles {
		for i, who := range l.p.people {
			if who.role != role {
				continue
			}
			r := 1
			if l.here[i] {
				r = 2
				if !l.busy[i] {
					r = 3
				}
			}
			if r > rank {
				best, rank = i, r
			}
		}
	}
	return best
}

// firstLine sees to a line that the drug can start through.
func (l *learner) firstLine() turn {
	if l.vice("central-only", "") && !l.ready {
		return l.waitForCentral()
	}
	i := l.usable(-1)
	if i >= 0 && !l.within(&l.lines[i]) && l.vice("poor-line", "") {
		return passed
	}
	if i < 0 {
		t := l.place(false)
		if t == passed {
			l.by(l.now() + 10*sim.Minute)
			return waits
		}
		return t
	}
	if t := l.prove(i); t != passed {
		return t
	}
	if !l.lines[i].central {
		return l.baseline(i)
	}
	return passed
}

// baseline is a look before any drug runs there: what is old is known then.
func (l *learner) baseline(i int) turn {
	k := &l.lines[i]
	if k.since < sim.Never || !l.will("baseline", k.id) {
		return passed
	}
	for _, name := range l.kind.looks {
		if t := l.onceOn("baseline", name, k.id); t != passed {
			return t
		}
	}
	return passed
}

// waitForCentral asks for central access and holds everything back for it.
func (l *learner) waitForCentral() turn {
	if t := l.askFor("central-access"); t != passed {
		return t
	}
	l.by(l.now() + 5*sim.Minute)
	return waits
}

// hangAndStart goes from the bag to the running infusion.
func (l *learner) hangAndStart() turn {
	if l.bag == "" {
		l.by(l.now() + 10*sim.Minute)
		return waits
	}
	if t := l.fetchKit(true); t == acted {
		return t
	}
	if t := l.checkBag(false); t == acted {
		return t
	}
	if !l.hung {
		t := l.once("start", l.bag, act("hang", word("bag", l.bag), word("pump", l.pump)))
		if t == acted {
			l.hung, l.conc = true, l.newConc
		}
		return t
	}
	if !l.primed {
		t := l.once("start", l.bag, l.pumpAct("prime"))
		l.primed = l.primed || t == acted
		return t
	}
	i := l.usable(-1)
	if i < 0 {
		return passed
	}
	if l.on != i {
		if t := l.settleCuff(i); t != passed {
			return t
		}
		name := "connect-primed"
		if l.lines[i].central {
			name = "connect"
		}
		if t := l.once("start", l.lines[i].id, act(name, word("pump", l.pump), word("line", l.lines[i].id))); t != acted {
			if t == passed { // taken, or out
				l.lines[i].spoilt = true
			}
			return t
		}
		l.on = i
		return acted
	}
	if l.orderOpen() && l.now() < l.p.policy.StartBy*7/10 {
		l.by(l.askAgain)
		return waits // all is ready, and the order is not
	}
	if rate := l.firstRate(); rate != l.set {
		if t := l.setTo(rate); t != passed {
			return t
		}
	}
	before := l.outside
	for _, check := range []func() turn{func() turn { return l.checkBag(true) }, func() turn { return l.checkPump("pump") }} {
		if t := check(); t != passed {
			if l.outside && !before {
				l.set = 0 // worked out anew before anything runs
			}
			return t
		}
	}
	t := l.once("start", l.bag, l.pumpAct("start"))
	if t == acted {
		l.runs()
		l.began = l.now()
	}
	return t
}

// settleCuff takes the cuff off the arm before the drug runs there, where the
// other arm is free for it.
func (l *learner) settleCuff(i int) turn {
	k := &l.lines[i]
	if k.central || k.side != l.cuff || l.badArms[k.side.Other()] || l.drugElsewhere(k.side.Other()) {
		return passed
	}
	t := l.once("cuff", k.id, act("move-cuff", word("arm", string(k.side.Other()))))
	if t == acted {
		l.cuff = k.side.Other()
	}
	return t
}

// drugElsewhere says that another infusion has an arm.
func (l *learner) drugElsewhere(side sim.Side) bool {
	for i := range l.infusions {
		if f := &l.infusions[i]; i != l.number && f.on >= 0 && !l.lines[f.on].central && l.lines[f.on].side == side {
			return true
		}
	}
	return false
}

// runs notes that the infusion runs through the line it is on.
func (l *learner) runs() {
	l.running = true
	if l.on >= 0 {
		k := &l.lines[l.on]
		k.since, k.felt, k.looked, k.carried = min(k.since, l.now()), l.now(), l.now(), l.order.Drug
	}
}

// waitsForKit is how long the kit waits for someone to fetch it, before the
// learner leaves the bed for it (assumed).
const waitsForKit = 8 * sim.Minute

// fetchKit has the extravasation kit brought by someone, or goes.
func (l *learner) fetchKit(byOthers bool) turn {
	const step = "kit"
	if l.tried(step, "fetch-kit", "") {
		return passed
	}
	who := l.helper(sim.Nurse)
	if who >= 0 && l.will("kit-by-others", "") {
		if l.here[who] && !l.busy[who] {
			a := act("fetch-kit")
			a.By = l.p.people[who].id
			return l.once(step, "", a)
		}
		byOthers = byOthers || l.now() < l.began+waitsForKit
	}
	if byOthers {
		return passed
	}
	return l.once(step, "", act("fetch-kit"))
}

// afterStart does what belongs to the first quarter of an hour.
func (l *learner) afterStart() turn {
	if l.began == sim.Never || l.on < 0 {
		return passed
	}
	if t := l.once("tell-patient", "", act("tell-patient")); t != passed {
		return t
	}
	if t := l.fetchKit(false); t == acted {
		return t
	}
	if l.lines[l.on].central {
		return passed
	}
	return l.settleIn(l.on)
}

// syringe is how many mg of an antidote to draw up, 0 when it cannot be had.
func (l *learner) syringe(drug string, least, most float64) float64 {
	v, ok := l.p.vial(drug)
	if !ok {
		return 0
	}
	have := v.MG*float64(v.Number) - l.used[drug]
	if have < least {
		return max(0, quantity.Round(have, 0.01))
	}
	return min(most, have)
}
