package trial

import (
	"blanch/sim"
	"blanch/sim/luck"
	"blanch/sim/quantity"
)

// learner is one simulated learner in one run.
type learner struct {
	bed
	kind *Kind
	p    *papers
	luck uint64 // of this learner: by seed and kind
	memory

	tasks map[task]progress
	wake  sim.Time // the soonest that anything is due
	acts  int
	draws int
}

// mostActs bounds a run: a person does not do more in a shift.
const mostActs = 500

// task is an act of a step, and what it is done to.
type task struct{ step, act, to string }

type progress struct {
	done  bool
	tries int
	again sim.Time // not before
}

// turn is what a skill made of its chance to act.
type turn uint8

const (
	passed turn = iota // nothing to do here now
	acted              // did something
	waits              // nothing yet, and nothing less urgent meanwhile
)

// begin readies a learner for a run, in the memory of the one before.
func (l *learner) begin(k *Kind, seed uint64) {
	l.kind, l.luck = k, luck.Bits(seed, "simulated learner", k.ID, 0)
	l.acts, l.draws = 0, 0
	if l.tasks == nil {
		l.tasks = map[task]progress{}
	}
	clear(l.tasks)
	l.memory.open(l.p)
	l.arrive()
}

// play goes on to the end of the case.
func (l *learner) play() {
	plays := l.kind.plays
	if plays == nil {
		plays = (*learner).playByManner
	}
	plays(l)
	l.wait(l.p.ends, l.see)
}

// skills, the most urgent first.
var skills []func(*learner) turn

func init() {
	skills = []func(*learner) turn{
		forFirst((*learner).answerSums), forFirst((*learner).heedCalls),
		forEach((*learner).emptied), forEach((*learner).overdue), forEach((*learner).respond), forEach((*learner).mendFlow), forEach((*learner).afterMove),
		forFirst((*learner).handOver), forFirst((*learner).settleOrder),
		forEach((*learner).takeOver), forEach((*learner).tellApart), forFirst((*learner).treatPatient), forEach((*learner).prepare),
		forEach((*learner).keepChecks), forFirst((*learner).mindPressure), forFirst((*learner).tellReasons),
		forFirst((*learner).moveToCentral), forFirst((*learner).askCentral), forEach((*learner).afterStart), forFirst((*learner).noteOrder),
		forEach((*learner).betterLines), forEach((*learner).readyBag), forEach((*learner).lookAgain),
	}
}

func (l *learner) playByManner() {
	if l.kind.from > 0 {
		l.wait(l.kind.from, l.see)
	}
	for !l.over() && l.acts < mostActs {
		l.wake = l.p.ends
		if !l.decide() {
			l.idle()
		}
	}
}

func (l *learner) decide() bool {
	for _, skill := range skills {
		switch skill(l) {
		case acted:
			return true
		case waits:
			return false
		}
	}
	return false
}

// by says that something is due then.
func (l *learner) by(at sim.Time) { l.wake = min(l.wake, at) }

// idle waits until something is due, or something happens.
func (l *learner) idle() {
	to := max(l.wake, l.now()+sim.Second)
	l.news = false
	for !l.news && !l.over() && l.now() < to {
		l.wait(min(to, max(l.e.Next(), l.now()+1)), l.see)
	}
}

// does begins an action and waits until it is over, with a moment's thought.
func (l *learner) does(a sim.Action) bool {
	l.acts++
	l.refusal = ""
	why, ok := l.do(a, l.see)
	if !ok {
		l.refusal = why
		return false
	}
	at := l.free(a)
	if l.kind.thinks > 0 {
		l.draws++
		pause := luck.Between(l.luck, "thinks", "", l.draws, 0, 2*l.kind.thinks.Seconds())
		at += sim.FromSeconds(quantity.Round(pause, 1))
	}
	l.waitBusy(at)
	return true
}

// waitBusy waits while the hands are full. The voice is free meanwhile, so that
// nobody who calls is left without an answer.
func (l *learner) waitBusy(to sim.Time) {
	if to-l.now() < 2*sim.Minute {
		l.wait(to, l.see)
		return
	}
	for l.now() < to && !l.over() {
		l.wait(min(to, max(l.e.Next(), l.now()+1)), l.see)
		if len(l.calls) == 0 || !l.will("heed", l.calls[0]) || l.vice("goes-anyway", "") || l.e.View().Voice != "" {
			continue
		}
		id := l.calls[0]
		if _, ok := l.do(act("decline", word("call", id)), l.see); ok {
			l.acts++
		}
		l.closeCall(id)
	}
}

// will says whether this learner takes a step. The same question has the
// same answer throughout a run.
func (l *learner) will(step, to string) bool {
	chance, named := l.kind.steps[step]
	if !named {
		chance = l.kind.care
	}
	return l.happens(step, to, chance)
}

// vice says whether this learner does what nobody should.
func (l *learner) vice(name, to string) bool { return l.happens(name, to, l.kind.vices[name]) }

func (l *learner) happens(what, to string, chance float64) bool {
	switch {
	case chance >= 1:
		return true
	case chance <= 0:
		return false
	}
	return luck.Happens(l.luck, what, to, 0, chance)
}

// once does what needs doing once, if this learner does it at all. What is
// refused is tried again a little later, three times.
func (l *learner) once(step, to string, a sim.Action) turn {
	key := task{step, a.Name, to}
	t := l.tasks[key]
	switch {
	case t.done:
		return passed
	case l.now() < t.again:
		l.by(t.again)
		return waits
	case t.tries == 0 && !l.will(step, to):
		l.tasks[key] = progress{done: true}
		return passed
	}
	t.tries++
	if l.does(a) {
		t.done = true
		l.tasks[key] = t
		return acted
	}
	if t.tries == 3 {
		t.done = true
		l.tasks[key] = t
		return passed
	}
	t.again = l.now() + retryAfter
	l.tasks[key] = t
	l.by(t.again)
	return waits
}

// onceOn does what needs doing once to a line.
func (l *learner) onceOn(step, name, id string) turn {
	if l.tried(step, name, id) {
		return passed
	}
	return l.once(step, id, onLine(name, id))
}

// retryAfter is how long a learner leaves what was refused.
const retryAfter = 50 * sim.Second

// tried says that an act of a step has been dealt with, done or not.
func (l *learner) tried(step, act, to string) bool { return l.tasks[task{step, act, to}].done }

// close marks an act of a step as dealt with.
func (l *learner) close(step, act, to string) { l.tasks[task{step, act, to}] = progress{done: true} }
