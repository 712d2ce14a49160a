package sim

import (
	"fmt"
	"math"

	"blanch/sim/circulation"
	"blanch/sim/drug"
	"blanch/sim/line"
	"blanch/sim/luck"
	"blanch/sim/tissue"
	"blanch/sim/vein"
)

// Revision names the engine's behaviour. It is raised by hand whenever the
// digest of a shipped case changes.
const Revision = 8

// Room for what most cases come to, besides the cycles of the cuff.
const (
	usualEntries = 120
	usualShown   = 10
)

// Of a patient whose case does not say (A).
const (
	usualRate  = 100.0
	usualPulse = 40.0
	poundsOver = 110.0 // mmHg of mean pressure that a patient feels as a pounding head
)

// Engine plays one case. It is not safe for concurrent use.
type Engine struct {
	c       *Case
	p       *Place
	seed    uint64
	drugs   []drug.Drug         // in play, by number; 0 is none
	agents  []circulation.Agent // the same in this patient
	ordered int                 // number of the drug of the order
	blocker int                 // number of phentolamine; 0 where there is none
	heart   float64             // untreated rate, beats/min
	pulse   float64             // untreated pulse pressure, mmHg
	veins   []VeinOffer         // on offer, with what was drawn
	world

	// Looked up ahead; they follow from the world and never change it.
	fresh  bool
	next   event
	coming outlook
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
	e := &Engine{c: c, p: p}
	e.drugs, e.agents = make([]drug.Drug, 1, maxAgents), make([]circulation.Agent, 1, maxAgents)
	e.ordered = e.play(d)
	for _, v := range p.Vials {
		if d, ok := drug.Named(v.Drug); ok && d.VolumeL > 0 && e.play(d) == 0 {
			return nil, fmt.Errorf("place: more than %d drugs are in stock", maxAgents-1)
		}
	}
	e.heart, e.pulse = float64(c.Patient.HeartRate), c.Patient.PulseMmHg
	if e.heart == 0 {
		e.heart = usualRate
	}
	if e.pulse == 0 {
		e.pulse = usualPulse
	}
	readings := int(c.Ends/max(p.Cuff, Minute)) + 1
	e.journal = make([]Entry, 0, usualEntries+3*readings)
	e.shown = make([]Shown, 0, usualShown+readings)
	if err := e.Reset(seed); err != nil {
		return nil, err
	}
	return e, nil
}

