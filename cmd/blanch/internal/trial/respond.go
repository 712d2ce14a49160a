package trial

import (
	"fmt"

	"blanch/sim"
	"blanch/sim/drug"
)

// respond answers a leak that was found, one act a turn.
func (l *learner) respond() turn {
	if l.began == sim.Never {
		return passed
	}
	if l.leaking < 0 || l.settled() && l.leaking != l.on {
		if i := l.suspected(); i >= 0 && i != l.leaking {
			l.leaking, l.treated = i, sim.Never
		}
	}
	if l.leaking < 0 || l.settled() && l.on != l.leaking {
		return passed
	}
	for _, part := range []func(*learner) turn{
		(*learner).nameIt, (*learner).takeOff, (*learner).drawBack, (*learner).goOn, (*learner).tellOthers, (*learner).undo, (*learner).tidyUp,
	} {
		if t := part(l); t != passed {
			return t
		}
	}
	return passed
}

// settled says that the leak in hand has been dealt with.
func (l *learner) settled() bool {
	return l.leaking < 0 || l.tried("written", "write", l.lines[l.leaking].id)
}

// suspected is the line that this learner takes for leaking, -1 for none.
func (l *learner) suspected() int {
	for i := range l.lines {
		if k := &l.lines[i]; k.signs && k.since < sim.Never && !k.central && !l.tried("named", "", k.id) {
			return i
		}
	}
	if i := l.on; i >= 0 && l.running && !l.lines[i].central && l.vice("treat-anyway", l.lines[i].id) && !l.tried("named", "", l.lines[i].id) {
		k := &l.lines[i]
		if l.shown > 0 && l.shown < l.order.TargetMmHg && l.now() > k.since+5*sim.Minute || l.now() > k.since+20*sim.Minute {
			return i
		}
		l.by(k.since + 20*sim.Minute)
	}
	return -1
}

func (l *learner) nameIt() turn {
	k := &l.lines[l.leaking]
	l.close("named", "", k.id)
	return l.once("judge", k.id, act("judge", word("line", k.id), word("verdict", "leaking")))
}

// takeOff stops what feeds the leak.
func (l *learner) takeOff() turn {
	k := &l.lines[l.leaking]
	if l.running && l.on == l.leaking && l.will("stop-leak", k.id) {
		if l.does(l.pumpAct("stop")) {
			l.running = false
			return acted
		}
		l.running = false
	}
	if l.vice("flush-leak", k.id) && k.in && !l.tried("flush-leak", "", k.id) {
		l.close("flush-leak", "", k.id)
		if l.does(act("flush", word("line", k.id), measured("volume", 10, unitML))) {
			return acted
		}
	}
	if l.vice("pull-first", k.id) {
		return l.pull()
	}
	return passed
}

// pull takes the cannula out, once the drug runs elsewhere or stands.
func (l *learner) pull() turn {
	k := &l.lines[l.leaking]
	k.spoilt = true
	if !k.in || l.tried("pulled", "pull", k.id) {
		return passed
	}
	l.close("pulled", "pull", k.id)
	if l.does(onLine("pull", k.id)) {
		return acted
	}
	return passed
}

func (l *learner) drawBack() turn {
	k := &l.lines[l.leaking]
	if !k.in || l.running && l.on == l.leaking {
		return passed
	}
	// With a second line at hand the drug goes on first.
	if !l.running && l.usable(l.leaking) >= 0 {
		return passed
	}
	return l.onceOn("draw-back", "draw-back", k.id)
}

// goOn lets the drug run through another line.
func (l *learner) goOn() turn {
	l.lines[l.leaking].spoilt = true
	if l.on == l.leaking || !l.running {
		if !l.will("go-on", "") {
			return passed
		}
		if i := l.usable(l.leaking); i >= 0 {
			if l.on == i {
				return l.restart()
			}
			return l.moveTo(i)
		}
		if t := l.place(); t != passed {
			return t
		}
	}
	k := &l.lines[l.leaking]
	if !k.in || l.running && l.on == l.leaking {
		return passed
	}
	return l.onceOn("draw-back", "draw-back", k.id)
}

// tellOthers calls a doctor for the antidote.
func (l *learner) tellOthers() turn {
	if l.kindOfAntidote() == "" {
		return l.askFor("review")
	}
	return l.askFor("antidote")
}

// kindOfAntidote is what undoes this drug in the skin, of what is in stock:
// an alpha blocker where the drug acts on alpha receptors, else a beta
// agonist.
func (l *learner) kindOfAntidote() string {
	if _, ok := l.p.vial("phentolamine"); ok && l.p.drug.Potency.Receptor == drug.Alpha {
		return "phentolamine"
	}
	if _, ok := l.p.vial("terbutaline"); ok {
		return "terbutaline"
	}
	return ""
}

// undo marks the edge, gives the antidote, and looks after the arm.
func (l *learner) undo() turn {
	k := &l.lines[l.leaking]
	for _, name := range []string{"mark", "measure"} {
		if t := l.onceOn("mark-edge", name, k.id); t != passed {
			return t
		}
	}
	if t := l.inject(); t != passed {
		return t
	}
	if l.kindOfAntidote() == "" && l.p.nitrate {
		if t := l.onceOn("antidote", "nitrate", k.id); t != passed {
			if t == acted {
				l.treated = l.now()
			}
			return t
		}
	}
	if l.kindOfAntidote() != "phentolamine" {
		if t := l.once("warm", k.id, act("warm", word("arm", string(k.side)), word("pack", "a warm pack"))); t != passed {
			return t
		}
	}
	if t := l.once("raise", k.id, act("raise", word("arm", string(k.side)))); t != passed {
		return t
	}
	return l.onceOn("beyond", "beyond", k.id)
}

// inject draws the antidote up and puts it round the edge.
func (l *learner) inject() turn {
	k := &l.lines[l.leaking]
	name := l.kindOfAntidote()
	if name == "" || !l.will("antidote", k.id) || l.tried("antidote", "infiltrate", k.id) {
		return passed
	}
	least, most, ml := l.p.policy.AntidoteMG[0], l.p.policy.AntidoteMG[1], l.p.policy.AntidoteML[0]
	if name != "phentolamine" {
		d, _ := drug.Named(name)
		least, most, ml = d.Treatment.Least.Float("mg"), d.Treatment.Most.Float("mg"), d.Treatment.InMost.Float("mL")
	}
	ml = max(1, min(ml, 20))
	if !l.tried("antidote", "draw-up", k.id) {
		mg := l.syringe(name, least, most)
		if mg <= 0 {
			l.close("antidote", "infiltrate", k.id)
			return passed
		}
		t := l.once("antidote", k.id, act("draw-up", measured("mass", mg, unitMG), word("antidote", name), measured("volume", ml, unitML)))
		if t == acted {
			l.syringes++
		}
		return t
	}
	t := l.once("antidote", k.id, act("infiltrate", word("line", k.id), measured("volume", ml, unitML), word("bag", fmt.Sprintf("antidote-%d", l.syringes))))
	if t == acted {
		l.treated = l.now()
	}
	return t
}

// tidyUp pulls what leaked, tells the patient and writes it down.
func (l *learner) tidyUp() turn {
	k := &l.lines[l.leaking]
	if l.will("pull", k.id) && !(l.on == l.leaking && l.running) {
		if t := l.pull(); t != passed {
			return t
		}
	}
	if t := l.once("tell-harm", k.id, act("tell-harm")); t != passed {
		return t
	}
	return l.once("written", k.id, act("write", word("text", "leak at "+k.id+" found and treated, infusion moved, doctor told")))
}
