package sim

import (
	"blanch/sim/circulation"
	"blanch/sim/tissue"
)

// maxAgents bounds how many drugs one case can have in play, saline counted
// as the first.
const maxAgents = 8

// inputs is what reaches the blood of each drug.
type inputs [maxAgents]circulation.Input

// outlook is where each drug in the blood goes until the next change of the
// physics.
type outlook struct {
	moves   [maxAgents]bool // the others are not there and do not come
	courses [maxAgents]circulation.Course
}

// ahead is the next change of the physics and the outlook until then. Both
// follow from the state alone, so they are kept until it changes.
func (e *Engine) ahead() (event, *outlook) {
	if !e.fresh {
		e.next = e.findNext()
		in := e.input(e.next.t)
		e.look(&in, &e.coming)
		e.fresh = true
	}
	return e.next, &e.coming
}

// outlookTo is the outlook of a commitment at t, after which none is kept. The
// one at hand will do unless a depot feeds the blood: its uptake is fitted to
// the stretch.
func (e *Engine) outlookTo(t float64) *outlook {
	if !e.fresh || (t != e.next.t && e.hasDepot()) {
		e.fresh = false
		in := e.input(t)
		e.look(&in, &e.coming)
	}
	return &e.coming
}

func (e *Engine) hasDepot() bool {
	for _, s := range e.sites {
		if s.depot != nil {
			return true
		}
	}
	return false
}

// look fills in the outlook under the inputs.
func (e *Engine) look(in *inputs, o *outlook) {
	for i := 1; i < len(e.agents); i++ {
		o.moves[i] = !e.blood[i].Still() || in[i] != (circulation.Input{})
		if o.moves[i] {
			o.courses[i] = e.blood[i].Under(in[i], &e.agents[i])
		}
	}
}

// input is what reaches the blood from the present of the physics until t.
func (e *Engine) input(t float64) inputs {
	var in inputs
	for _, s := range e.sites {
		if f := s.flows(); f != nil && f.tip.Drug != 0 {
			in[f.tip.Drug] = in[f.tip.Drug].Plus(e.delivered(s, f))
		}
		if s.depot != nil && t > e.at {
			e.uptake(s, t, &in)
		}
	}
	return in
}

// delivered is the drug a line gives the blood directly.
func (e *Engine) delivered(s *site, f *flow) circulation.Input {
	if s.Removed != Never {
		return circulation.Input{}
	}
	share, slope := s.lost(e.at)
	amount := float64(f.q * f.tip.Conc)
	return circulation.Input{C0: float64(amount * (1 - share)), C1: -float64(amount * slope)}
}

// feed is what the line gives its depot.
func (e *Engine) feed(s *site) tissue.Feed {
	f := s.flows()
	if f == nil || s.Removed != Never {
		return tissue.Feed{}
	}
	share, slope := s.lost(e.at)
	feed := tissue.Feed{Q0: float64(f.q * share), Slope: float64(f.q * slope)}
	if slot := s.depot.slot(f.tip.Drug); slot >= 0 {
		feed.Conc, feed.Slot = f.tip.Conc, slot
	}
	return feed
}

// care is what is being done to the limb around a site.
func (e *Engine) care(s *site) tissue.Care {
	a := e.arm(s.Side)
	return tissue.Care{Raised: a.raised, Warm: a.warm || a.hot, Nitrate: s.nitrate}
}

// stepTo is the tissue around a site at t, kept while it is the next change
// of the physics.
func (e *Engine) stepTo(s *site, t float64) *tissue.State {
	d := s.depot
	if d.aheadT != t {
		d.ahead, d.aheadT = d.Step(t-e.at, e.feed(s), e.care(s)), t
	}
	return &d.ahead
}

// uptake adds the drugs a depot gives the blood until t: quadratics with the
// rates at both ends and the exact totals.
func (e *Engine) uptake(s *site, t float64, in *inputs) {
	d, next, care, dt := s.depot, e.stepTo(s, t), e.care(s), t-e.at
	for i := range d.Drugs {
		drug := d.Of[i].ID
		in[drug] = in[drug].Plus(circulation.Through(d.Uptake(i, care), next.Uptake(i, care), next.TakenUp[i]-d.TakenUp[i], dt))
	}
	if d.A > 0 && e.blocker > 0 {
		in[e.blocker] = in[e.blocker].Plus(circulation.Through(d.BlockerUptake(), next.BlockerUptake(), next.BlockerUp-d.BlockerUp, dt))
	}
}

// answerAt reads what the drugs do at t, which must not lie beyond the next
// change of the physics.
func (e *Engine) answerAt(t float64) circulation.Answer {
	if dt := t - e.at; dt > 0 {
		_, o := e.ahead()
		return e.answerAfter(dt, o)
	}
	return e.answer(&e.blood)
}

// answer is what the drugs do when so much of each is there.
func (e *Engine) answer(blood *[maxAgents]circulation.State) circulation.Answer {
	var effects [maxAgents]float64
	for i := range blood {
		effects[i] = blood[i].Effect
	}
	return circulation.Answered(e.agents, effects[:len(e.agents)])
}

