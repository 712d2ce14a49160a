package trial

import (
	"strings"

	"blanch/sim"
	"blanch/sim/luck"
	"blanch/sim/sentence"
)

// Speaking with others.

// heedCalls goes when called, or declines.
func (l *learner) heedCalls() turn {
	if len(l.calls) == 0 || !l.will("heed", l.calls[0]) {
		return passed
	}
	id := l.calls[0]
	busy := l.isBusy()
	if !busy && l.kind.every < 1 && !l.vice("goes-anyway", "") {
		for i := range l.infusions { // not without a hand on each arm first
			l.infusion = &l.infusions[i]
			if l.running && l.on >= 0 && !l.lines[l.on].central && l.lines[l.on].looked+5*sim.Minute < l.now() {
				return l.lookAt(l.on)
			}
		}
		l.infusion = &l.infusions[0]
		busy = l.isBusy()
	}
	name := "decline"
	if (!busy || l.vice("goes-anyway", "")) && luck.Happens(l.luck, "goes", id, 0, l.kind.goes) {
		name = "answer"
	}
	l.closeCall(id)
	if l.does(act(name, word("call", id))) {
		return acted
	}
	return passed
}

// isBusy says that something at this bed does not wait.
func (l *learner) isBusy() bool {
	busy := false
	for i := range l.infusions {
		l.infusion = &l.infusions[i]
		busy = busy || l.number == 0 && !l.running || l.began == sim.Never && l.isDue() || l.emptyBag || l.lowBag || l.leaking >= 0 && !l.settled() || l.suspected() >= 0 ||
			l.on >= 0 && l.lines[l.on].doubt
	}
	l.infusion = &l.infusions[0]
	alone := l.began < sim.Never && l.now() < l.began+l.p.policy.BackupBy && l.spares(false) == 0 && l.will("backup", "")
	return busy || alone || l.sags() || l.lookNow
}

// asksOf are the roles that are asked for something, in order; for a look at a
// limb the surgeon comes first.
var (
	asksOf     = []sim.Role{sim.Doctor, sim.Operator, sim.Surgeon, sim.Colleague, sim.Nurse}
	asksOfLimb = []sim.Role{sim.Surgeon, sim.Doctor}
)

// told are the facts of a good call.
var told = []string{"who", "reason", "pressure", "drug", "dose", "line", "time-running", "plan"}

// toldOfLeak are those of a call about a leak.
var toldOfLeak = []string{"who", "reason", "pressure", "drug", "dose", "line", "site", "done-so-far"}

// toldOfReason are those of a call about a fall that was not the arm.
var toldOfReason = []string{"who", "reason", "pressure", "drug", "dose", "line", "time-running", "site", "done-so-far", "plan"}

// askFor calls whoever may grant it: the first of the roles, then whom they
// name, and again with what they want to hear. It has passed once it was
// granted, or once there is nobody left to ask.
func (l *learner) askFor(request string) turn {
	about, facts := request, told
	if l.leaking >= 0 && request != "central-access" {
		about, facts = request+l.lines[l.leaking].id, toldOfLeak
	}
	return l.ask(request, about, facts)
}

// ask is askFor about something, with these facts.
func (l *learner) ask(request, about string, facts []string) turn {
	if !l.will("call", "") || l.tried("asked", request, about) {
		return passed
	}
	roles := asksOf
	if request == "surgical-opinion" {
		roles = asksOfLimb
	}
	for _, role := range roles {
		for _, who := range l.p.people {
			key := task{"asks", who.id, about}
			t := l.tasks[key]
			if who.role != role || t.done {
				continue
			}
			if l.now() < t.again {
				l.by(t.again)
				return passed
			}
			t.tries++
			if !l.does(l.call(who.id, facts, request)) {
				t.again = l.now() + 5*sim.Minute // not to be reached yet
				t.done = t.tries >= 12
				l.tasks[key] = t
				l.by(t.again)
				return acted
			}
			t.done = true
			if _, wants, ok := strings.Cut(l.reply, "tell me: "); ok && t.tries < 3 {
				l.does(l.call(who.id, merge(facts, strings.Split(strings.TrimSuffix(wants, "."), ", ")), request))
			}
			l.tasks[key] = t
			l.sendOn(about)
			if strings.HasPrefix(l.reply, "Yes") || strings.HasPrefix(l.reply, "Go on") || strings.HasPrefix(l.reply, "That is under way") {
				l.close("asked", request, about)
				l.granted = l.granted || request == "central-access"
			}
			return acted
		}
	}
	l.close("asked", request, about)
	return passed
}

