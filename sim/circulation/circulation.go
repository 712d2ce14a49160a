// Package circulation is what drugs do once they are in the blood: one
// compartment for each that clears it, an effect site that lags behind, and
// a pressure and a heart rate that answer to the effect sites.
//
//	dA/dt = in(t) - k A             k = clearance / volume
//	dE/dt = ke (A/volume - E)
//	X     = (sum of E/E50 over alpha agonists) / (1 + B) + (E/E50 of vasopressin)
//	MAP   = untreated(t) + Emax X/(1 + X)
//
// A in mcg (or units) in the blood, E per litre at the effect site, B an alpha
// blocker's E over the E that doubles what an alpha agonist needs (E/Blocks), a
// ratio without a bound. Between events the input is a quadratic in time, so
// both have a closed form and any instant can be read exactly.
package circulation

import (
	"blanch/sim/drug"
	"blanch/sim/symbol"
)

// Agent is one drug in one patient.
type Agent struct {
	K       float64 // 1/s, clearance over volume
	VolumeL float64
	drug.Potency
}

// Of is a drug in a patient of a severity of illness and a weight.
func Of(d drug.Drug, saps2, kg float64) Agent {
	return Agent{K: d.ClearanceLMin(saps2, kg) / d.VolumeL / 60, VolumeL: d.VolumeL, Potency: d.Potency}
}

const (
	ke       = 0.0115 // 1/s, half of the lag in about 1 min
	emax     = 90.0   // mmHg
	betaMost = 45.0   // beats/min
	reflex   = 0.4    // beats/min for each mmHg of rise
	slowest  = 30.0   // beats/min
	ppRise   = 0.01   // share of pulse pressure for each mmHg of rise
	ppBeta   = 0.5    // share of pulse pressure at the full beta effect
)

// Symbols states every parameter of this package.
func Symbols() []symbol.Symbol {
	return []symbol.Symbol{
		{Name: "ke", Unit: "1/min", Value: ke * 60, Low: 0.35, High: 1.4, Why: "lag of the pressure behind the blood, half in about 1 min; the effect ends 1 to 2 min after stopping (a textbook page, aneskey.com/norepinephrine)"},
		{Name: "Emax", Unit: "mm[Hg]", Value: emax, Low: 60, High: 120, Why: "greatest rise in mean pressure; no adult value was found"},
		{Name: "betaMost", Unit: "1/min", Value: betaMost, Low: 25, High: 70, Why: "greatest rise in heart rate by a beta effect"},
		{Name: "reflex", Unit: "1/min/mm[Hg]", Value: reflex, Low: 0.1, High: 1, Why: "reflex slowing of the heart for each mmHg that the drugs raise the mean pressure"},
		{Name: "slowest", Unit: "1/min", Value: slowest, Low: 25, High: 45, Why: "heart rate under which reflex slowing does not go"},
		{Name: "ppRise", Unit: "1/mm[Hg]", Value: ppRise, Low: 0, High: 0.02, Why: "how much wider the pulse pressure becomes for each mmHg of rise"},
		{Name: "ppBeta", Unit: "1", Value: ppBeta, Low: 0.1, High: 1, Why: "how much wider the pulse pressure becomes at the full beta effect"},
	}
}

// shapeless is a stretch in seconds in which the rounding of a total would
// outweigh the curve of a quadratic through it.
const shapeless = 1e-3

// Input is drug reaching the blood, mcg/s, s seconds after the start of a
// stretch: C0 + C1 s + C2 s^2.
type Input struct{ C0, C1, C2 float64 }

// Plus adds two inputs.
func (in Input) Plus(other Input) Input {
	return Input{in.C0 + other.C0, in.C1 + other.C1, in.C2 + other.C2}
}

// Total is the drug delivered in the first s seconds.
func (in Input) Total(s float64) float64 {
	return float64(s * (in.C0 + float64(s*(in.C1/2+float64(s*in.C2)/3))))
}

// Through is the quadratic with the values from and to at the ends of a
// stretch of s seconds and the integral total over it. Over a stretch too
// short to have a shape it is the mean alone.
func Through(from, to, total, s float64) Input {
	mean := total / s
	if s < shapeless {
		return Input{C0: mean}
	}
	c2 := (float64(3*(from+to)) - float64(6*mean)) / s / s
	c1 := (to-from)/s - float64(c2*s)
	return Input{from, c1, c2}
}

// State is one drug in the blood and at the effect site at one instant, in
// its base unit.
type State struct {
	Amount     float64
	Effect     float64 // per L
	Eliminated float64 // running sum
}

// Still says that there is none of it, so that nothing will change.
func (st State) Still() bool { return st.Amount == 0 && st.Effect == 0 }

// After is the state s seconds later under the input.
func (st State) After(s float64, in Input, b Agent) State {
	c := st.Under(in, &b)
	return c.After(s)
}

