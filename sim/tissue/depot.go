// Package tissue is what happens when an infusion runs beside the vein: a
// depot of fluid and drug under the skin, the constriction it causes, the
// blood flow that is left, and what undoes it.
//
//	dV/dt = q - kV e V
//	dM/dt = q c - (kOut (floor + (1 - floor) p) + kV e + kLocal) M      each drug
//	dU/dt = -kV e U        dA/dt = -kAnt A        dB/dt = -kAnt B        dN/dt = (n - N)/tauN
//	C     = M / (V + V0 + w V), likewise for A and B
//	X     = ((sum of C/EC50 over alpha agonists) / (1 + Ca/Ka) + Cv/EC50v) / (1 + Cb/Kb + N)
//	p     = (1 - X^2/(1 + X^2)) (1 - Y^2/(1 + Y^2))      Y = max(0, V + U - pressFrom)/pressSpan
//
// V mL of fluid that leaked, U mL that antidotes came in, M of a drug in its
// base unit, A phentolamine and B terbutaline in mcg, N what nitrate and warmth
// do and n what they come to, q mL/s leaking at c per mL, p the share of normal
// blood flow, e what elevation does to the uptake of fluid. An alpha blocker is a competitive antagonist: it shifts the curve
// of alpha agonists and does not lower it (Gaddum, Schild), and does nothing
// to vasopressin. A beta agonist, nitrate and warmth are functional
// vasodilators: they weaken whatever constricts. The feedback is one-way: the
// depot feeds the blood, and nothing in the blood acts on the depot.
//
// No human curve of harm against dose, time or concentration was found in
// the literature; the values are assumed for teaching (see [Symbols]).
package tissue

import "blanch/sim/drug"

// Most is how many vasopressors one depot can hold.
const Most = 3

// State is one depot at one instant, with the running sums of its books. Once
// it has been stepped, its methods alone alter it.
type State struct {
	V      float64 // mL that leaked
	U      float64 // mL that antidotes came in; it swells, and does not mix with what leaked
	Spread float64 // mL, the most that V has been: what has reached the skin stays there
	A, B   float64 // mcg of phentolamine and of terbutaline
	N      float64 // what nitrate and warmth do now

	Drugs int // how many of M are in use
	M     [Most]float64
	Of    [Most]Agent

	// Sums since the depot began.
	TakenUp   [Most]float64 // into the blood
	Broken    [Most]float64 // in the tissue
	BlockerUp float64       // phentolamine into the blood
	TakenUpML float64       // fluid

	open float64 // Perfusion where a step has worked it out, else 0
}

// Agent is what the tissue must know of a vasopressor.
type Agent struct {
	ID       int // the caller's name for it
	Receptor drug.Receptor
	EC50     float64 // per mL
	KLocal   float64 // 1/s
}

// Slot is where an agent is kept in M, made when there is none yet. When
// every slot is taken by another drug the last is shared: more than Most
// vasopressors through one cannula are not modelled apart.
func (s *State) Slot(a Agent) int {
	for i := range s.Drugs {
		if s.Of[i].ID == a.ID {
			return i
		}
	}
	if s.Drugs < Most {
		s.Of[s.Drugs] = a
		s.Drugs++
	}
	return s.Drugs - 1
}

// Feed is what enters a depot during one step: a flow that changes linearly.
type Feed struct {
	Q0    float64 // mL/s at the start of the step
	Slope float64 // mL/s each second
	Conc  float64 // per mL
	Slot  int     // of the drug in it
}

// Care is what is being done to the limb.
type Care struct {
	Raised  bool
	Nitrate bool // ointment on the skin
	Warm    bool // a warm pack
}

// Fluid is all fluid in the depot, mL.
func (s *State) Fluid() float64 { return s.V + s.U }

// Total is all vasopressor in the depot, in their base units together.
func (s *State) Total() float64 {
	m := 0.0
	for i := range s.Drugs {
		m += s.M[i]
	}
	return m
}

// Conc is a drug's concentration in the depot, per mL.
func (s *State) Conc(slot int) float64 { return s.M[slot] / room(s.V) }

// room is the volume over which what is in the depot is spread.
func room(v float64) float64 { return v + v0 + float64(w*v) }

// Perfusion is the share of normal blood flow that the core of the depot
// has, 0 to 1.
func (s *State) Perfusion() float64 {
	if s.open > 0 {
		return s.open
	}
	return s.perfusion()
}

