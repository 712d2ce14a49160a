package line

import (
	"math"
	"math/rand/v2"
	"testing"
)

// Plug flow: the first drug leaves when the dead volume has passed, and as
// much fluid leaves as enters (common practice: delay = dead volume / flow).
func TestFrontArrivesAfterDeadVolume(t *testing.T) {
	c := NewColumn(1, 0)
	passed := 0.0
	for c.Out(16) == 0 {
		ml := min(0.01, c.UntilFront(16))
		c.Push(ml, 16)
		passed += ml
	}
	if math.Abs(passed-1) > 1e-9 {
		t.Errorf("drug left after %v mL of a dead volume of 1 mL", passed)
	}
}

// Whatever is pushed through in whatever order, drug in = drug out + drug held.
func TestColumnsKeepTheirDrug(t *testing.T) {
	rng := rand.New(rand.NewPCG(1, 2))
	for range 200 {
		dead := rng.Float64() * 3
		c := NewColumn(dead, 0)
		in, out := 0.0, 0.0
		for range 50 {
			conc := float64(rng.IntN(3)) * 8
			ml := rng.Float64()
			in += ml * conc
			out += c.Draw(ml, conc)
			if rng.IntN(10) == 0 {
				out += c.ReplaceFar(dead/2, 4)
				in += dead / 2 * 4
			}
			if math.Abs(c.DeadML()-dead) > 1e-9 {
				t.Fatalf("dead volume %v became %v", dead, c.DeadML())
			}
		}
		if math.Abs(in-out-c.Mcg()) > 1e-9*max(1, in) {
			t.Fatalf("in %v, out %v, held %v", in, out, c.Mcg())
		}
		out += c.Fill(0)
		if c.Mcg() != 0 || math.Abs(in-out) > 1e-9*max(1, in) {
			t.Fatalf("after emptying: in %v, out %v", in, out)
		}
	}
}

func TestColumnWithoutVolumePassesAtOnce(t *testing.T) {
	c := NewColumn(0, 0)
	if c.Out(16) != 16 || !math.IsInf(c.UntilFront(16), 1) {
		t.Error("a tube without volume holds fluid back")
	}
	c.Push(1, 16)
	if c.Mcg() != 0 {
		t.Error("a tube without volume holds drug")
	}
}
