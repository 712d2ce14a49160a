package circulation

import (
	"math"
	"math/rand/v2"
	"testing"

	"blanch/sim/drug"
)

// reference integrates the two equations of the package comment in small
// steps, written apart from the closed form.
func reference(st State, s float64, in Input, b Agent) State {
	const steps = 4000
	h := s / steps
	rate := func(t, a, e float64) (da, de, dq float64) {
		return in.C0 + in.C1*t + in.C2*t*t - b.K*a, ke * (a/b.VolumeL - e), b.K * a
	}
	a, e, q := st.Amount, st.Effect, st.Eliminated
	for i := range steps {
		t := float64(i) * h
		a1, e1, q1 := rate(t, a, e)
		a2, e2, q2 := rate(t+h/2, a+h/2*a1, e+h/2*e1)
		a3, e3, q3 := rate(t+h/2, a+h/2*a2, e+h/2*e2)
		a4, e4, q4 := rate(t+h, a+h*a3, e+h*e3)
		a += h / 6 * (a1 + 2*a2 + 2*a3 + a4)
		e += h / 6 * (e1 + 2*e2 + 2*e3 + e4)
		q += h / 6 * (q1 + 2*q2 + 2*q3 + q4)
	}
	return State{a, e, q}
}

func TestClosedFormAgreesWithIntegration(t *testing.T) {
	rng := rand.New(rand.NewPCG(5, 5))
	for i := range 60 {
		b := Agent{K: 0.0005 + 0.01*rng.Float64(), VolumeL: 5 + 10*rng.Float64()}
		if i%10 == 0 {
			b.K = ke * (1 + 1e-9*float64(i)) // where the two rates meet
		}
		st := State{Amount: 50 * rng.Float64(), Effect: 10 * rng.Float64(), Eliminated: rng.Float64()}
		in := Input{0.1 * rng.Float64(), 1e-4 * (rng.Float64() - 0.5), 1e-7 * (rng.Float64() - 0.5)}
		s := 1 + 900*rng.Float64()
		got, want := st.After(s, in, b), reference(st, s, in, b)
		for _, pair := range [][2]float64{{got.Amount, want.Amount}, {got.Effect, want.Effect}, {got.Eliminated, want.Eliminated}} {
			if math.Abs(pair[0]-pair[1]) > 1e-8*math.Max(1, math.Abs(pair[1])) {
				t.Fatalf("after %v s of %+v in %+v: %+v, integrated %+v", s, in, b, got, want)
			}
		}
	}
}

// What goes in is in the blood or eliminated.
func TestBloodBalances(t *testing.T) {
	b := Agent{K: 0.003, VolumeL: 8.7}
	in := Through(0.05, 0.02, 1.9, 60)
	st := State{Amount: 3}
	got := st.After(60, in, b)
	if off := st.Amount + in.Total(60) - got.Amount - got.Eliminated; math.Abs(off) > 1e-12 {
		t.Errorf("off by %v", off)
	}
	if math.Abs(in.Total(60)-1.9) > 1e-12 {
		t.Errorf("the quadratic holds %v, wanted 1.9", in.Total(60))
	}
	if math.Abs(in.C0+60*in.C1+3600*in.C2-0.02) > 1e-12 {
		t.Error("the quadratic misses its end")
	}
}

// Over half a picosecond the rounding of a total is no curve: the blood stays
// where it was.
func TestStretchTooShortForACurve(t *testing.T) {
	b := Agent{K: 0.003, VolumeL: 8.7}
	st := State{Amount: 17, Effect: 2}
	const s = 4.5e-13
	got := st.After(s, Through(0.01, 0.011, 0.0105*s+1e-15, s), b)
	if math.Abs(got.Amount-17) > 1e-9 || math.Abs(got.Effect-2) > 1e-9 {
		t.Errorf("%+v became %+v", st, got)
	}
}

// A steady norepinephrine infusion comes to dose / clearance: 3.0 L/min at
// SAPS II 20 (Beloeil 2005, Br J Anaesth 95:782), so 6 mcg/min settles at
// 2 mcg/L, half of it within one published half-life of 2.0 min.
func TestSteadyState(t *testing.T) {
	d, _ := drug.Named("norepinephrine")
	b := Of(d, 20, 70)
	st := State{}.After(3600, Input{C0: 6.0 / 60}, b)
	if got := st.Amount / d.VolumeL; math.Abs(got-2) > 0.02 {
		t.Errorf("settles at %v mcg/L", got)
	}
	half := State{}.After(2.0*60, Input{C0: 6.0 / 60}, b).Amount / d.VolumeL
	if math.Abs(half-1) > 0.05 {
		t.Errorf("after 2.0 min %v mcg/L", half)
	}
	if a := Answered([]Agent{b}, []float64{st.Effect}); a.Rise <= 0 || a.Rise >= emax || a.Beta != 0 {
		t.Errorf("answers with %+v", a)
	}
}

// settled is the answer to a steady infusion of doses per minute.
func settled(t *testing.T, doses map[string]float64) Answer {
	t.Helper()
	var agents []Agent
	var effects []float64
	for _, name := range drug.Names() {
		d, _ := drug.Named(name)
		if d.VolumeL == 0 {
			continue
		}
		a := Of(d, 40, 70)
		agents = append(agents, a)
		effects = append(effects, State{}.After(4*3600, Input{C0: doses[name] / 60}, a).Effect)
	}
	return Answered(agents, effects)
}

