package sim

import "blanch/sim/tissue"

// stepDepot moves the tissue around a site to t and notes what came to be
// seen.
func (e *Engine) stepDepot(s *site, t float64) {
	d := s.depot
	before, after := d.State, *e.stepTo(s, t)
	for i := range after.Drugs {
		l := &e.led.drugs[after.Of[i].ID]
		up := after.TakenUp[i] - before.TakenUp[i]
		l.takenUp += up
		if after.Of[i].ID == e.ordered {
			e.out.ReachedMcg += up
		}
		l.broken += after.Broken[i] - before.Broken[i]
	}
	e.led.toBlood += after.TakenUpML - before.TakenUpML
	e.ischaemic(s, t, &after)
	if w := after.LeakMM(); w > e.out.WidestMM {
		e.out.WidestMM = w
	}
	e.notice(s, t, &after)
	d.State = after
}

// sightedTo is how closely in seconds the first instant of a sign is located.
const sightedTo = 0.05

// notice records the signs that a look could have found from some instant
// before t. What the antidote's own volume brings is no sign of the leak.
func (e *Engine) notice(s *site, t float64, after *tissue.State) {
	d := s.depot
	if d.A > 0 || d.B > 0 {
		return
	}
	for i, sign := range tissue.Signs() {
		if d.seen.has(i) || !after.Shows(sign, s.Vein.DepthMM, e.c.Patient.Tells) {
			continue
		}
		d.seen.add(i)
		low, high := 0.0, t-e.at
		for high-low > sightedTo {
			mid := (low + high) / 2
			then := d.Step(mid, e.feed(s), e.care(s))
			if then.Shows(sign, s.Vein.DepthMM, e.c.Patient.Tells) {
				high = mid
			} else {
				low = mid
			}
		}
		e.sighted(s, sign, FromSeconds(e.at+high))
	}
}

// ischaemic adds the time that the core of the depot was short of blood.
func (e *Engine) ischaemic(s *site, t float64, after *tissue.State) {
	d, dt := s.depot, t-e.at
	short := d.Perfusion() < tissue.IschaemicUnder
	if short == (after.Perfusion() < tissue.IschaemicUnder) {
		if short {
			e.out.IschaemicS += dt
		}
		return
	}
	low, high := 0.0, dt
	for range 30 {
		mid := (low + high) / 2
		then := d.Step(mid, e.feed(s), e.care(s))
		if (then.Perfusion() < tissue.IschaemicUnder) == short {
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
	for i := range s.depot.Drugs {
		e.led.drugs[s.depot.Of[i].ID].broken += s.depot.M[i]
	}
	e.led.toBlood += s.depot.Fluid()
	s.depot = nil
}
