package sim

import (
	"fmt"

	"blanch/sim/circulation"
	"blanch/sim/drug"
	"blanch/sim/line"
	"blanch/sim/luck"
	"blanch/sim/vein"
)

// Revision names the engine's behaviour. It is raised by hand whenever the
// digest of a shipped case changes.
const Revision = 11

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
	without []knot              // the pressure without a vasopressor, at its points
	world

	// Looked up ahead; they follow from the world and never change it.
	fresh  bool
	next   event
	coming outlook
	paces  [maxAgents]recent
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
	case p.Cuff <= 0:
		return nil, fmt.Errorf("place: the cuff cycles every %d s; it needs a time over 0, such as 5 min", p.Cuff/Second)
	}
	e := &Engine{c: c, p: p}
	e.drugs, e.agents = make([]drug.Drug, 1, maxAgents), make([]circulation.Agent, 1, maxAgents)
	e.ordered = e.play(d)
	for _, o := range c.Also {
		d, ok := drug.Named(o.Drug)
		if !ok || e.play(d) == 0 {
			return nil, fmt.Errorf("also ordered: %q cannot be played", o.Drug)
		}
	}
	for _, v := range p.Vials {
		if d, ok := drug.Named(v.Drug); ok && d.VolumeL > 0 && e.play(d) == 0 {
			return nil, fmt.Errorf("place: more than %d drugs are in stock", maxAgents-1)
		}
	}
	for _, v := range p.Premixed {
		if d, ok := drug.Named(v.Drug); ok && e.play(d) == 0 {
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
	e.tries, e.scanned, e.said = map[string]int{}, map[string]bool{}, map[string]spoken{}
	for _, p := range c.Patient.Untreated {
		e.without = append(e.without, knot{p.At.Seconds(), p.MmHg})
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
	e.world = e.emptied()
	e.out.FirstDrug = Never
	e.cuff = c.CuffArm
	for range c.Strains {
		e.treated = append(e.treated, Never)
	}
	e.central = centralState{granted: Never, skin: Never, ready: Never}
	for _, pump := range p.Pumps {
		again(&e.pumps, pumpState{Pump: pump, tubing: line.NewColumn(p.TubingML, line.Saline), run: -1, blockedAlarm: Never})
		e.led.entered += p.TubingML
	}
	e.veins = append(e.veins[:0], c.Veins...)
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
		who := again(&e.people, personState{Person: person, comes: Never})
		for _, a := range c.Away {
			if a.Person == who.ID {
				who.away = a
			}
		}
	}
	for _, r := range c.Running {
		if err := e.takeOver(r); err != nil {
			return err
		}
	}
	if len(c.Running) > 0 {
		e.settle(0)
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
func (e *Engine) change(at Time) {
	e.commit(at.Seconds(), event{})
	e.stale()
	e.changed = true
}

// note adds an entry to the journal. The journal only grows and no entry in
// it is ever changed, so parts of it are given out without a copy.
func (e *Engine) note(en Entry) { e.journal = append(e.journal, en) }

// since is the journal from an entry on. Its capacity ends there too: what a
// caller appends goes elsewhere.
func (e *Engine) since(from int) []Entry {
	to := len(e.journal)
	return e.journal[from:to:to]
}

func clone[T any](s []T) []T { return append([]T(nil), s...) }
