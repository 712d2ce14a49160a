// Package circulation is what a vasopressor does once it is in the blood:
// one compartment that clears it, an effect site that lags behind, and a
// pressure that answers to the effect site.
//
//	dA/dt = in(t) - k A             k = clearance / volume
//	dE/dt = ke (A/volume - E)
//	MAP   = untreated(t) + Emax E/(E50 + E)
//
// A mcg in the blood, E ng/mL at the effect site (1 ng/mL is 1 mcg/L).
// Between events the input is a quadratic in time, so both have a closed
// form and any instant can be read exactly.
package circulation

import (
	"blanch/sim/portable"
	"blanch/sim/symbol"
)

// Body is what the model must know of one patient and one drug.
type Body struct {
	K       float64 // 1/s, clearance over volume
	VolumeL float64
}

const (
	ke   = 0.0115 // 1/s, half of the lag in about 1 min
	emax = 60.0   // mmHg
	e50  = 10.0   // ng/mL
)

// Symbols states every parameter of this package.
func Symbols() []symbol.Symbol {
	return []symbol.Symbol{
		{Name: "ke", Unit: "1/min", Value: ke * 60, Low: 0.35, High: 1.4, Why: "lag of the pressure behind the blood, half in about 1 min; the effect ends 1 to 2 min after stopping (Swiss and Asian norepinephrine labels, second-hand)"},
		{Name: "Emax", Unit: "mm[Hg]", Value: emax, Low: 40, High: 90, Why: "greatest rise in mean pressure; no adult value was found"},
		{Name: "E50", Unit: "ng/mL", Value: e50, Low: 5, High: 20, Why: "concentration at half of that rise; chosen so that 0.05 mcg/kg/min raises the pressure by about 10 mmHg, from memory"},
	}
}

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
// stretch of s seconds and the integral total over it.
func Through(from, to, total, s float64) Input {
	mean := total / s
	c2 := (float64(3*(from+to)) - float64(6*mean)) / s / s
	c1 := (to-from)/s - float64(c2*s)
	return Input{from, c1, c2}
}

// State is drug in the blood and at the effect site at one instant.
type State struct {
	Mcg           float64
	Effect        float64 // ng/mL
	EliminatedMcg float64 // running sum
}

// After is the state s seconds later under the input.
func (st State) After(s float64, in Input, b Body) State {
	k := b.K
	p2 := in.C2 / k
	p1 := (in.C1 - float64(2*p2)) / k
	p0 := (in.C0 - p1) / k
	rest := st.Mcg - p0
	decay := portable.Exp(-float64(k * s))

	q2 := p2 / b.VolumeL
	q1 := p1/b.VolumeL - float64(2*q2)/ke
	q0 := p0/b.VolumeL - q1/ke
	lag := portable.Exp(-float64(ke * s))
	// (exp(-k s) - exp(-ke s)) / (ke - k), also where the two rates meet.
	between := float64(float64(decay*s) * portable.OneMinusExpOver(float64((ke-k)*s)))

	return State{
		Mcg: poly(p0, p1, p2, s) + float64(rest*decay),
		Effect: poly(q0, q1, q2, s) + float64(float64(ke*rest)/b.VolumeL*between) +
			float64((st.Effect-q0)*lag),
		EliminatedMcg: st.EliminatedMcg + float64(k*(integral(p0, p1, p2, s)+
			float64(float64(rest*s)*portable.OneMinusExpOver(float64(k*s))))),
	}
}

// Rise is what the effect adds to the mean pressure, mmHg.
func (st State) Rise() float64 {
	if st.Effect <= 0 {
		return 0
	}
	return float64(emax*st.Effect) / (e50 + st.Effect)
}

func poly(a, b, c, s float64) float64 { return a + float64(s*(b+float64(s*c))) }

func integral(a, b, c, s float64) float64 {
	return float64(s * (a + float64(s*(b/2+float64(s*c)/3))))
}
