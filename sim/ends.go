package sim

import (
	"blanch/sim/luck"
	"blanch/sim/vein"
)

const (
	// squeeze is how long a cuff keeps the veins beyond it shut (A).
	squeeze = 30 * Second
	// pressML is what tubing and set take up before a pump notices that
	// nothing goes through (P: 1.2 to 2.8 microL/mmHg at 300 mmHg, Snijder 2015,
	// syringe pumps; A for others).
	pressML = 0.45
)

// kinks is the chance that a blockage is a kink, which straightening the arm
// undoes, and not a clot (A).
func kinks(s vein.Site) float64 {
	if s == vein.Fossa || s == vein.Wrist {
		return kinksAtJoint
	}
	return kinksElsewhere
}

// names of the ends, for luck. The luck of leaking keeps its name for ever.
var endNames = [nEnds]string{"leak", "occlusion", "phlebitis", "dislodging"}

// draw decides how much hazard a line bears before one of its ends comes.
func (e *Engine) draw(s *site, kind end) {
	w := &s.wear[kind]
	subject := ""
	if w.draws > 0 {
		subject = s.Subject // a blockage that was undone comes again by luck of its own
	}
	w.draws++
	w.limit, w.hazard, w.came = luck.Exponential(e.seed, endNames[kind], subject, s.nth+1000*(w.draws-1)), 0, Never
}

// weigh brings the hazards of a line into line with what surrounds it.
func (e *Engine) weigh(s *site) {
	if s.Central {
		return
	}
	base := e.c.Wear
	base.Leak = 0
	if e.c.Leak.Kind == ByHazard {
		base.Leak = e.c.Leak.PerHour
	}
	if base == (vein.Ends{}) {
		return
	}
	around := vein.Around{
		Cuff:       e.cuff == s.Side && s.Vein.Site != vein.Neck,
		Tourniquet: e.arm(s.Side).tied,
		Restless:   e.c.Patient.Restless,
	}
	try := 0
	for _, r := range e.records[:s.record] {
		if r.Subject != s.Subject {
			continue
		}
		try++
		if r.Placed == Never {
			if luck.Uniform(e.seed, "hole", s.Subject, try) < holeProximal {
				around.Proximal++
			} else {
				around.Distal++
			}
		}
	}
	h := vein.Hazards(base, s.Vein, s.Share, around)
	for i, perHour := range [nEnds]float64{h.Leak, h.Occlusion, h.Phlebitis, h.Dislodging} {
		s.wear[i].rate = perHour / 3600
	}
}

// endEvents considers when the ends of a running line would come.
func (e *Engine) endEvents(s *site, consider func(event)) {
	for i := range s.wear {
		w := &s.wear[i]
		if w.rate > 0 && w.came == Never && !(end(i) == endLeak && s.leaking) {
			consider(event{t: e.at + max(0, w.limit-w.hazard)/w.rate, rank: 2, what: ended, site: s, end: end(i)})
		}
	}
	if e.c.Leak.Kind == Placed && !e.placed && !s.leaking && e.c.Leak.concerns(s.pump.bag) && e.c.Leak.at(s.Subject) {
		consider(event{t: max(e.at, e.firstRun+e.c.Leak.Begins.Seconds()), rank: 2, what: leakPlaced, site: s})
	}
}

// at says that a placed leak can come to a line in this vein.
func (f *Fate) at(vein string) bool { return f.Vein == "" || f.Vein == vein }

// concerns says that a placed leak waits for what this bag holds.
func (f *Fate) concerns(b *bagState) bool {
	return b.vasopressor() && (f.Drug == "" || f.Drug == b.Drug)
}

// comes is one of its ends coming upon a line at t seconds.
func (e *Engine) comes(s *site, kind end, t float64) {
	w := &s.wear[kind]
	at := FromSeconds(t)
	w.hazard, w.came = w.limit, at
	switch kind {
	case endLeak:
		over, to := LeakCourse(e.seed, s.nth)
		e.leak(s, t, over, to)
		return
	case endOcclusion:
		s.kinked = luck.Uniform(e.seed, "kink", "", s.nth) < kinks(s.Vein.Site)
	case endDislodging:
		s.Removed = at
		e.records[s.record].Removed = at
	}
	e.note(Entry{At: at, Kind: Hidden, Subject: s.Subject, What: endWords[kind]})
}

// How leaks by hazard come about (A).
const (
	suddenLeaks    = 1.0 / 3 // share that is there at once
	leakOverLeast  = 5.0     // min over which the others come on
	leakOverMost   = 40.0
	leakShareLeast = 0.4 // of the flow, at the end
)

// LeakCourse is how a leak by hazard of the n-th cannula that carries a
// vasopressor comes about: over how many seconds, to which share of the flow.
func LeakCourse(seed uint64, nth int) (overS, to float64) {
	if luck.Uniform(seed, "leak-sudden", "", nth) > suddenLeaks {
		overS = float64(luck.Between(seed, "leak-over", "", nth, leakOverLeast, leakOverMost) * 60)
	}
	return overS, luck.Between(seed, "leak-share", "", nth, leakShareLeast, 1)
}

var endWords = [nEnds]string{"leak begins", "the cannula is blocked", "the vein is inflamed", "the cannula slipped out"}

// cuffMatters says that the cuff's next cycle will squeeze an arm that an
// infusion runs into.
func (e *Engine) cuffMatters() bool {
	for _, s := range e.sites {
		if e.squeezed(s) && s.pump != nil && s.pump.running {
			return true
		}
	}
	return false
}

func (e *Engine) squeezed(s *site) bool {
	return !s.Central && s.Side == e.cuff && s.Vein.Site != vein.Neck
}

// inflate shuts the veins of the arm that the cuff is on.
func (e *Engine) inflate(at Time) {
	e.change(at)
	e.squeezes = true
	for _, s := range e.sites {
		s.cuffed = e.squeezed(s)
	}
	e.settle(at)
}

// deflate opens them again.
func (e *Engine) deflate(at Time) {
	if !e.squeezes {
		return
	}
	e.change(at)
	e.squeezes = false
	for _, s := range e.sites {
		s.cuffed = false
	}
	e.settle(at)
}
