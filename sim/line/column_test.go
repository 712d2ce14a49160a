package line

import (
	"math"
	"math/rand/v2"
	"testing"
)

// Plug flow: the first drug leaves when the dead volume has passed, and as
// much fluid leaves as enters (common practice: delay = dead volume / flow).
func TestFrontArrivesAfterDeadVolume(t *testing.T) {
	c := NewColumn(1, Saline)
	ne := Fluid{1, 16}
	passed := 0.0
	for c.Out(ne) == Saline {
		ml := min(0.01, c.UntilFront(ne))
		c.Push(ml, ne)
		passed += ml
	}
	if math.Abs(passed-1) > 1e-9 {
		t.Errorf("drug left after %v mL of a dead volume of 1 mL", passed)
	}
}

// Whatever is pushed through in whatever order, each drug in = drug out +
// drug held, and the tube stays full.
func TestColumnsKeepTheirDrug(t *testing.T) {
	rng := rand.New(rand.NewPCG(1, 2))
	for range 200 {
		dead := rng.Float64() * 3
		c := NewColumn(dead, Saline)
		var in, out [3]float64
		leave := func(slugs []Slug) {
			for _, s := range slugs {
				out[s.Drug] += s.ML * s.Conc
			}
		}
		for range 50 {
			f := Fluid{}
			if d := rng.IntN(3); d > 0 {
				f = Fluid{d, float64(1+rng.IntN(3)) * 8}
			}
			ml := rng.Float64()
			in[f.Drug] += ml * f.Conc
			leave(c.Draw(ml, f))
			if rng.IntN(10) == 0 {
				leave(c.ReplaceFar([]Slug{{dead / 2, Fluid{1, 4}}}))
				in[1] += dead / 2 * 4
			}
			if math.Abs(c.DeadML()-dead) > 1e-9 {
				t.Fatalf("dead volume %v became %v", dead, c.DeadML())
			}
		}
		for d := 1; d < 3; d++ {
			if math.Abs(in[d]-out[d]-c.Amount(d)) > 1e-9*max(1, in[d]) {
				t.Fatalf("drug %d: in %v, out %v, held %v", d, in[d], out[d], c.Amount(d))
			}
		}
		leave(c.Fill(Saline))
		for d := 1; d < 3; d++ {
			if c.Amount(d) != 0 || math.Abs(in[d]-out[d]) > 1e-9*max(1, in[d]) {
				t.Fatalf("drug %d after emptying: in %v, out %v", d, in[d], out[d])
			}
		}
	}
}

func TestColumnWithoutVolumePassesAtOnce(t *testing.T) {
	c := NewColumn(0, Saline)
	ne := Fluid{1, 16}
	if c.Out(ne) != ne || !math.IsInf(c.UntilFront(ne), 1) {
		t.Error("a tube without volume holds fluid back")
	}
	c.Push(1, ne)
	if c.Amount(1) != 0 {
		t.Error("a tube without volume holds drug")
	}
}
