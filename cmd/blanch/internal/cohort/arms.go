package cohort

import (
	"math"

	"blanch/sim"
	"blanch/sim/tissue"
	"blanch/sim/vein"
)

// Serious is the teaching definition of a serious skin injury: more ischaemic
// minutes than the time after which half of warm pig skin flaps are lost. It
// is a yardstick for comparing, nobody's prognosis.
const Serious = 60 * tissue.FlapHalfH

// checkEvery is how often an attended arm is looked at and felt: every 2 h,
// as several published protocols ask (Yerke 2024; Cardenas-Garcia 2015).
const checkEvery = 2 * sim.Hour

// after is how long an arm is watched after its infusion, so that all of the
// ischaemia is counted.
const after = 24 * sim.Hour

// Arm is what became of an arm whose line leaked.
type Arm struct {
	LeakH     float64 // hours of infusion before the leak began
	RunH      float64 // hours of infusion in all
	Ischaemic float64 // minutes
}

// Arms plays in the engine the leaks among n patients of a cohort, in their
// order. The leak is the line's own: when by the hazard, how fast and how
// much by the same luck as in any case. Attended, the arm is looked at every
// 2 h and a leak found is treated; else nobody looks and the infusion runs
// for as long as it was wanted.
func (p *Preset) Arms(seed uint64, n int, attended bool) ([]Arm, error) {
	type part struct {
		arms []Arm
		err  error
	}
	var out []Arm
	for _, t := range spread(n, func(from, to int) (t part) {
		for i := from; i < to && t.err == nil; i++ {
			pt := p.Patient(seed, i)
			end, hours, nth, last := pt.Hours()
			if end != Leak {
				continue
			}
			_, own := pt.Ended(nth, last)
			var a Arm
			a, t.err = pt.arm(nth, last, own, hours, attended)
			t.arms = append(t.arms, a)
		}
		return t
	}) {
		if t.err != nil {
			return nil, t.err
		}
		out = append(out, t.arms...)
	}
	return out, nil
}

// arm plays the nth line, which leaked after own hours of its running, hours into
// the infusion.
func (pt Patient) arm(nth int, last Placed, own, hours float64, attended bool) (Arm, error) {
	left := pt.RunH - hours // hours the infusion is wanted after the leak began
	// The quiet hours before the leak are left out, whole rounds of looking
	// at a time.
	lead := math.Mod(own, checkEvery.Seconds()/3600)
	overS, to := sim.LeakCourse(pt.Seed, nth)
	fate := sim.Fate{Kind: sim.Placed, Begins: sim.FromSeconds(lead * 3600), Over: sim.FromSeconds(overS), Fraction: to}
	runs := sim.Time((lead + left) * float64(sim.Hour))
	ends := 20*sim.Minute + runs + after
	b, err := newBed(pt.Seed, last.Vein, last.Line.Cannula, last.Line.AngleDeg, fate, vein.Ends{}, ends, slow)
	if err != nil {
		return Arm{}, err
	}
	stop := b.began + runs
	found := false
	for at := b.began + checkEvery; attended && at < stop && !found; at += checkEvery {
		b.Advance(at)
		if found, err = b.look(); err != nil {
			return Arm{}, err
		}
	}
	if found {
		err = b.all("move pump-1 to "+spare, "draw back from "+arm, "draw up 5 mg of phentolamine to 10 mL",
			"infiltrate around "+arm+" with 9 mL of antidote-1", "raise the left arm")
	} else {
		b.Advance(stop)
		err = b.do("stop pump-1")
	}
	if err != nil {
		return Arm{}, err
	}
	b.Advance(ends)
	return Arm{LeakH: hours, RunH: pt.RunH, Ischaemic: b.Result().Outcome.IschaemicS / 60}, nil
}

// injured counts the arms with a serious injury, and those of them whose
// infusion had run for longer than h hours.
func injured(arms []Arm, h float64) (all, longer int) {
	for _, a := range arms {
		if a.Ischaemic > Serious {
			all++
			if a.RunH > h {
				longer++
			}
		}
	}
	return all, longer
}