// Course is where a state goes under an input, with everything worked out
// that does not depend on how far it is followed. The blood holds
// p0 + p1 s + p2 s^2 and a decaying rest, the effect site likewise.
type Course struct {
	from       State
	k          float64
	p0, p1, p2 float64
	q0, q1, q2 float64
	rest       float64
	passed     float64 // what the rest gives the effect site, per second and L
}

// Under is the course of the state under the input.
func (st State) Under(in Input, b *Agent) Course {
	k := b.K
	p2 := in.C2 / k
	p1 := (in.C1 - float64(2*p2)) / k
	p0 := (in.C0 - p1) / k
	q2 := p2 / b.VolumeL
	q1 := p1/b.VolumeL - float64(2*q2)/ke
	rest := st.Amount - p0
	return Course{
		from: st, k: k,
		p0: p0, p1: p1, p2: p2,
		q0: p0/b.VolumeL - q1/ke, q1: q1, q2: q2,
		rest: rest, passed: float64(ke*rest) / b.VolumeL,
	}
}

// Effect is the effect site s seconds on, per L.
func (c *Course) Effect(s float64) float64 {
	if s == 0 { // as the general form gives it, to the bit
		return c.q0 + (c.from.Effect - c.q0)
	}
	p := paceOf(c.k, s)
	return c.EffectAt(&p)
}

// EffectAt is Effect at the end of a pace of the same agent.
func (c *Course) EffectAt(p *Pace) float64 {
	return poly(c.q0, c.q1, c.q2, p.S) + float64(c.passed*p.between) + float64((c.from.Effect-c.q0)*p.lag)
}

// Steady says that what reaches the blood does not change.
func (c *Course) Steady() bool { return c.p1 == 0 && c.p2 == 0 }

// Fastest is the faster of the two rates at which the course settles, per s.
func (c *Course) Fastest() float64 { return max(c.k, ke) }

// BandAt is what the effect site of a steady course stays within from the end
// of a pace on, per L.
func (c *Course) BandAt(p *Pace) (low, high float64) {
	// With b(s) = (exp(-k s) - exp(-ke s)) / (ke - k), what of the rest has come
	// through, b(s + u) = exp(-k u) b(s) + exp(-ke s) b(u), and b stays under
	// 1 / max(k, ke).
	passed := float64(c.passed * (p.between + p.lag/c.Fastest()))
	own := float64((c.from.Effect - c.q0) * p.lag)
	return c.q0 + min(0, passed) + min(0, own), c.q0 + max(0, passed) + max(0, own)
}

// After is the state s seconds on.
func (c *Course) After(s float64) State {
	p := paceOf(c.k, s)
	return c.AfterAt(&p)
}

// AfterAt is After at the end of a pace of the same agent.
func (c *Course) AfterAt(p *Pace) State {
	return State{
		Amount: poly(c.p0, c.p1, c.p2, p.S) + float64(c.rest*p.decay),
		Effect: c.EffectAt(p),
		Eliminated: c.from.Eliminated + float64(c.k*(integral(c.p0, c.p1, c.p2, p.S)+
			float64(float64(c.rest*p.S)*p.meanDecay(c.k)))),
	}
}

// Answer is what the drugs do to pressure and heart.
type Answer struct {
	Rise float64 // mmHg of mean pressure
	Beta float64 // share of the greatest beta effect, 0 to 1
}

// Answered adds up the drugs at their effect sites, per L.
func Answered(agents []Agent, effects []float64) Answer {
	var alpha, v1, beta, block float64
	for i, e := range effects {
		if e <= 0 {
			continue
		}
		a := &agents[i]
		switch {
		case a.Blocks > 0:
			block += e / a.Blocks
		case a.Receptor == drug.V1:
			v1 += e / a.E50
		default:
			alpha += e / a.E50
		}
		if a.BetaE50 > 0 {
			beta += e / a.BetaE50
		}
	}
	if block > 0 {
		alpha /= 1 + block
	}
	x := alpha + v1
	return Answer{Rise: float64(emax*x) / (1 + x), Beta: beta / (1 + beta)}
}

// Rate is the heart rate in beats/min from what it would be untreated.
func (a Answer) Rate(untreated float64) float64 {
	return max(slowest, untreated+float64(betaMost*a.Beta)-float64(reflex*a.Rise))
}

// Pulse is the systolic and diastolic pressure around a mean, from the pulse
// pressure that the patient would have untreated. The mean lies a third of
// the way up (common practice).
func (a Answer) Pulse(mean, untreatedPP float64) (systolic, diastolic float64) {
	pp := float64(untreatedPP * (1 + float64(ppRise*a.Rise) + float64(ppBeta*a.Beta)))
	return mean + pp*2/3, mean - pp/3
}

func poly(a, b, c, s float64) float64 { return a + float64(s*(b+float64(s*c))) }

func integral(a, b, c, s float64) float64 {
	return float64(s * (a + float64(s*(b/2+float64(s*c)/3))))
}