func (e *Engine) answerAfter(dt float64, o *outlook) circulation.Answer {
	var after [maxAgents]float64
	for i := 1; i < len(e.agents); i++ {
		switch {
		case !o.moves[i]:
		case dt == 0:
			after[i] = o.courses[i].Effect(0)
		default:
			after[i] = o.courses[i].EffectAt(e.pace(i, dt))
		}
	}
	return circulation.Answered(e.agents, after[:len(e.agents)])
}

// depotAt reads the tissue around a site at t.
func (e *Engine) depotAt(s *site, t float64) tissue.State {
	dt := t - e.at
	if dt <= 0 {
		return s.depot.State
	}
	return s.depot.Step(dt, e.feed(s), e.care(s))
}

// meanAt is the true mean pressure at t.
func (e *Engine) meanAt(t float64) float64 { return e.untreated(t) + e.answerAt(t).Rise }

// untreated is the course without a vasopressor, linear between its points,
// with whatever else weighs on it.
func (e *Engine) untreated(t float64) float64 {
	points := e.without
	mmHg := points[len(points)-1].mmHg
	for i, p := range points {
		if t < p.s {
			mmHg = p.mmHg
			if i > 0 {
				q := points[i-1]
				part := (t - q.s) / (p.s - q.s)
				mmHg = q.mmHg + float64((p.mmHg-q.mmHg)*part)
			}
			break
		}
	}
	return mmHg + e.strain(t)
}

// commit moves the physics to t. At an event of its own (a front, an empty
// bag) the volume moved on that line is the exact one, so that the books
// never lose a rounding.
func (e *Engine) commit(t float64, ev event) {
	dt := t - e.at
	if dt < 0 || (dt == 0 && !ev.exact(ev.site)) {
		return
	}
	then := e.blood
	if dt > 0 {
		o := e.outlookTo(t)
		for i := 1; i < len(e.agents); i++ {
			if o.moves[i] {
				then[i] = o.courses[i].AfterAt(e.pace(i, dt))
			}
		}
		e.watchPressure(dt, o, e.answer(&then))
	}
	reached := false
	for _, s := range e.sites {
		f := s.flows()
		if s.depot != nil && dt > 0 {
			e.stepDepot(s, t)
		}
		if f != nil {
			reached = e.move(s, f, dt, ev) || reached
		}
	}
	if dt > 0 {
		e.blood = then
		if e.out.FirstDrug != Never && !reached {
			e.out.DrugFreeS += dt
		}
	}
	e.at = t
	e.fresh = false
	for _, s := range e.sites {
		if s.depot != nil {
			s.depot.aheadT = 0
		}
		// A leaking line that is still in place may be fed again.
		if s.depot != nil && s.depot.Spent() && !(s.leaking && s.inPlace()) {
			e.closeDepot(s)
		}
	}
}

// stale says that the state has changed and what was looked up no longer
// holds.
func (e *Engine) stale() {
	e.fresh = false
	for _, s := range e.sites {
		s.known = false
		if s.depot != nil {
			s.depot.aheadT = 0
		}
	}
}

// move pushes dt seconds of flow through a line and books where it went. It
// reports whether drug reached the blood.
func (e *Engine) move(s *site, f *flow, dt float64, ev event) bool {
	ml := float64(f.q * dt)
	if ev.exact(s) || ml > f.untilML {
		ml = f.untilML
	}
	share0, slope := s.lost(e.at)
	share := share0 + float64(slope*(dt/2))
	amount := float64(ml * f.tip.Conc)
	l := &e.led.drugs[f.tip.Drug]
	if s.Removed != Never {
		l.spilled += amount
		e.led.spilledML += ml
	} else {
		l.into += float64(amount * share)
		e.led.toBlood += float64(ml * (1 - share))
		e.out.TissueML += float64(ml * share)
		if f.tip.Drug == e.ordered {
			e.out.TissueMcg += float64(amount * share)
			e.out.ReachedMcg += float64(amount * (1 - share))
		}
		if share > 0 {
			s.lastFlow = e.at + dt
		}
	}
	s.column.Push(ml, f.inflow)
	if f.pump != nil {
		p := f.pump
		p.tubing.Push(ml, p.bag.fluid())
		pumped := float64(ml * p.bag.True)
		e.led.drugs[p.bag.agent].pumped += pumped
		if p.bag.agent == e.ordered && e.out.FirstDrug != Never {
			e.out.SetMcg += pumped
		}
		e.led.entered += ml
		p.bag.left -= ml
		if s.carried && !s.Central {
			for i := range s.wear {
				s.wear[i].hazard += float64(s.wear[i].rate * dt)
			}
		}
	} else {
		e.led.entered += ml
		e.out.FlushedMcg += amount
	}
	s.movedOn(ml)
	return amount > 0 && share < 1 && s.Removed == Never
}

// recent are the last paces of one drug. Steps of the depot's grid and their
// middles come in few lengths.
type recent struct {
	kept [recently]circulation.Pace
	next int
}

const recently = 4

// pace is that of a drug over s seconds.
func (e *Engine) pace(drug int, s float64) *circulation.Pace {
	r := &e.paces[drug]
	for i := range r.kept {
		if r.kept[i].S == s && s > 0 {
			return &r.kept[i]
		}
	}
	p := &r.kept[r.next]
	r.next = (r.next + 1) % recently
	*p = e.agents[drug].Pace(s)
	return p
}
