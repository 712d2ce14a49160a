// Package tissue is what happens when an infusion runs beside the vein: a
// depot of fluid and drug under the skin, the constriction it causes, the
// blood flow that is left, and what an antidote does to it.
//
//	dV/dt = q - kV e V
//	dM/dt = q c - (kOut (floor + (1 - floor) p) + kV e + kLocal) M
//	dA/dt = -kAnt A
//	C     = M / (V + V0 + w V)
//	p     = (1 - C^2/(C^2 + E^2)) (1 - s(V)),  E = EC50 (1 + (A/(V+V0+wV))/K)
//
// V mL of fluid, M mcg of drug, A mcg of antidote, q mL/s leaking at c
// mcg/mL, p the share of normal blood flow, e what elevation does to the
// uptake of fluid. The antidote is a competitive antagonist: it shifts the
// curve and does not lower it (Gaddum, Schild). The feedback is one-way:
// the depot feeds the blood, and nothing in the blood acts on the depot.
//
// No human curve of harm against dose, time or concentration was found in
// the literature; the values are assumed for teaching (see [Symbols]).
package tissue

// State is one depot at one instant, with the running sums of its books.
type State struct {
	V, M, A float64 // mL, mcg of drug, mcg of antidote
	Spread  float64 // mL, the most that V has been: what has reached the skin stays there

	TakenUpMcg float64 // into the blood since the depot began
	BrokenMcg  float64 // broken down in the tissue
	TakenUpML  float64 // fluid taken up
}

// Feed is what enters a depot during one step: a flow that changes linearly.
type Feed struct {
	Q0    float64 // mL/s at the start of the step
	Slope float64 // mL/s each second
	Conc  float64 // mcg/mL
}

// Raised says whether the limb is elevated.
type Raised bool

// Conc is the drug's concentration in the depot, mcg/mL.
func (s State) Conc() float64 { return s.M / room(s.V) }

// room is the volume over which what is in the depot is spread.
func room(v float64) float64 { return v + v0 + float64(w*v) }

// Perfusion is the share of normal blood flow that the core of the depot
// has, 0 to 1.
func (s State) Perfusion() float64 { return perfusion(s.V, s.M, s.A) }

func perfusion(v, m, a float64) float64 {
	r := room(v)
	c := m / r
	e := float64(ec50 * (1 + a/r/antagonist))
	c2 := float64(c * c)
	open := 1 - c2/(c2+float64(e*e))
	if v > pressFrom {
		x := (v - pressFrom) / pressSpan
		x2 := float64(x * x)
		open = float64(open * (1 - x2/(1+x2)))
	}
	return open
}

// UptakeMcgS is the rate at which the depot's drug reaches the blood.
func (s State) UptakeMcgS(r Raised) float64 {
	return float64((washout(s.Perfusion()) + fluid(r)) * s.M)
}

func washout(p float64) float64 { return float64(kOut * (floor + float64((1-floor)*p))) }

func fluid(r Raised) float64 {
	if r {
		return kV * elevation
	}
	return kV
}

// slope is the rate of change of a State.
func slope(s State, q, c, kv float64) State {
	up := float64((washout(perfusion(s.V, s.M, s.A)) + kv) * s.M)
	broken := float64(kLocal * s.M)
	drain := float64(kv * s.V)
	return State{
		V:          q - drain,
		M:          float64(q*c) - up - broken,
		A:          -float64(kAnt * s.A),
		TakenUpMcg: up,
		BrokenMcg:  broken,
		TakenUpML:  drain,
	}
}

func (s State) plus(d State, h float64) State {
	s.V += float64(d.V * h)
	s.M += float64(d.M * h)
	s.A += float64(d.A * h)
	s.TakenUpMcg += float64(d.TakenUpMcg * h)
	s.BrokenMcg += float64(d.BrokenMcg * h)
	s.TakenUpML += float64(d.TakenUpML * h)
	return s
}

// Step is the state h seconds later by one classical Runge-Kutta step of
// fourth order. The books are linear in the rates, so they close exactly.
func (s State) Step(h float64, f Feed, r Raised) State {
	kv := fluid(r)
	mid := f.Q0 + float64(f.Slope*(h/2))
	end := f.Q0 + float64(f.Slope*h)
	k1 := slope(s, f.Q0, f.Conc, kv)
	k2 := slope(s.plus(k1, h/2), mid, f.Conc, kv)
	k3 := slope(s.plus(k2, h/2), mid, f.Conc, kv)
	k4 := slope(s.plus(k3, h), end, f.Conc, kv)
	s = s.plus(k1, h/6)
	s = s.plus(k2, h/3)
	s = s.plus(k3, h/3)
	s = s.plus(k4, h/6)
	s.Spread = max(s.Spread, s.V)
	return s
}

// Grid is the length in seconds of the step that begins age seconds after
// the depot did: fine at first, wider by a fixed schedule.
func Grid(age float64) float64 {
	switch {
	case age < 20*60:
		return 10
	case age < 60*60:
		return 20
	default:
		return 60
	}
}

// Spent says that so little is left that the depot can be closed and booked.
func (s State) Spent() bool { return s.M < spentMcg && s.V < spentML }