// Label doses do what labels say they are for: raise the pressure, none by
// more than can be survived. Doses for 70 kg from the American labels; the
// rises are assumed.
func TestLabelDosesRaiseThePressure(t *testing.T) {
	for name, dose := range map[string]float64{
		"norepinephrine": 10, "epinephrine": 7, "phenylephrine": 70, "dopamine": 700, "vasopressin": 0.03,
	} {
		a := settled(t, map[string]float64{name: dose})
		if a.Rise < 6 || a.Rise > 30 {
			t.Errorf("%v/min of %s raises the mean pressure by %.1f mmHg", dose, name, a.Rise)
		}
		if beta := name == "epinephrine" || name == "dopamine"; beta != (a.Beta > 0.2) {
			t.Errorf("%s has a beta effect of %.2f", name, a.Beta)
		}
	}
}

// An alpha blocker undoes an alpha agonist and not vasopressin (American
// vasopressin label, older text: not antagonised by adrenergic blockers).
func TestAlphaBlockerLeavesVasopressin(t *testing.T) {
	for name, dose := range map[string]float64{"norepinephrine": 10, "vasopressin": 0.03} {
		alone := settled(t, map[string]float64{name: dose}).Rise
		blocked := settled(t, map[string]float64{name: dose, "phentolamine": 1500}).Rise
		if name == "vasopressin" && blocked != alone {
			t.Errorf("vasopressin: %v alone, %v blocked", alone, blocked)
		}
		if name == "norepinephrine" && blocked > 0.7*alone {
			t.Errorf("norepinephrine: %v alone, %v blocked", alone, blocked)
		}
	}
}

// Pure constrictors slow the heart, a beta effect quickens it; the mean lies
// between diastolic and systolic.
func TestHeart(t *testing.T) {
	if r := settled(t, map[string]float64{"phenylephrine": 70}).Rate(100); r >= 100 {
		t.Errorf("phenylephrine brings the heart from 100 to %v", r)
	}
	a := settled(t, map[string]float64{"epinephrine": 7})
	if r := a.Rate(100); r <= 100 {
		t.Errorf("epinephrine brings the heart from 100 to %v", r)
	}
	sys, dia := a.Pulse(65, 40)
	if mean := dia + (sys-dia)/3; math.Abs(mean-65) > 1e-9 || sys-dia <= 40 {
		t.Errorf("%v over %v around 65", sys, dia)
	}
}

// What Effect does not work out changes no bit of it.
func TestEffectIsThatOfAfter(t *testing.T) {
	for _, name := range drug.Names() {
		d, _ := drug.Named(name)
		if d.VolumeL == 0 {
			continue
		}
		for _, in := range []Input{{}, {C0: 0.05}, {C0: 0.1, C1: -1e-6}, {C0: 1e-9}, {C0: 0.2, C1: 1e-5, C2: 1e-9}} {
			for _, st := range []State{{}, {Amount: 3, Effect: 0.2}, {Amount: 1e-7, Effect: 4}, {Amount: 500, Effect: 1e-12}} {
				a := Of(d, 44, 58)
				c := st.Under(in, &a)
				for s := 0.0; s < 24*3600; s += 7.3 + s/50 {
					if got, want := c.Effect(s), c.After(s).Effect; got != want {
						t.Fatalf("%s, %+v, %+v after %v s: %v, not %v", name, st, in, s, got, want)
					}
				}
			}
		}
	}
}

// A steady course never leaves its band again, and ends where the band does.
func TestBandHoldsTheEffect(t *testing.T) {
	rng := rand.New(rand.NewPCG(6, 6))
	for i := range 200 {
		b := Agent{K: 0.0005 + 0.02*rng.Float64(), VolumeL: 5 + 10*rng.Float64()}
		if i%10 == 0 {
			b.K = ke * (1 + 1e-9*float64(i))
		}
		c := State{Amount: 50 * rng.Float64(), Effect: 10 * rng.Float64()}.Under(Input{C0: 0.3 * rng.Float64()}, &b)
		if !c.Steady() {
			t.Fatal("an input that does not change is not steady")
		}
		for from := 0.0; from < 2e4; from = 1.5*from + 1 {
			p := b.Pace(from)
			low, high := c.BandAt(&p)
			for s := from; s < from+2000; s += 3.7 {
				if e := c.Effect(s); e < low-1e-12 || e > high+1e-12 {
					t.Fatalf("%+v: %v after %v s is outside %v to %v, which should hold from %v s on", c, e, s, low, high, from)
				}
			}
		}
		p := b.Pace(1e6)
		if low, high := c.BandAt(&p); high-low > 1e-12 || math.Abs(high-c.Effect(1e6)) > 1e-12 {
			t.Errorf("%+v: in the end between %v and %v, not %v", c, low, high, c.Effect(1e6))
		}
	}
	moving := State{}.Under(Input{C0: 0.1, C1: 1e-6}, &Agent{K: 0.005, VolumeL: 9})
	if moving.Steady() {
		t.Error("an input that grows is steady")
	}
}
