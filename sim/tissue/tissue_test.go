package tissue

import (
	"math"
	"testing"
)

// leak is a depot fed at mlH of conc for minutes, then treated and left;
// it gives the ischaemic minutes up to 24 h and the greatest concentration.
type leak struct {
	mlH, conc, minutes float64
	antidoteAt         float64 // min after the start; negative is never
	raisedAt           float64
}

func (l leak) run(t *testing.T) (ischaemic, peak float64) {
	t.Helper()
	var s State
	raised := Raised(false)
	const h = 10.0
	for now := 0.0; now < 24*3600; now += h {
		min := now / 60
		if l.antidoteAt >= 0 && min == l.antidoteAt {
			s.Infiltrate(10, 5000) // 5 mg in 10 mL
		}
		if l.raisedAt >= 0 && min == l.raisedAt {
			raised = true
		}
		var f Feed
		if min < l.minutes {
			f = Feed{Q0: l.mlH / 3600, Conc: l.conc}
		}
		s = s.Step(h, f, raised)
		if s.Perfusion() < IschaemicUnder {
			ischaemic += h / 60
		}
		peak = math.Max(peak, s.Conc())
	}
	return ischaemic, peak
}

func untreated(mlH, conc, minutes float64) leak { return leak{mlH, conc, minutes, -1, -1} }

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
			got, _ := leak{12, 16, minutes, at, -1}.run(t)
			if got < prev-1e-9 {
				t.Errorf("leak of %v min: antidote at %v costs %v, earlier cost %v", minutes, at, got, prev)
			}
			if got > none {
				t.Errorf("leak of %v min: antidote at %v costs %v, none costs %v", minutes, at, got, none)
			}
			prev = got
		}
		up, _ := leak{12, 16, minutes, -1, minutes}.run(t)
		if up > none {
			t.Errorf("elevation costs %v, without it %v", up, none)
		}
	}
}

// The books of a depot close however it is fed and treated.
func TestDepotBalances(t *testing.T) {
	var s State
	in, fluid, drawn, wet := 0.0, 0.0, 0.0, 0.0
	for i := range 500 {
		f := Feed{Q0: 0.003, Slope: 1e-6, Conc: 16}
		if i > 200 {
			f = Feed{}
		}
		h := Grid(float64(i) * 20)
		s = s.Step(h, f, i > 300)
		in += (f.Q0*h + f.Slope*h*h/2) * f.Conc
		fluid += f.Q0*h + f.Slope*h*h/2
		if i == 250 {
			drawn, wet = s.DrawBack(120)
		}
	}
	if off := in - s.M - s.TakenUpMcg - s.BrokenMcg - drawn; math.Abs(off) > 1e-10*in {
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
		s := State{V: 5, M: 80}
		got, _ := s.DrawBack(delay)
		if got >= prev || got <= 0 {
			t.Errorf("after %v s %v mcg, before %v", delay, got, prev)
		}
		prev = got
	}
}

// A deep leak hides from the skin but feels tense before it looks wide.
func TestDepthHides(t *testing.T) {
	s := State{V: 5, M: 60, Spread: 5}
	if !s.Shows(Pale, 3, false) || !s.Shows(Swelling, 3, false) {
		t.Error("a shallow leak of 5 mL does not show")
	}
	if s.Shows(Pale, 14, false) || s.Shows(Swelling, 14, false) {
		t.Error("a leak 14 mm deep shows on the skin at 5 mL")
	}
	if !s.Shows(Tight, 14, false) {
		t.Error("a deep leak of 5 mL does not feel tense")
	}
	if s.Shows(Pain, 3, false) || !s.Shows(Pain, 3, true) {
		t.Error("pain must be told by who can say it")
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
