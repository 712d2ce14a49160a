package trial

import (
	"fmt"

	"blanch/sim"
	"blanch/sim/quantity"
)

// prepare goes from the order to the running pump, one act a turn.
func (l *learner) prepare() turn {
	if l.began < sim.Never {
		return passed
	}
	for _, part := range []func(*learner) turn{(*learner).readUp, (*learner).firstLine, (*learner).mixBag, (*learner).hangAndStart} {
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
	if l.flawed() {
		if t := l.query(); t != passed {
			return t
		}
	}
	if who := l.helper(sim.Nurse, sim.Colleague); who >= 0 && !l.here[who] {
		if t := l.once("send-for", l.p.people[who].id, act("send-for", word("person", l.p.people[who].id))); t == acted {
			return t
		}
	}
	if t := l.once("ask-arms", "", act("ask-arms")); t != passed {
		return t
	}
	return l.once("read-notes", "", act("read-notes"))
}

// flawed says that the order asks for what it forbids itself, or the policy
// does.
func (l *learner) flawed() bool {
	start := l.p.perMin(l.order.Start)
	least, most := l.p.perMin(l.order.Least), l.p.perMin(l.order.Most)
	return l.mixFlawed || start < least*(1-1e-9) || start > most*(1+1e-9) || start > l.p.most(l.order)*(1+1e-9)
}

// query asks a doctor whether the order stands, and reads it anew.
func (l *learner) query() turn {
	for i, who := range l.p.people {
		if who.role != sim.Doctor {
			continue
		}
		t := l.once("query", who.id, act("query-order", word("person", l.p.people[i].id)))
		if t == acted {
			l.order = l.e.View().Order // as it now stands on paper
			l.mixMG, l.mixML, l.mixFlawed = l.p.mix(l.order)
		}
		if t == acted {
			return t
		}
	}
	return passed
}

// helper is someone of these roles, at the bed if there is one; -1 for none.
func (l *learner) helper(roles ...sim.Role) int {
	best := -1
	for _, role := range roles {
		for i, who := range l.p.people {
			if who.role == role && (l.here[i] || best < 0) {
				best = i
				if l.here[i] {
					return i
				}
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
		t := l.place()
		if t == passed {
			l.by(l.now() + 10*sim.Minute)
			return waits
		}
		return t
	}
	return l.prove(i)
}

// waitForCentral asks for central access and holds everything back for it.
func (l *learner) waitForCentral() turn {
	if t := l.askFor("central-access"); t != passed {
		return t
	}
	l.by(l.now() + 5*sim.Minute)
	return waits
}

// mixBag makes up the next bag, labels it and has it checked.
func (l *learner) mixBag() turn {
	if l.mixMG == 0 {
		return passed
	}
	n := fmt.Sprint(l.bags)
	if l.bag == "" {
		unit := unitMG
		if l.p.drug.Base == "units" {
			unit = unitUnits
		}
		t := l.once("mix", n, act("mix", measured("amount", l.mixMG, unit), word("drug", l.order.Drug),
			measured("diluent", l.mixML, unitML), word("adding", l.p.withdraws)))
		if t == acted {
			l.bags++
			l.bag, l.conc = fmt.Sprintf("bag-%d", l.bags), l.p.conc(l.mixMG, l.mixML)
			l.hung = false
		}
		return t
	}
	if t := l.once("label", l.bag, act("label", word("bag", l.bag))); t != passed {
		return t
	}
	return l.secondCheck("bag", act("check-bag", word("bag", l.bag)))
}

// secondCheck has someone check bag or pump, where the policy wants it.
func (l *learner) secondCheck(what string, a sim.Action) turn {
	wanted := false
	for _, w := range l.p.policy.SecondChecks {
		wanted = wanted || w == what
	}
	who := l.helper(sim.Nurse, sim.Doctor, sim.Colleague)
	if !wanted || who < 0 {
		return passed
	}
	if !l.here[who] && l.now() > l.p.policy.StartBy*2/3 {
		return passed // nobody has come, and the shock does not wait
	}
	a.Args = append(a.Args, word("person", l.p.people[who].id))
	return l.once("second-check", l.bag+what, a)
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
	if !l.hung {
		t := l.once("start", l.bag, act("hang", word("bag", l.bag), word("pump", l.p.pump)))
		l.hung = l.hung || t == acted
		return t
	}
	if !l.primed {
		t := l.once("start", l.bag, l.pumpAct("prime"))
		l.primed = l.primed || t == acted
		return t
	}
	if rate := l.firstRate(); rate != l.set {
		if t := l.setTo(rate); t != passed {
			return t
		}
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
		if t := l.once("start", l.lines[i].id, act(name, word("pump", l.p.pump), word("line", l.lines[i].id))); t != acted {
			if t == passed { // taken, or out
				l.lines[i].spoilt = true
			}
			return t
		}
		l.on = i
		return acted
	}
	before := l.outside
	if t := l.secondCheck("pump", act("check-pump", word("pump", l.p.pump))); t != passed {
		if l.outside && !before {
			l.set = 0 // worked out anew before anything runs
		}
		return t
	}
	t := l.once("start", l.bag, l.pumpAct("start"))
	if t == acted {
		l.runs()
		l.began = l.now()
	}
	return t
}

// settleCuff takes the cuff off the arm before the drug runs there.
func (l *learner) settleCuff(i int) turn {
	k := &l.lines[i]
	if k.central || k.side != l.cuff {
		return passed
	}
	t := l.once("cuff", k.id, act("move-cuff", word("arm", string(k.side.Other()))))
	if t == acted {
		l.cuff = k.side.Other()
	}
	return t
}

// runs notes that the infusion runs through the line it is on.
func (l *learner) runs() {
	l.running = true
	if l.on >= 0 {
		k := &l.lines[l.on]
		k.since, k.felt, k.looked = min(k.since, l.now()), l.now(), l.now()
	}
}

// fetchKit has the extravasation kit brought by someone, or goes.
func (l *learner) fetchKit(byOthers bool) turn {
	const step = "kit"
	if l.tried(step, "fetch-kit", "") {
		return passed
	}
	if who := l.helper(sim.Nurse); who >= 0 && l.here[who] && l.will("kit-by-others", "") {
		a := act("fetch-kit")
		a.By = l.p.people[who].id
		return l.once(step, "", a)
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
	have := v.MG * float64(v.Number)
	if l.syringes > 0 {
		have -= most * float64(l.syringes)
	}
	if have < least {
		return max(0, quantity.Round(have, 0.01))
	}
	return min(most, have)
}
