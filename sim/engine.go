package sim

import (
	"fmt"
	"math"

	"blanch/sim/circulation"
	"blanch/sim/drug"
	"blanch/sim/line"
	"blanch/sim/luck"
	"blanch/sim/vein"
)

// Revision names the engine's behaviour. It is raised by hand whenever the
// digest of a shipped case changes.
const Revision = 1

// Engine plays one case. It is not safe for concurrent use.
type Engine struct {
	c    *Case
	p    *Place
	seed uint64
	body circulation.Body
	world
}

// New readies a case in a place. The error says what makes it unplayable;
// cases that loaded without a complaint have none.
func New(c *Case, p *Place, seed uint64) (*Engine, error) {
	d, ok := drug.Named(c.Order.Drug)
	switch {
	case !ok:
		return nil, fmt.Errorf("order: %q is not a known drug", c.Order.Drug)
	case len(c.Patient.Untreated) == 0:
		return nil, fmt.Errorf("patient: the untreated pressure has no points")
	case c.Ends <= 0:
		return nil, fmt.Errorf("case: the end must lie after the start")
	case len(p.Pumps) == 0:
		return nil, fmt.Errorf("place: there is no pump")
	}
	e := &Engine{c: c, p: p, seed: seed}
	e.body = circulation.Body{
		K:       d.ClearanceLMin(c.Patient.SAPS2) / d.VolumeL / 60,
		VolumeL: d.VolumeL,
	}
	e.out.FirstDrug = Never
	e.cuff = c.CuffArm
	e.tries, e.scanned, e.raised = map[string]int{}, map[string]bool{}, map[Side]bool{}
	e.central = centralState{granted: Never, skin: Never, ready: Never}
	for _, pump := range p.Pumps {
		e.pumps = append(e.pumps, &pumpState{Pump: pump, tubing: line.NewColumn(p.TubingML, 0), run: -1})
		e.led.entered += p.TubingML
	}
	for _, l := range c.InPlace {
		i := e.veinIndex(l.Vein)
		if i < 0 {
			return nil, fmt.Errorf("a line in place: there is no vein called %q", l.Vein)
		}
		v := c.Veins[i]
		e.records = append(e.records, LineRecord{
			Subject: v.ID, Side: v.Side, Vein: v.Vein, Cannula: l.Cannula, AngleDeg: l.AngleDeg,
			Share: vein.Lie(v.Vein, l.Cannula, l.AngleDeg).Share, Pressor: Never, Removed: Never, Leaks: Never, Entry: -1,
		})
		e.place(e.records[len(e.records)-1], p.ExtensML+cannulaML(l.Cannula))
	}
	for _, person := range p.People {
		who := &personState{Person: person, comes: Never}
		for _, a := range c.Away {
			if a.Person == who.ID {
				who.away = a
			}
		}
		e.people = append(e.people, who)
	}
	e.read(0)
	return e, nil
}

// Now is the simulated time.
func (e *Engine) Now() Time { return e.now }

// Over says that the case has ended.
func (e *Engine) Over() bool { return e.over }

// Advance moves time on to `to` and returns what happened on the way. A time
// that has passed, or lies beyond the end, moves as far as there is to go.
// How the way is cut into calls makes no difference to anything.
func (e *Engine) Advance(to Time) []Entry {
	from := len(e.journal)
	for !e.over {
		phys := e.physics()
		at, what := e.clockwork()
		// At one instant bag, line and leak come before alarms, alarms before
		// the ends of actions, these before calls.
		if phys.t <= min(to, at).Seconds() {
			e.commit(phys.t, phys)
			e.happen(phys)
			continue
		}
		if at > to {
			break
		}
		e.now = max(e.now, at)
		e.tick(at, what)
	}
	if !e.over {
		e.now = max(e.now, to)
	}
	return clone(e.journal[from:])
}

// change commits the physics to the present before an act alters it.
func (e *Engine) change(at Time) { e.commit(at.Seconds(), event{}) }

// note adds an entry to the journal.
func (e *Engine) note(en Entry) { e.journal = append(e.journal, en) }

// tickKind orders what the clock brings at one instant.
type tickKind uint8

const (
	tickReading tickKind = iota // monitor and pump alarms
	tickAction
	tickCame
	tickCentral
	tickRing
	tickLapse
	tickPlanned
	tickSays
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
	consider(e.nextReading(), tickReading)
	if w := e.nextWarning(); w != Never {
		consider(w, tickReading)
	}
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
	return at, what
}

// tick carries out what the clock brought at `at`.
func (e *Engine) tick(at Time, what tickKind) {
	switch what {
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
		if e.told && site != nil && site.depot != nil && (e.depotAt(site, at.Seconds()).Burns() || e.feed(site).Q0 > 0) {
			e.note(Entry{At: at, Kind: Happened, Subject: s.site, What: "pain", Word: "My arm stings where the drip goes in."})
		}
		return
	}
}

// nextReading is when the cuff cycles next.
func (e *Engine) nextReading() Time {
	if len(e.shown) == 0 {
		return 0
	}
	last := e.shown[len(e.shown)-1].At
	return (last/e.p.Cuff + 1) * e.p.Cuff
}

// read shows a pressure: the true one, as a cuff sees it.
func (e *Engine) read(at Time) float64 {
	noise := luck.Normal(e.seed, "cuff", "", int(at/Second))
	mmHg := math.Floor(e.meanAt(at.Seconds()) + float64(1.5*noise) + 0.5)
	e.shown = append(e.shown, Shown{at, mmHg})
	e.note(Entry{At: at, Kind: Reading, What: "mean pressure", Value: mmHg, Unit: "mmHg"})
	low := mmHg < e.p.AlarmMmHg
	if low && !e.alarmed && at > 0 {
		e.note(Entry{At: at, Kind: Alarm, What: "low pressure", Value: mmHg, Unit: "mmHg"})
	}
	e.alarmed = low
	return mmHg
}

// nextWarning is when a pump next warns that its bag is nearly empty.
func (e *Engine) nextWarning() Time {
	at := Never
	for _, p := range e.pumps {
		if t := p.warnsAt(e.at); t < at {
			at = t
		}
	}
	return at
}

func (p *pumpState) warnsAt(now float64) Time {
	if p.warned || !p.delivers() || p.EmptyWarn <= 0 {
		return Never
	}
	left := p.bag.left / (p.rate / 3600)
	return FromSeconds(now + max(0, left-p.EmptyWarn.Seconds()))
}

func (e *Engine) warnPumps(at Time) {
	for _, p := range e.pumps {
		if p.warnsAt(e.at) == at {
			p.warned = true
			e.note(Entry{At: at, Kind: Alarm, Subject: p.ID, What: "bag nearly empty"})
		}
	}
}

func clone[T any](s []T) []T { return append([]T(nil), s...) }
