package sim

import "blanch/sim/tissue"

// tickKind orders what the clock brings at one instant.
type tickKind uint8

const (
	tickInflate tickKind = iota // the cuff begins to squeeze
	tickReading                 // monitor and pump alarms
	tickAction
	tickCame
	tickCentral
	tickRing
	tickLapse
	tickPlanned
	tickStrain
	tickSays
	tickBurn
	tickEnd
	tickNone
)

// clockwork is the next thing that the clock brings, in whole milliseconds.
func (e *Engine) clockwork() (Time, tickKind) {
	at, what := e.c.Ends, tickEnd
	consider := func(t Time, k tickKind) {
		if t < at || (t == at && k < what) {
			at, what = t, k
		}
	}
	reading := e.nextReading()
	consider(reading, tickReading)
	if !e.squeezes && reading > squeeze && e.cuffMatters() {
		consider(max(reading-squeeze, e.now), tickInflate)
	}
	for _, p := range e.pumps {
		consider(p.blockedAlarm, tickReading)
	}
	consider(e.nextWarning(at), tickReading)
	for _, r := range e.queue {
		consider(min(r.turn, r.ends), tickAction)
	}
	for _, p := range e.people {
		consider(p.comes, tickCame)
	}
	consider(e.nextCentral(), tickCentral)
	if e.rung < len(e.c.Calls) {
		consider(e.c.Calls[e.rung].At, tickRing)
	}
	for _, o := range e.calls {
		if !o.closed {
			consider(o.at+e.c.Calls[o.call].Patience, tickLapse)
		}
	}
	if e.happened < len(e.c.Planned) {
		consider(e.c.Planned[e.happened].At, tickPlanned)
	}
	for _, s := range e.says {
		if !s.said {
			consider(s.at, tickSays)
		}
	}
	if e.strained < len(e.c.Strains) {
		consider(e.c.Strains[e.strained].At, tickStrain)
	}
	for i := range e.arms {
		if a := &e.arms[i]; a.hot && !a.heated {
			consider(a.hotSince+FromSeconds(tissue.BurnsAfterS), tickBurn)
		}
	}
	return at, what
}

// tick carries out what the clock brought at `at`.
func (e *Engine) tick(at Time, what tickKind) {
	switch what {
	case tickInflate:
		e.inflate(at)
	case tickReading:
		e.warnPumps(at)
		if at == e.nextReading() {
			e.read(at)
		}
	case tickAction:
		for _, r := range e.queue {
			switch at {
			case r.turn:
				r.spec.turn(e, r)
				r.turn = Never
				e.settle(at)
				return
			case r.ends:
				e.finish(r)
				return
			}
		}
	case tickCame:
		e.arrive(at)
	case tickCentral:
		e.stepCentral(at)
	case tickRing:
		call := e.c.Calls[e.rung]
		e.calls = append(e.calls, openCall{call: e.rung, at: at})
		e.rung++
		e.note(Entry{At: at, Kind: Rang, Subject: call.ID, Word: call.Text})
	case tickLapse:
		for i := range e.calls {
			o := &e.calls[i]
			call := e.c.Calls[o.call]
			if !o.closed && o.at+call.Patience == at {
				o.closed = true
				e.note(Entry{At: at, Kind: Lapsed, Subject: call.ID, Word: call.Lapsed})
				return
			}
		}
	case tickPlanned:
		e.plan(e.c.Planned[e.happened])
		e.happened++
	case tickStrain:
		if s := e.c.Strains[e.strained]; s.Told != "" {
			e.note(Entry{At: at, Kind: Happened, Word: s.Told})
		}
		e.strained++
	case tickBurn:
		e.burn(at)
	case tickSays:
		e.say(at)
	case tickEnd:
		e.end(at)
	}
}

// end closes the case.
func (e *Engine) end(at Time) {
	e.change(at)
	e.now, e.over = at, true
	for _, p := range e.pumps {
		if p.run >= 0 {
			e.runs[p.run].To, p.run = at, -1
		}
	}
	e.note(Entry{At: at, Kind: Event, What: "the case ends"})
}

// plan carries out a happening.
func (e *Engine) plan(h Happening) {
	if h.Does == Covers {
		for _, s := range e.sites {
			if h.Line == "" || h.Line == s.Subject {
				s.covered = true
			}
		}
	}
	e.note(Entry{At: h.At, Kind: Happened, Subject: h.Line, Word: h.Text})
}

// say lets a patient who was told what to report say that it hurts.
func (e *Engine) say(at Time) {
	for i := range e.says {
		s := &e.says[i]
		if s.said || s.at != at {
			continue
		}
		s.said = true
		site := e.lastSite(s.site)
		if e.told && site != nil && site.depot != nil && (e.burns(site, at) || e.feed(site).Q0 > 0) {
			e.note(Entry{At: at, Kind: Happened, Subject: s.site, What: "pain", Word: "My arm stings where the drip goes in."})
		}
		return
	}
}

// burns says that shortage of blood hurts at a site now.
func (e *Engine) burns(s *site, at Time) bool {
	d := e.depotAt(s, at.Seconds())
	return d.Burns()
}

// burn is what a hot pack does to skin that is short of blood: it cannot
// carry the heat away.
func (e *Engine) burn(at Time) {
	for i := range e.arms {
		a := &e.arms[i]
		if !a.hot || a.heated || a.hotSince+FromSeconds(tissue.BurnsAfterS) != at {
			continue
		}
		a.heated = true // taken off and put on again it counts anew
		for _, s := range e.sites {
			if e.arm(s.Side) == a && s.depot != nil && e.burns(s, at) {
				s.burned, e.out.Burned = true, true
				e.note(Entry{At: at, Kind: Hidden, Subject: s.Subject, What: "burned by the hot pack"})
			}
		}
		return
	}
}
