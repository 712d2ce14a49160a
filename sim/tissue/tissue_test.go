package tissue

import (
	"math"
	"testing"

	"blanch/sim/drug"
)

// agent is a drug as the tissue sees it.
func agent(t testing.TB, name string) Agent {
	t.Helper()
	d, ok := drug.Named(name)
	if !ok {
		t.Fatal(name)
	}
	return Agent{Receptor: d.Potency.Receptor, EC50: d.Potency.TissueE50, KLocal: d.Potency.KLocal / 60}
}

// leak is a depot fed at mlH of conc for minutes, then treated and left;
// it gives the ischaemic minutes up to 24 h and the greatest concentration.
type leak struct {
	mlH, conc, minutes float64
	antidoteAt         float64 // min after the start; negative is never
	raisedAt           float64
	drug               string // norepinephrine when empty
	with               func(s *State, c *Care)
}

func (l leak) run(t *testing.T) (ischaemic, peak float64) {
	t.Helper()
	var s State
	var care Care
	if l.drug == "" {
		l.drug = "norepinephrine"
	}
	slot := s.Slot(agent(t, l.drug))
	if l.with == nil {
		l.with = func(s *State, _ *Care) { s.Infiltrate(10, 5000, 0) } // 5 mg of phentolamine in 10 mL
	}
	const h = 10.0
	for now := 0.0; now < 24*3600; now += h {
		min := now / 60
		if l.antidoteAt >= 0 && min == l.antidoteAt {
			l.with(&s, &care)
		}
		if l.raisedAt >= 0 && min == l.raisedAt {
			care.Raised = true
		}
		f := Feed{Slot: slot}
		if min < l.minutes {
			f.Q0, f.Conc = l.mlH/3600, l.conc
		}
		s = s.Step(h, f, care)
		if s.Perfusion() < IschaemicUnder {
			ischaemic += h / 60
		}
		peak = math.Max(peak, s.Conc(slot))
	}
	return ischaemic, peak
}

func untreated(mlH, conc, minutes float64) leak {
	return leak{mlH: mlH, conc: conc, minutes: minutes, antidoteAt: -1, raisedAt: -1}
}

// Property: untreated, perfusion comes back in a finite time; one minute of
// leak is not sixty; doubling the mix never multiplies ischaemic time by
// more than three.
func TestUntreatedLeaksEnd(t *testing.T) {
	for _, conc := range []float64{8, 16, 32, 64} {
		base, _ := untreated(12, conc, 30).run(t)
		if base <= 0 || base > 12*60 {
			t.Errorf("%v mcg/mL for 30 min: %v ischaemic minutes", conc, base)
		}
		double, _ := untreated(12, 2*conc, 30).run(t)
		if double < base || double > 3*base {
			t.Errorf("doubling %v mcg/mL: %v then %v minutes", conc, base, double)
		}
	}
	one, _ := untreated(12, 16, 1).run(t)
	sixty, _ := untreated(12, 16, 60).run(t)
	if one > sixty/4 {
		t.Errorf("one minute costs %v, sixty cost %v", one, sixty)
	}
	t.Logf("16 mcg/mL at 12 mL/h: 1, 15, 30, 60 min of leak untreated cost %v", func() (out []float64) {
		for _, m := range []float64{1, 15, 30, 60} {
			v, _ := untreated(12, 16, m).run(t)
			out = append(out, math.Round(v))
		}
		return out
	}())
}

// Property: less leaked, an earlier stop, elevation or an earlier antidote
// never mean more ischaemia; at the same dose a weaker mix never means a
// higher concentration in the tissue.
func TestDirections(t *testing.T) {
	prev := -1.0
	for m := 1.0; m <= 90; m += 4 {
		got, _ := untreated(12, 16, m).run(t)
		if got < prev {
			t.Errorf("stopping at %v min costs %v, earlier cost %v", m, got, prev)
		}
		prev = got
	}
	for _, conc := range []float64{4, 8, 16, 32} {
		_, weak := untreated(192/conc, conc, 40).run(t)
		_, strong := untreated(96/conc, 2*conc, 40).run(t)
		if weak > strong {
			t.Errorf("at the same dose %v mcg/mL reaches %v, twice as strong %v", conc, weak, strong)
		}
	}
	for _, minutes := range []float64{10, 30, 60} {
		none, _ := untreated(12, 16, minutes).run(t)
		prev := 0.0
		for at := minutes; at <= minutes+180; at += 10 {
			got, _ := leak{mlH: 12, conc: 16, minutes: minutes, antidoteAt: at, raisedAt: -1}.run(t)
			if got < prev-1e-9 {
				t.Errorf("leak of %v min: antidote at %v costs %v, earlier cost %v", minutes, at, got, prev)
			}
			if got > none {
				t.Errorf("leak of %v min: antidote at %v costs %v, none costs %v", minutes, at, got, none)
			}
			prev = got
		}
		up, _ := leak{mlH: 12, conc: 16, minutes: minutes, antidoteAt: -1, raisedAt: minutes}.run(t)
		if up > none {
			t.Errorf("elevation costs %v, without it %v", up, none)
		}
	}
}