// sendOn leaves out those whom the answer passes over: "Ask the surgeon."
func (l *learner) sendOn(about string) {
	_, whom, named := strings.Cut(l.reply, "Ask the ")
	whom = strings.TrimSuffix(whom, ".")
	if !named || l.p.person(whom) < 0 {
		return
	}
	for _, p := range l.p.people {
		if key := (task{"asks", p.id, about}); p.id != whom {
			t := l.tasks[key]
			t.done = true
			l.tasks[key] = t
		}
	}
}

func (l *learner) call(who string, facts []string, request string) sim.Action {
	return act("call", word("person", who), listed("facts", facts), word("request", request))
}

// merge adds facts that were missing.
func merge(facts, more []string) []string {
	out := append([]string(nil), facts...)
	for _, m := range more {
		known := false
		for _, f := range out {
			known = known || f == m
		}
		for _, f := range sentence.Facts {
			if f == m && !known {
				out = append(out, m)
			}
		}
	}
	return out
}

// askCentral asks for central access once the infusion runs.
func (l *learner) askCentral() turn {
	const soon = 12 * sim.Minute
	if l.began == sim.Never || l.granted || l.ready || !l.will("central", "") {
		return passed
	}
	if at := l.began + soon; l.now() < at && !l.centralWanted() {
		l.by(at)
		return passed
	}
	if t := l.once("central", "", act("decide", word("plan", "ask for central access"))); t != passed {
		return t
	}
	return l.askFor("central-access")
}

// centralWanted says that the policy wants central access asked for now: for
// a dose, for a second vasopressor, or after tries that failed.
func (l *learner) centralWanted() bool {
	c, running := &l.p.policy.CallFor, 0
	for i := range l.infusions {
		f := &l.infusions[i]
		l.infusion = f
		soon := f.began == sim.Never && l.isDue() && l.will("second-drug", "") // and will soon run
		l.infusion = &l.infusions[0]
		if !f.running && !soon {
			continue
		}
		running++
		if most, ok := c.Over[f.order.Drug]; ok && f.set*f.conc/60 > most {
			return true
		}
	}
	return c.Vasopressors > 0 && running >= c.Vasopressors || c.Tries > 0 && l.tries >= c.Tries
}

// moveToCentral takes the infusion off the arm once it can.
func (l *learner) moveToCentral() turn {
	i := l.line("central")
	if i < 0 || l.began == sim.Never || !l.will("to-central", "") {
		return passed
	}
	if l.on != i {
		if l.tried("to-central", "move", "") {
			return passed
		}
		l.close("to-central", "move", "")
		old := l.on
		t := l.moveTo(i)
		if t == acted && old >= 0 {
			l.retired = old
		}
		return t
	}
	if l.retired < 0 || !l.lines[l.retired].in || l.retired == i {
		return passed
	}
	id := l.lines[l.retired].id
	if t := l.onceOn("retire", "draw-back", id); t != passed {
		return t
	}
	t := l.onceOn("retire", "pull", id)
	return t
}

// handOver gives the patient to whoever takes over, at the end of the shift.
func (l *learner) handOver() turn {
	const beforeEnd = 5 * sim.Minute
	at := l.p.relief + sim.Minute
	if l.p.relief == 0 {
		at = l.p.ends - beforeEnd
	}
	who := l.helper(sim.Nurse, sim.Colleague, sim.Doctor)
	if who < 0 || !l.will("hand-over", "") {
		return passed
	}
	if !l.here[who] {
		if early := at - 10*sim.Minute; l.now() >= early {
			return l.once("hand-over", l.p.people[who].id, act("send-for", word("person", l.p.people[who].id)))
		} else {
			l.by(early)
		}
		return passed
	}
	if l.now() < at {
		l.by(at)
		return passed
	}
	for i := range l.infusions {
		l.infusion = &l.infusions[i]
		if l.running {
			if t := l.checkPump("handover"); t != passed {
				return t
			}
		}
	}
	l.infusion = &l.infusions[0]
	facts := []string{"who", "reason", "pressure", "drug", "dose", "line", "time-running", "site", "done-so-far", "plan"}
	return l.once("hand-over", "", act("hand-over", word("person", l.p.people[who].id), listed("facts", facts)))
}
