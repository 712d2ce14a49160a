package sim

import (
	"fmt"
	"slices"
)

// Bridging: deciding, moving the infusion, retiring the line.
func bridgeActs() []Spec {
	return []Spec{
		{
			Name: "decide", Sentence: "decide to {plan}", Step: 10, Holds: Instant,
			Does: "say where this is going",
			done: func(e *Engine, r *running) { e.done(r, Entry{Subject: "plan", Word: r.act.word("plan")}) },
		},
		{
			Name: "move", Sentence: "move {pump} to {line}", Step: 10, Holds: Hands, Takes: 45 * Second, By: []Role{Nurse},
			Does:       "stop, change lines and start again at the same rate, in one act; the new line's dead volume comes first",
			Impossible: "the tubing is full of air, or the line is out or taken",
			refuse:     refuseMove,
			begin:      func(e *Engine, r *running) { e.holdPump(r, e.now) },
			done:       func(e *Engine, r *running) { e.moved(r, false) },
			broken:     func(e *Engine, r *running) { e.change(r.ends); r.pump.running = r.goesOn() },
		},
		{
			Name: "move-primed", Sentence: "move {pump} to {line} primed to the tip", Step: 10, Holds: Hands, Takes: 2 * Minute, By: []Role{Nurse},
			Does:       "as move, but the new extension is run through first while the pump still runs; the change itself takes 20 s",
			Impossible: "as for move, or it is a central line",
			refuse: func(e *Engine, r *running) string {
				if r.site.Central {
					return "a central lumen cannot be run through beforehand"
				}
				if r.pump.bag != nil && r.pump.bag.left < e.p.ExtensML {
					return r.pump.bag.ID + " holds too little to fill an extension"
				}
				return refuseMove(e, r)
			},
			turnAt: 20 * Second,
			turn:   func(e *Engine, r *running) { e.holdPump(r, r.turn) },
			done:   func(e *Engine, r *running) { e.moved(r, true) },
			broken: func(e *Engine, r *running) { e.change(r.ends); r.pump.running = r.goesOn() },
		},
	}
}

func refuseMove(_ *Engine, r *running) string {
	switch {
	case r.pump.site == nil:
		return r.pump.ID + " is not connected to a line; connect it"
	case r.site.pump == r.pump:
		return fmt.Sprintf("%s is connected there already", r.pump.ID)
	case r.site.pump != nil:
		return fmt.Sprintf("%s is connected there; disconnect it first", r.site.pump.ID)
	case !r.site.inPlace():
		return "the cannula in " + r.site.Subject + " is out"
	}
	return ""
}

// holdPump stops the pump for the time that the tubing is off.
func (e *Engine) holdPump(r *running, at Time) {
	e.change(at)
	r.resumes = r.pump.running || e.willRun(r.pump)
	r.pump.running = false
}

// willRun says that a pump stands still only while somebody moves it.
func (e *Engine) willRun(p *pumpState) bool {
	return slices.ContainsFunc(e.queue, func(r *running) bool { return r.pump == p && r.resumes })
}

// halt stops a pump, also one that somebody is moving: it then stays stopped.
func (e *Engine) halt(p *pumpState) {
	p.running = false
	for _, r := range e.queue {
		if r.pump == p {
			r.resumes = false
		}
	}
}

// moved ends a move: the pump runs on through the new line if it ran before and
// its bag is not empty.
func (e *Engine) moved(r *running, primed bool) {
	e.change(r.ends)
	e.join(r.pump, r.site)
	if primed {
		e.fillExtension(r.pump, r.site)
	}
	r.pump.running = r.goesOn()
	e.done(r, Entry{})
	if r.resumes && !r.pump.running { // the extension took the last of it
		e.note(Entry{At: r.ends, Kind: Alarm, Subject: r.pump.ID, What: "bag empty"})
	}
}

// goesOn says that a pump runs on once its tubing is back on a line.
func (r *running) goesOn() bool {
	p := r.pump
	return (p.running || r.resumes) && p.site != nil && p.bag != nil && p.bag.left > 0
}