// The books of a depot close however it is fed and treated.
func TestDepotBalances(t *testing.T) {
	var s State
	s.Slot(agent(t, "norepinephrine"))
	in, fluid, drawn, wet := 0.0, 0.0, 0.0, 0.0
	for i := range 500 {
		f := Feed{Q0: 0.003, Slope: 1e-6, Conc: 16}
		if i > 200 {
			f = Feed{}
		}
		h := Grid(float64(i) * 20)
		s = s.Step(h, f, Care{Raised: i > 300, Warm: i > 320})
		in += (f.Q0*h + f.Slope*h*h/2) * f.Conc
		fluid += f.Q0*h + f.Slope*h*h/2
		if i == 250 {
			drugs, ml := s.DrawBack(120)
			drawn, wet = drugs[0], ml
		}
	}
	if off := in - s.M[0] - s.TakenUp[0] - s.Broken[0] - drawn; math.Abs(off) > 1e-10*in {
		t.Errorf("drug off by %v of %v", off, in)
	}
	if off := fluid - s.V - s.TakenUpML - wet; math.Abs(off) > 1e-10*fluid {
		t.Errorf("fluid off by %v of %v", off, fluid)
	}
	if drawn <= 0 || wet <= 0 {
		t.Error("nothing was drawn back")
	}
}

// Drawing back gets less the longer one waits.
func TestDrawBackFades(t *testing.T) {
	prev := math.Inf(1)
	for delay := 0.0; delay < 3600; delay += 300 {
		s := of(t, 5, 80)
		drugs, _ := s.DrawBack(delay)
		got := drugs[0]
		if got >= prev || got <= 0 {
			t.Errorf("after %v s %v mcg, before %v", delay, got, prev)
		}
		prev = got
	}
}

// A deep leak hides from the skin but feels tense before it looks wide.
func TestDepthHides(t *testing.T) {
	s := of(t, 5, 60)
	if !s.Shows(Pale, 3, false) || !s.Shows(Swelling, 3, false) {
		t.Error("a shallow leak of 5 mL does not show")
	}
	if s.Shows(Pale, 14, false) || s.Shows(Swelling, 14, false) {
		t.Error("a leak 14 mm deep shows on the skin at 5 mL")
	}
	if !s.Shows(Tight, 14, false) {
		t.Error("a deep leak of 5 mL does not feel tense")
	}
	if !s.Stings(3) || s.Stings(14) {
		t.Error("a shallow leak stings in the skin, a deep one does not")
	}
	if s.Shows(Pain, 3, false) || !s.Shows(Pain, 3, true) {
		t.Error("pain must be told by who can say it")
	}
}

// of is a depot of v mL that holds m mcg of norepinephrine.
func of(t testing.TB, v, m float64) State {
	s := State{V: v, Spread: v}
	s.M[s.Slot(agent(t, "norepinephrine"))] = m
	return s
}

// An alpha blocker undoes the catecholamines and phenylephrine and leaves
// vasopressin as it was (American vasopressin label, older text); functional
// vasodilators help whichever drug leaked (Reynolds 2014; case reports).
func TestWhatUndoesWhat(t *testing.T) {
	leaks := map[string]float64{"norepinephrine": 16, "epinephrine": 16, "phenylephrine": 100, "dopamine": 1600, "vasopressin": 0.2}
	for name, conc := range leaks {
		l := untreated(12, conc, 30)
		l.drug = name
		none, _ := l.run(t)
		if none < 30 || none > 24*60-1 {
			t.Errorf("%s: untreated %v ischaemic minutes", name, none)
		}
		l.antidoteAt = 30
		blocked, _ := l.run(t)
		switch {
		case name == "vasopressin" && blocked != none:
			t.Errorf("vasopressin: %v untreated, %v with phentolamine", none, blocked)
		case name != "vasopressin" && blocked > none/2:
			t.Errorf("%s: %v untreated, %v with phentolamine", name, none, blocked)
		}
		for what, with := range map[string]func(*State, *Care){
			"terbutaline": func(s *State, _ *Care) { s.Infiltrate(10, 0, 1000) },
			"nitrate":     func(_ *State, c *Care) { c.Nitrate = true },
			"warmth":      func(_ *State, c *Care) { c.Warm = true },
		} {
			l.with = with
			if got, _ := l.run(t); got >= none {
				t.Errorf("%s: %v untreated, %v with %s", name, none, got, what)
			}
		}
		l.with = nil
	}
}

// Two drugs in one depot each close their own books and add up in effect.
func TestTwoDrugsInOneDepot(t *testing.T) {
	var s State
	ne := agent(t, "norepinephrine")
	v := agent(t, "vasopressin")
	v.ID = 1
	a, b := s.Slot(ne), s.Slot(v)
	if a == b || s.Slot(ne) != a || s.Slot(v) != b {
		t.Fatalf("slots %d and %d", a, b)
	}
	for range 60 {
		s = s.Step(10, Feed{Q0: 0.003, Conc: 16, Slot: a}, Care{})
	}
	alone := s.Perfusion()
	in := [Most]float64{60 * 10 * 0.003 * 16, 60 * 10 * 0.001 * 0.2}
	for range 60 {
		s = s.Step(10, Feed{Q0: 0.001, Conc: 0.2, Slot: b}, Care{})
	}
	for _, i := range []int{a, b} {
		if off := in[i] - s.M[i] - s.TakenUp[i] - s.Broken[i]; math.Abs(off) > 1e-10*in[i] {
			t.Errorf("drug %d off by %v of %v", i, off, in[i])
		}
	}
	only := s
	only.M[b] = 0
	if s.Perfusion() >= only.Perfusion() || alone >= 1 {
		t.Error("the second drug adds nothing")
	}
}

// Every number of the package stands in its table of symbols, inside its
// stated range.
func TestSymbols(t *testing.T) {
	for _, s := range Symbols() {
		if s.Value < s.Low || s.Value > s.High || s.Why == "" || s.Unit == "" {
			t.Errorf("symbol %+v", s)
		}
	}
}
