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
	parts := answer
	if l.vice("arm-before-drug", "") {
		parts = armFirst
	}
	for _, part := range parts {
		if t := part(l); t != passed {
			return t
		}
	}
	return passed
}

// answer is what is done for a leak, in its order. Who thinks of the arm alone
// lets the drug stand meanwhile.
var answer, armFirst []func(*learner) turn

func init() {
	answer = []func(*learner) turn{
		(*learner).nameIt, (*learner).takeOff, (*learner).drawBack, (*learner).goOn, (*learner).beyond, (*learner).tellOthers, (*learner).undo, (*learner).tidyUp,
	}
	armFirst = []func(*learner) turn{
		(*learner).nameIt, (*learner).takeOff, (*learner).drawBack, (*learner).undo, (*learner).pull, (*learner).goOn, (*learner).tellOthers, (*learner).tidyUp,
	}
}

// settled says that the leak in hand has been dealt with.
func (l *learner) settled() bool {
	return l.leaking < 0 || l.tried("written", "write", l.lines[l.leaking].id)
}

// suspected is the line that this learner takes for leaking, -1 for none.
func (l *learner) suspected() int {
	for i := range l.lines {
		if k := &l.lines[i]; k.signs && k.since < sim.Never && k.carried == l.order.Drug && !k.central && !l.tried("named", "", k.id) {
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
	if i := l.on; i >= 0 && l.running && l.number == 0 && !l.lines[i].central && l.heldOnce && l.shown < l.order.TargetMmHg && l.shownAt > l.lines[i].since && l.vice("blame-arm", l.lines[i].id) && !l.tried("named", "", l.lines[i].id) {
		return i
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
	if !l.running && l.usable(l.leaking) >= 0 && !l.vice("arm-before-drug", "") {
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
		if t := l.place(false); t != passed {
			return t
		}
	}
	k := &l.lines[l.leaking]
	if !k.in || l.running && l.on == l.leaking {
		return passed
	}
	return l.onceOn("draw-back", "draw-back", k.id)
}

// beyond feels what lies beyond a leak that may press on it.
func (l *learner) beyond() turn {
	return l.onceOn("beyond", "beyond", l.lines[l.leaking].id)
}

// tense says that a limb needs a surgeon: the leak lies deep, the arm is
// tight, or something beyond it is wrong.
func (l *learner) tense() bool {
	k := &l.lines[l.leaking]
	for _, what := range []string{"pulse beyond", "fingers", "stretching the fingers", "tension"} {
		if said := k.shows(what); said != "" && sim.Abnormal(what, said, 0) {
			return true
		}
	}
	return l.deepLine(k)
}

// tellOthers calls a doctor for the antidote, and a surgeon for a tense limb.
func (l *learner) tellOthers() turn {
	request := "antidote"
	if l.kindOfAntidote() == "" {
		request = "review"
	}
	if t := l.askFor(request); t != passed {
		return t
	}
	if l.tense() && l.surgeon() {
		return l.askFor("surgical-opinion")
	}
	return passed
}

func (l *learner) surgeon() bool {
	for _, who := range l.p.people {
		if who.role == sim.Surgeon {
			return true
		}
	}
	return false
}

// kindOfAntidote is what undoes this drug in the skin by a needle, of what is
// in stock and in date: an alpha blocker where the drug acts on alpha
// receptors, else a beta agonist. Where nothing blocks the drug and there is
// nitrate for the skin, no needle is needed.
func (l *learner) kindOfAntidote() string {
	alpha := l.drug.Potency.Receptor == drug.Alpha || l.vice("phentolamine-always", "")
	if _, ok := l.p.vial("phentolamine"); ok && alpha {
		return "phentolamine"
	}
	if _, ok := l.p.vial("terbutaline"); ok && (alpha || !l.p.nitrate) {
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
	return l.beyond()
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
		if accepted, ok := l.p.policy.OtherAntidotes[name]; ok {
			least, most = accepted[0], accepted[1]
		}
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
			l.used[name] += mg
		}
		return t
	}
	t := l.once("antidote", k.id, act("infiltrate", word("line", k.id), measured("volume", ml, unitML), word("bag", fmt.Sprintf("antidote-%d", l.syringes))))
	if t == acted {
		l.treated = l.now()
	}
	return t
}

// runsElsewhere says that some drug reaches the patient by another line.
func (l *learner) runsElsewhere() bool {
	for i := range l.infusions {
		if f := &l.infusions[i]; f.running && f.on >= 0 && f.on != l.leaking {
			return true
		}
	}
	return false
}

// worstGrade is what scales of infiltration give any leak of such a drug
// (common practice).
const worstGrade = "grade 4, "

// tidyUp pulls what leaked, tells the patient and writes it down.
func (l *learner) tidyUp() turn {
	k := &l.lines[l.leaking]
	if l.will("pull", k.id) && l.runsElsewhere() {
		if t := l.pull(); t != passed {
			return t
		}
	}
	if !l.tense() {
		if t := l.askFor("review"); t != passed { // whoever can judge an arm sees it
			return t
		}
	}
	if t := l.once("tell-harm", k.id, act("tell-harm")); t != passed {
		return t
	}
	said := "leak of " + l.order.Drug + " at " + k.id + " found and treated, doctor told"
	if l.p.policy.Scale != "" {
		said = worstGrade + said
	}
	return l.once("written", k.id, act("write", word("text", said)))
}
