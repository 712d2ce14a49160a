package cohort

import (
	"math"

	"blanch/sim/luck"
	"blanch/sim/vein"
)

// Patient is one simulated patient of a cohort: a seed, and how long the
// infusion is wanted.
type Patient struct {
	Seed uint64
	RunH float64
	p    *Preset
}

// Patient is the i-th of the cohort with that seed.
func (p *Preset) Patient(seed uint64, i int) Patient {
	own := luck.Bits(seed, "patient", p.Name, i) >> 1
	return Patient{Seed: own, RunH: hours(p.Run, luck.Normal(own, "hours", "", 0)), p: p}
}

// Placed is a line as it came to lie in a patient.
type Placed struct {
	Line *Line
	Vein vein.Vein
	vein.Geometry
}

func (at Placed) technique() vein.Technique {
	if at.Line.Scan {
		return vein.UnderUltrasound
	}
	return vein.ByFeel
}

// Line is the n-th line of the patient, from 1.
func (pt Patient) Line(n int) Placed {
	l := &pt.p.Mix[len(pt.p.Mix)-1]
	u := luck.Uniform(pt.Seed, "line", "", n)
	for i := range pt.p.Mix {
		if u -= pt.p.Mix[i].Share; u < 0 {
			l = &pt.p.Mix[i]
			break
		}
	}
	k, _ := vein.KindNamed(l.Kind)
	if l.WidthMM > 0 {
		k.DiameterMM, k.Least, k.Most = l.WidthMM, l.WidthMM/4, l.WidthMM*4 // as measured, not as in the kind
	}
	if l.WidthSD > 0 {
		k.SD = l.WidthSD
	}
	var at Placed
	for try := range 200 { // veins that do not suit, or that the cannula cannot reach, are passed over
		at = Placed{Line: l, Vein: k.Drawn(luck.Normal(pt.Seed, "width", l.Kind, 1000*n+try), luck.Normal(pt.Seed, "depth", l.Kind, 1000*n+try))}
		at.Geometry = vein.Lie(at.Vein, l.Cannula, l.AngleDeg)
		if at.Vein.DiameterMM >= l.LeastMM && (l.DeepestMM == 0 || at.Vein.DepthMM <= l.DeepestMM) &&
			vein.Success(at.Vein, l.Cannula, l.AngleDeg, at.technique(), false) > 0 {
			break
		}
	}
	return at
}

// End is a way in which a line's use ends.
type End int

// The ends, in the order in which the engine draws them; Wanted is that the
// infusion was no longer needed.
const (
	Leak End = iota
	Occlusion
	Phlebitis
	Dislodging
	Wanted
)

var endLuck = [...]string{"leak", "occlusion", "phlebitis", "dislodging"}

// Ended is when and how the n-th line ends, in hours of its running, if
// nothing stops it before.
func (pt Patient) Ended(n int, at Placed) (End, float64) {
	h := vein.Hazards(pt.p.Base, at.Vein, at.Share, vein.Around{})
	which, when := Wanted, math.Inf(1)
	for i, perHour := range [...]float64{h.Leak, h.Occlusion, h.Phlebitis, h.Dislodging} {
		if perHour <= 0 {
			continue
		}
		if t := luck.Exponential(pt.Seed, endLuck[i], "", n) / perHour; t < when {
			which, when = End(i), t
		}
	}
	return which, when
}

// Hours is the infusion from line to line: a line that ends otherwise than by
// a leak is replaced by another of the mix, until a leak or the end of the
// infusion.
func (pt Patient) Hours() (end End, hours float64, n int, last Placed) {
	for n = 1; ; n++ {
		last = pt.Line(n)
		which, when := pt.Ended(n, last)
		switch {
		case hours+when >= pt.RunH:
			return Wanted, pt.RunH, n, last
		case which == Leak:
			return Leak, hours + when, n, last
		}
		hours += when
	}
}
