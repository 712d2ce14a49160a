package sim

import (
	"math"

	"blanch/sim/circulation"
	"blanch/sim/tissue"
	"blanch/sim/vein"
)

// scan is the widest stretch in seconds over which a threshold is looked
// for by its ends only.
const scan = 60.0

// input is what reaches the blood from now until the next change of the
// physics: all running lines and all depots.
func (e *Engine) input(until float64) circulation.Input {
	var in circulation.Input
	for _, s := range e.sites {
		if f, on := s.flows(); on {
			in = in.Plus(e.delivered(s, f))
		}
		if s.depot != nil {
			in = in.Plus(e.uptake(s, until-e.at))
		}
	}
	return in
}

// delivered is the drug a line gives the blood directly.
func (e *Engine) delivered(s *site, f flow) circulation.Input {
	if s.Removed != Never {
		return circulation.Input{}
	}
	share, slope := s.lost(e.at)
	mcg := float64(f.q * f.tip)
	return circulation.Input{C0: float64(mcg * (1 - share)), C1: -float64(mcg * slope)}
}

// feed is what the line gives its depot.
func (e *Engine) feed(s *site) tissue.Feed {
	f, on := s.flows()
	if !on || s.Removed != Never {
		return tissue.Feed{}
	}
	share, slope := s.lost(e.at)
	return tissue.Feed{Q0: float64(f.q * share), Slope: float64(f.q * slope), Conc: f.tip}
}

// uptake is the drug a depot gives the blood over its next dt seconds: a
// quadratic with the rates at both ends and the exact total.
func (e *Engine) uptake(s *site, dt float64) circulation.Input {
	if dt <= 0 {
		return circulation.Input{}
	}
	d := s.depot
	next := d.Step(dt, e.feed(s), d.raised)
	return circulation.Through(d.UptakeMcgS(d.raised), next.UptakeMcgS(d.raised), next.TakenUpMcg-d.TakenUpMcg, dt)
}

// bloodAt reads the blood at t, which must not lie beyond the next change of
// the physics.
func (e *Engine) bloodAt(t float64) circulation.State {
	dt := t - e.at
	if dt <= 0 {
		return e.blood
	}
	return e.blood.After(dt, e.input(e.physics().t), e.body)
}

// depotAt reads the tissue around a site at t.
func (e *Engine) depotAt(s *site, t float64) tissue.State {
	dt := t - e.at
	if dt <= 0 {
		return s.depot.State
	}
	return s.depot.Step(dt, e.feed(s), s.depot.raised)
}

// meanAt is the true mean pressure at t.
func (e *Engine) meanAt(t float64) float64 {
	return e.untreated(t) + e.bloodAt(t).Rise()
}

// untreated is the course without a vasopressor, linear between its points.
func (e *Engine) untreated(t float64) float64 {
	pts := e.c.Patient.Untreated
	for i, p := range pts {
		if t < p.At.Seconds() {
			if i == 0 {
				return p.MmHg
			}
			q := pts[i-1]
			part := (t - q.At.Seconds()) / (p.At.Seconds() - q.At.Seconds())
			return q.MmHg + float64((p.MmHg-q.MmHg)*part)
		}
	}
	return pts[len(pts)-1].MmHg
}

// commit moves the physics to t. At an event of its own (a front, an empty
// bag) the volume moved on that line is the exact one, so that the books
// never lose a rounding.
func (e *Engine) commit(t float64, ev event) {
	dt := t - e.at
	if dt < 0 || (dt == 0 && !ev.exact(ev.site)) {
		return
	}
	in := e.input(t)
	if dt > 0 {
		e.watchPressure(dt, in)
	}
	reached := false
	for _, s := range e.sites {
		f, on := s.flows()
		if s.depot != nil && dt > 0 {
			e.stepDepot(s, dt)
		}
		if on {
			reached = e.move(s, f, dt, ev) || reached
		}
	}
	if dt > 0 {
		e.blood = e.blood.After(dt, in, e.body)
		if e.out.FirstDrug != Never && !reached {
			e.out.DrugFreeS += dt
		}
	}
	e.at = t
	for _, s := range e.sites {
		if s.depot != nil && s.depot.Spent() && s.flush == 0 && e.feed(s) == (tissue.Feed{}) {
			e.closeDepot(s)
		}
	}
}

// move pushes dt seconds of flow through a line and books where it went. It
// reports whether drug reached the blood.
func (e *Engine) move(s *site, f flow, dt float64, ev event) bool {
	ml := float64(f.q * dt)
	if ev.exact(s) || ml > f.untilML {
		ml = f.untilML
	}
	share0, slope := s.lost(e.at)
	share := share0 + float64(slope*(dt/2))
	mcg := float64(ml * f.tip)
	switch {
	case s.Removed != Never:
		e.led.spilled += mcg
		e.led.spilledML += ml
	default:
		e.led.into += float64(mcg * share)
		e.led.toBlood += float64(ml * (1 - share))
		e.out.TissueMcg += float64(mcg * share)
		e.out.TissueML += float64(ml * share)
		if share > 0 {
			s.lastFlow = e.at + dt
		}
	}
	s.column.Push(ml, f.inflow)
	if f.pump != nil {
		p := f.pump
		p.tubing.Push(ml, p.bag.True)
		e.led.pumped += float64(ml * p.bag.True)
		e.led.entered += ml
		p.bag.left -= ml
		if s.carried && !s.Central {
			s.hazard += float64(e.hazard(s) * dt)
		}
	} else {
		e.led.entered += ml
		e.out.FlushedMcg += mcg
	}
	return mcg > 0 && share < 1 && s.Removed == Never
}