// Reset begins the case anew under another seed, as New does, but in the
// memory of the attempt before. Entries and results given out until now are
// no longer valid. It is for playing a case many times over.
func (e *Engine) Reset(seed uint64) error {
	c, p := e.c, e.p
	e.seed, e.fresh = seed, false
	e.world = world{journal: e.journal[:0], shown: e.shown[:0]}
	e.out.FirstDrug = Never
	e.cuff = c.CuffArm
	e.tries, e.scanned = map[string]int{}, map[string]bool{}
	e.treated = make([]Time, len(c.Strains))
	for i := range e.treated {
		e.treated[i] = Never
	}
	e.central = centralState{granted: Never, skin: Never, ready: Never}
	for _, pump := range p.Pumps {
		e.pumps = append(e.pumps, &pumpState{Pump: pump, tubing: line.NewColumn(p.TubingML, line.Saline), run: -1, blockedAlarm: Never})
		e.led.entered += p.TubingML
	}
	e.veins = clone(c.Veins)
	for i := range e.veins {
		if err := e.drawVein(&e.veins[i]); err != nil {
			return err
		}
	}
	for _, l := range c.InPlace {
		i := e.veinIndex(l.Vein)
		if i < 0 {
			return fmt.Errorf("a line in place: there is no vein called %q", l.Vein)
		}
		v := e.veins[i]
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
	return nil
}

// drawVein gives a vein that the case draws its size: a matter of seed and
// name alone.
func (e *Engine) drawVein(v *VeinOffer) error {
	if v.Kind == "" {
		return nil
	}
	kind, ok := vein.KindNamed(v.Kind)
	if !ok {
		return fmt.Errorf("vein %s: there is no kind of vein called %q", v.ID, v.Kind)
	}
	punctures := v.Punctures
	v.Vein = kind.Drawn(luck.Normal(e.seed, "vein-width", v.ID, 1), luck.Normal(e.seed, "vein-depth", v.ID, 1))
	v.Punctures = punctures
	return nil
}

// play brings a drug into play and returns its number, 0 when there is no
// more room.
func (e *Engine) play(d drug.Drug) int {
	for i := 1; i < len(e.drugs); i++ {
		if e.drugs[i].Name == d.Name {
			return i
		}
	}
	if len(e.drugs) == maxAgents {
		return 0
	}
	e.drugs = append(e.drugs, d)
	e.agents = append(e.agents, circulation.Of(d, e.c.Patient.SAPS2, e.c.Patient.WeightKG))
	if d.Potency.Blocks > 0 {
		e.blocker = len(e.drugs) - 1
	}
	return len(e.drugs) - 1
}

// number is a drug's number in play, 0 when it is none.
func (e *Engine) number(name string) int {
	for i := 1; i < len(e.drugs); i++ {
		if e.drugs[i].Name == name {
			return i
		}
	}
	return 0
}

// Now is the simulated time.
func (e *Engine) Now() Time { return e.now }

// Over says that the case has ended.
func (e *Engine) Over() bool { return e.over }

// Advance moves time on to `to` and returns what happened on the way. A time
// that has passed, or lies beyond the end, moves as far as there is to go.
// How the way is cut into calls makes no difference to anything. The entries
// are part of the journal and must not be changed.
func (e *Engine) Advance(to Time) []Entry {
	from := len(e.journal)
	for !e.over {
		phys, _ := e.ahead()
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
	return e.since(from)
}

// change commits the physics to the present before an act alters it.
func (e *Engine) change(at Time) { e.commit(at.Seconds(), event{}) }

// note adds an entry to the journal. The journal only grows and no entry in
// it is ever changed, so parts of it are given out without a copy.
func (e *Engine) note(en Entry) { e.journal = append(e.journal, en) }

// since is the journal from an entry on. Its capacity ends there too: what a
// caller appends goes elsewhere.
func (e *Engine) since(from int) []Entry {
	to := len(e.journal)
	return e.journal[from:to:to]
}

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
	consider(e.nextReading(), tickReading)
	if !e.squeezes && e.nextReading() > squeeze && e.cuffMatters() {
		consider(max(e.nextReading()-squeeze, e.now), tickInflate)
	}
	for _, p := range e.pumps {
		consider(p.blockedAlarm, tickReading)
	}
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
	if e.strained < len(e.c.Strains) {
		consider(e.c.Strains[e.strained].At, tickStrain)
	}
	for i := range e.arms {
		if a := &e.arms[i]; a.hot && !a.burned {
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
		if !a.hot || a.burned || a.hotSince+FromSeconds(tissue.BurnsAfterS) != at {
			continue
		}
		a.burned = true // looked at once; taken off and put on again it counts anew
		for _, s := range e.sites {
			if e.arm(s.Side) == a && s.depot != nil && e.burns(s, at) {
				e.out.Burned = true
				e.note(Entry{At: at, Kind: Hidden, Subject: s.Subject, What: "burned by the hot pack"})
			}
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
	e.deflate(at)
	noise := float64(cuffNoise * luck.Normal(e.seed, "cuff", "", int(at/Second)))
	does := e.answerAt(at.Seconds())
	mean := e.untreated(at.Seconds()) + does.Rise
	sys, dia := does.Pulse(mean, e.pulse)
	whole := func(v float64) float64 { return math.Floor(v + 0.5) }
	mmHg := whole(mean + noise)
	shown := Shown{at, mmHg, whole(sys + noise), whole(dia + noise), whole(does.Rate(e.heart))}
	e.shown = append(e.shown, shown)
	e.note(Entry{At: at, Kind: Reading, What: "mean pressure", Value: mmHg, Unit: "mmHg", Sys: shown.Sys, Dia: shown.Dia, Rate: shown.Rate})
	low := mmHg < e.p.AlarmMmHg
	if low && !e.alarmed && at > 0 {
		e.note(Entry{At: at, Kind: Alarm, What: "low pressure", Value: mmHg, Unit: "mmHg"})
	}
	e.alarmed = low
	e.tooHigh(at, mmHg)
	return mmHg
}

// tooHigh raises the alarm for a high pressure, and lets a patient who can
// say so feel it.
func (e *Engine) tooHigh(at Time, mmHg float64) {
	high := e.p.AlarmOver > 0 && mmHg > e.p.AlarmOver
	if high && !e.alarmedHigh {
		e.note(Entry{At: at, Kind: Alarm, What: "high pressure", Value: mmHg, Unit: "mmHg"})
	}
	e.alarmedHigh = high
	if mmHg > poundsOver && e.c.Patient.Tells && !e.pounded {
		e.pounded = true
		e.note(Entry{At: at, Kind: Happened, What: "pain", Word: "My head is bursting, and my heart pounds."})
	}
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
		if p.blockedAlarm == at {
			e.change(at)
			p.blockedAlarm, p.running = Never, false
			e.note(Entry{At: at, Kind: Alarm, Subject: p.ID, What: "line blocked"})
			e.settle(at)
		}
		if p.warnsAt(e.at) == at {
			p.warned = true
			e.note(Entry{At: at, Kind: Alarm, Subject: p.ID, What: "bag nearly empty"})
		}
	}
}

func clone[T any](s []T) []T { return append([]T(nil), s...) }
