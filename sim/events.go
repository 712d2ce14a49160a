package sim

import (
	"math"

	"blanch/sim/tissue"
)

// event is the next change of the physics. Nothing the learner only looks
// at is one, so looking cuts no step.
type event struct {
	t    float64 // s
	rank uint8   // order at one instant
	what change
	site *site
	end  end // of ended
}

// change is what sort of physics event this is.
type change uint8

const (
	nothing    change = iota
	front             // a concentration front comes to the end of a tube
	emptied           // so does the end of the bag
	leakPlaced        // the leak that the case plans
	ended             // one of the ends of a line, a leak by hazard among them
	leakFull          // a leak has come to its final share
	grid              // a step of a depot's own grid ends
)

func (a event) before(b event) bool {
	return a.t < b.t || (a.t == b.t && a.rank < b.rank)
}

// exact says that the event is the end of a stretch of fluid on that line,
// so that the volume moved there is known without a rounding.
func (a event) exact(s *site) bool {
	return s != nil && a.site == s && (a.what == front || a.what == emptied)
}

// findNext is the next change of the physics; its time is infinite when
// nothing moves.
func (e *Engine) findNext() event {
	next := event{t: math.Inf(1)}
	consider := func(ev event) {
		if ev.before(next) {
			next = ev
		}
	}
	for _, s := range e.sites {
		f := s.flows()
		if f != nil && !math.IsInf(f.untilML, 1) {
			what := front
			if f.empties {
				what = emptied
			}
			consider(event{t: e.at + f.untilML/f.q, rank: 1, what: what, site: s})
		}
		if f != nil && f.pump != nil && s.inPlace() && s.carried && !s.Central {
			e.endEvents(s, consider)
		}
		if s.leaking && s.leakOver > 0 && e.at < s.leakAt+s.leakOver {
			consider(event{t: s.leakAt + s.leakOver, rank: 3, what: leakFull, site: s})
		}
		if s.depot != nil {
			consider(event{t: s.depot.origin + nextGrid(e.at-s.depot.origin), rank: 0, what: grid})
		}
	}
	return next
}

// nextGrid is the first point of a depot's grid after age seconds.
func nextGrid(age float64) float64 {
	step := tissue.Grid(age)
	at := float64((math.Floor(age/step) + 1) * step)
	if at-age < 1e-6 {
		at += tissue.Grid(at)
	}
	return at
}

// happen carries out a physics event that has been committed to.
func (e *Engine) happen(ev event) {
	at := FromSeconds(ev.t)
	switch ev.what {
	case grid:
		return // a step of the tissue changes nothing that flows
	case emptied:
		p := ev.site.pump
		p.bag.left = 0
		p.running = false
		e.note(Entry{At: at, Kind: Alarm, Subject: p.ID, What: "bag empty"})
	case ended:
		e.comes(ev.site, ev.end, ev.t)
	case leakPlaced:
		e.placed = true
		e.leak(ev.site, ev.t, e.c.Leak.Over.Seconds(), e.c.Leak.Fraction)
	}
	e.settle(at)
}

// leak begins a leak at t seconds.
func (e *Engine) leak(s *site, t, over, to float64) {
	s.leaking, s.leakAt, s.leakOver, s.leakTo = true, t, over, to
	s.Leaks = FromSeconds(t)
	e.needDepot(s, t)
	e.note(Entry{At: s.Leaks, Kind: Hidden, Subject: s.Subject, What: "leak begins"})
}

func (e *Engine) needDepot(s *site, t float64) {
	if s.depot == nil {
		s.depot = again(&e.depots, depot{began: t, origin: t})
		for i, sign := range tissue.Signs() {
			for _, sight := range e.sights {
				if sight.Subject == s.Subject && sight.Sign == string(sign) {
					s.depot.seen.add(i)
				}
			}
		}
	}
}

// sighted records the first instant at which a competent look would have
// found a sign.
func (e *Engine) sighted(s *site, sign tissue.Sign, at Time) {
	e.sights = append(e.sights, Sighting{s.Subject, string(sign), at})
	e.note(Entry{At: at, Kind: Hidden, Subject: s.Subject, What: "could be found", Word: string(sign)})
	if sign == tissue.Pain && e.c.Patient.Tells && e.c.Patient.SaysAfter > 0 {
		e.says = append(e.says, saying{at: at + e.c.Patient.SaysAfter, site: s.Subject})
	}
}

// settle brings runs, luck and first times into line with what now flows.
// It follows every change of the physics.
func (e *Engine) settle(at Time) {
	e.changed = false
	e.stale()
	for _, p := range e.pumps {
		e.settleRun(p, at)
		e.settlePress(p)
	}
	for _, s := range e.sites {
		f := s.flows()
		if d := s.depot; d != nil {
			var fed stream
			if f != nil {
				fed = stream{f.q, f.tip}
			}
			if fed != d.fed {
				d.fed, d.origin = fed, e.at
			}
		}
		if f == nil {
			continue
		}
		if s.carried {
			e.weigh(s)
		}
		if f.pump != nil && f.pump.bag.vasopressor() && !s.carried {
			s.carried = true
			s.Pressor = at
			if !s.Central {
				e.carriers++
				s.nth = e.carriers
				for i := range s.wear {
					e.draw(s, end(i))
				}
			}
			e.weigh(s)
		}
		if f.pump != nil && !e.running && e.c.Leak.concerns(f.pump.bag) {
			e.running, e.firstRun = true, e.at
		}
		if s.leaking && s.depot != nil && f.tip.Drug != 0 {
			s.depot.Slot(e.tissueAgent(f.tip.Drug))
		}
		if share, _ := s.lost(e.at); f.tip.Conc > 0 && share < 1 && s.inPlace() && e.out.FirstDrug == Never {
			e.out.FirstDrug = at
			e.note(Entry{At: at, Kind: Hidden, Subject: s.Subject, What: "first drug in the blood"})
		}
	}
}

// settleRun closes and opens the record of a pump's running at one rate, from
// one bag, through one line.
func (e *Engine) settleRun(p *pumpState, at Time) {
	on := p.running && p.rate > 0 && p.bag != nil && p.site != nil
	if p.run >= 0 {
		r := &e.runs[p.run]
		if on && r.MLH == p.rate && r.Bag == p.bag.ID && r.Subject == p.site.Subject {
			return
		}
		r.To = at
		p.run = -1
	}
	if on {
		amount := float64(p.rate*p.bag.Nominal) / 60
		e.runs = append(e.runs, Run{
			Pump: p.ID, Subject: p.site.Subject, Bag: p.bag.ID, From: at, To: Never,
			MLH: p.rate, McgMin: amount, Entry: len(e.journal) - 1,
		})
		if p.bag.agent == e.ordered {
			e.out.PeakDoseMcgM = max(e.out.PeakDoseMcgM, amount)
		}
		p.run = len(e.runs) - 1
		p.warned = false
	}
}

func (b *bagState) vasopressor() bool { return b.agent != 0 && b.Nominal > 0 }

// tissueAgent is a drug as the tissue sees it.
func (e *Engine) tissueAgent(i int) tissue.Agent {
	p := e.drugs[i].Potency
	return tissue.Agent{ID: i, Receptor: p.Receptor, EC50: p.TissueE50, KLocal: p.KLocal / 60}
}
