package sim

import "blanch/sim/luck"

// Complications of central access, for each placement (P: Teja 2024, JAMA
// Intern Med, doi 10.1001/jamainternmed.2023.8232, read in a summary: failure
// 20, arterial puncture 16, pneumothorax 4.4 per 1000).
const (
	centralFails        = 0.020
	centralArterial     = 0.016
	centralPneumothorax = 0.0044
)

// askCentral sets the lead time of central access from the moment it was
// granted; delay is drawn once.
func (e *Engine) askCentral(at Time) {
	c := e.p.Central
	lead := c.Lead
	if luck.Uniform(e.seed, "central-delay", "", 1) < c.DelayChance {
		lead += c.Delay
	}
	e.central.granted = at
	e.central.skin = at + lead
	e.central.ready = e.central.skin + c.Takes
	if luck.Uniform(e.seed, "central-fails", "", 1) < centralFails {
		e.central.ready += c.Takes
	}
}

// nextCentral is the next step of central access.
func (e *Engine) nextCentral() Time {
	switch {
	case e.central.granted == Never || e.central.done:
		return Never
	case !e.central.started:
		return e.central.skin
	}
	return e.central.ready
}

func (e *Engine) stepCentral(at Time) {
	if !e.central.started {
		e.central.started = true
		e.note(Entry{At: at, Kind: Event, Subject: "central", What: "the operator begins"})
		return
	}
	e.central.done = true
	word := "in place, its position confirmed"
	if luck.Uniform(e.seed, "central-arterial", "", 1) < centralArterial {
		word = "in place after an arterial puncture, which was pressed"
	} else if luck.Uniform(e.seed, "central-pneumothorax", "", 1) < centralPneumothorax {
		word = "in place, with a small pneumothorax on the film"
	}
	rec := LineRecord{Subject: "central", Central: true, Share: 1, Placed: at, Pressor: Never, Removed: Never, Leaks: Never, Entry: len(e.journal)}
	e.records = append(e.records, rec)
	e.place(rec, e.p.Central.DeadML)
	e.note(Entry{At: at, Kind: Event, Subject: "central", What: "central line", Word: word})
}