func (s *State) perfusion() float64 {
	r := room(s.V)
	alpha, v1 := 0.0, 0.0
	for i := range s.Drugs {
		x := s.M[i] / (float64(r * s.Of[i].EC50))
		if s.Of[i].Receptor == drug.V1 {
			v1 += x
		} else {
			alpha += x
		}
	}
	if s.A != 0 {
		alpha /= 1 + s.A/(float64(r*blocker))
	}
	x := alpha + v1
	if s.B != 0 || s.N != 0 {
		x /= 1 + s.B/(float64(r*relaxant)) + s.N
	}
	open := 1 / (1 + float64(x*x))
	if v := s.Fluid(); v > pressFrom {
		y := (v - pressFrom) / pressSpan
		open = float64(open / (1 + float64(y*y)))
	}
	return open
}

// Uptake is the rate at which a drug of the depot reaches the blood, per s.
func (s *State) Uptake(slot int, c Care) float64 {
	return float64((washout(s.Perfusion()) + fluid(c)) * s.M[slot])
}

// BlockerUptake is the rate at which phentolamine reaches the blood, mcg/s.
func (s *State) BlockerUptake() float64 { return float64(kAnt * s.A) }

func washout(p float64) float64 { return float64(kOut * (floor + float64((1-floor)*p))) }

func fluid(c Care) float64 {
	if c.Raised {
		return kV * elevation
	}
	return kV
}

func (c Care) dilates() float64 {
	n := 0.0
	if c.Nitrate {
		n += nitrate
	}
	if c.Warm {
		n += warmth
	}
	return n
}

// rates are the rates of change of a State, and the sums'.
type rates struct {
	v, u, a, b, n, drain float64
	m, up, broken        [Most]float64
}

func (s *State) rates(p, q, conc float64, slot int, kv, n float64, d *rates) {
	wash := washout(p) + kv
	for i := range s.Drugs {
		d.up[i] = float64(wash * s.M[i])
		d.broken[i] = float64(s.Of[i].KLocal * s.M[i])
		d.m[i] = -d.up[i] - d.broken[i]
	}
	if q > 0 && s.Drugs > 0 {
		d.m[slot] += float64(q * conc)
	}
	d.u = float64(kv * s.U)
	out := float64(kv * s.V)
	d.v = q - out
	d.drain = out + d.u
	d.a = float64(kAnt * s.A)
	d.b = float64(kAnt * s.B)
	d.n = (n - s.N) / tauN
}

// on sets what moves to where from is after h of the rates; the sums stay.
func (s *State) on(from *State, d *rates, h float64) {
	s.V = from.V + float64(d.v*h)
	s.U = from.U - float64(d.u*h)
	s.A = from.A - float64(d.a*h)
	s.B = from.B - float64(d.b*h)
	s.N = from.N + float64(d.n*h)
	for i := range s.Drugs {
		s.M[i] = from.M[i] + float64(d.m[i]*h)
	}
}

// add moves the state and its sums by h of its rates.
func (s *State) add(d *rates, h float64) {
	s.on(s, d, h)
	for i := range s.Drugs {
		s.TakenUp[i] += float64(d.up[i] * h)
		s.Broken[i] += float64(d.broken[i] * h)
	}
	s.BlockerUp += float64(d.a * h)
	s.TakenUpML += float64(d.drain * h)
}

// Step is the state h seconds later by one classical Runge-Kutta step of
// fourth order. The books are linear in the rates, so they close exactly.
func (s *State) Step(h float64, f Feed, c Care) State {
	kv, n := fluid(c), c.dilates()
	mid := f.Q0 + float64(f.Slope*(h/2))
	end := f.Q0 + float64(f.Slope*h)
	var k1, k2, k3, k4 rates
	s.rates(s.Perfusion(), f.Q0, f.Conc, f.Slot, kv, n, &k1)
	t := *s
	t.on(s, &k1, h/2)
	t.rates(t.perfusion(), mid, f.Conc, f.Slot, kv, n, &k2)
	t.on(s, &k2, h/2)
	t.rates(t.perfusion(), mid, f.Conc, f.Slot, kv, n, &k3)
	t.on(s, &k3, h)
	t.rates(t.perfusion(), end, f.Conc, f.Slot, kv, n, &k4)
	t = *s
	t.add(&k1, h/6)
	t.add(&k2, h/3)
	t.add(&k3, h/3)
	t.add(&k4, h/6)
	t.Spread = max(t.Spread, t.V)
	t.open = t.perfusion()
	return t
}

// Grid is the length in seconds of the step that begins age seconds after
// what feeds the depot last changed: fine at first, as a strong drug shuts the
// vessels within seconds, wider by a fixed schedule.
func Grid(age float64) float64 {
	switch {
	case age < 20:
		return 1
	case age < 60:
		return 5
	case age < 1200:
		return 10
	case age < 3600:
		return 20
	}
	return 60
}

// Spent says that so little is left that the depot can be closed and booked.
func (s *State) Spent() bool { return s.Fluid() < spentML && s.Total() < spentDrug && s.A < spentDrug }