// hazard is the hazard of leaking per second of running.
func (e *Engine) hazard(s *site) float64 {
	if e.c.Leak.Kind != ByHazard {
		return 0
	}
	v := s.Vein
	v.Punctures += e.failures(s)
	return vein.HazardPerHour(e.c.Leak.PerHour, v, s.Share) / 3600
}

// failures is how many tries in that vein failed before this cannula.
func (e *Engine) failures(s *site) int {
	n := 0
	for _, r := range e.records[:s.record] {
		if r.Subject == s.Subject && r.Placed == Never {
			n++
		}
	}
	return n
}

// stepDepot moves the tissue around a site and notes what came to be seen.
func (e *Engine) stepDepot(s *site, dt float64) {
	d := s.depot
	feed := e.feed(s)
	before := d.State
	after := before.Step(dt, feed, d.raised)
	e.led.takenUp += after.TakenUpMcg - before.TakenUpMcg
	e.led.broken += after.BrokenMcg - before.BrokenMcg
	e.led.toBlood += after.TakenUpML - before.TakenUpML
	e.ischaemic(s, dt, after)
	if w := after.WidthMM(); w > e.out.WidestMM {
		e.out.WidestMM = w
	}
	for _, sign := range tissue.Signs() {
		// What the antidote's own volume brings is no sign of the leak.
		if d.seen[sign] || before.A > 0 || !after.Shows(sign, s.Vein.DepthMM, e.c.Patient.Tells) {
			continue
		}
		d.seen[sign] = true
		low, high := 0.0, dt
		for high-low > 1 {
			mid := (low + high) / 2
			if before.Step(mid, feed, d.raised).Shows(sign, s.Vein.DepthMM, e.c.Patient.Tells) {
				high = mid
			} else {
				low = mid
			}
		}
		e.sighted(s, sign, FromSeconds(e.at+high))
	}
	d.State = after
}

// ischaemic adds the time that the core of the depot was short of blood.
func (e *Engine) ischaemic(s *site, dt float64, after tissue.State) {
	d := s.depot
	short := d.Perfusion() < tissue.IschaemicUnder
	shortAfter := after.Perfusion() < tissue.IschaemicUnder
	if short == shortAfter {
		if short {
			e.out.IschaemicS += dt
		}
		return
	}
	feed := e.feed(s)
	low, high := 0.0, dt
	for range 30 {
		mid := (low + high) / 2
		if (d.Step(mid, feed, d.raised).Perfusion() < tissue.IschaemicUnder) == short {
			low = mid
		} else {
			high = mid
		}
	}
	if short {
		e.out.IschaemicS += high
	} else {
		e.out.IschaemicS += dt - high
	}
}

// closeDepot books what little is left and forgets the depot.
func (e *Engine) closeDepot(s *site) {
	e.led.broken += s.depot.M
	e.led.toBlood += s.depot.V
	s.depot = nil
}

// watchPressure adds the time and area under and over the target over the
// next dt seconds.
func (e *Engine) watchPressure(dt float64, in circulation.Input) {
	if e.out.FirstDrug == Never {
		return
	}
	mean := func(s float64) float64 {
		return e.untreated(e.at+s) + e.blood.After(s, in, e.body).Rise()
	}
	pieces := math.Ceil(dt / scan)
	from, low := 0.0, mean(0)
	for i := 1.0; i <= pieces; i++ {
		to := float64(dt*i) / pieces
		high := mean(to)
		e.under(from, to, low, high, mean)
		from, low = to, high
	}
}

// under splits a stretch at the target and books its parts.
func (e *Engine) under(from, to, atFrom, atTo float64, mean func(float64) float64) {
	for _, limit := range [2]float64{e.c.Order.TargetMmHg, e.c.Order.CeilMmHg} {
		low := limit == e.c.Order.TargetMmHg
		a, b := from, to
		if (atFrom < limit) != (atTo < limit) {
			lo, hi := from, to
			for range 40 {
				mid := (lo + hi) / 2
				if (mean(mid) < limit) == (atFrom < limit) {
					lo = mid
				} else {
					hi = mid
				}
			}
			if (atFrom < limit) == low {
				b = hi
			} else {
				a = hi
			}
		} else if (atFrom < limit) != low {
			continue
		}
		// Simpson over the part that is out of range.
		off := func(s float64) float64 { return math.Abs(mean(s) - limit) }
		area := float64((b-a)/6*(off(a)+float64(4*off((a+b)/2))+off(b))) / 60
		if low {
			e.out.UnderS += b - a
			e.out.UnderArea += area
		} else {
			e.out.OverS += b - a
			e.out.OverArea += area
		}
	}
}
