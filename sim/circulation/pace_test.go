package circulation

import (
	"testing"

	"blanch/sim/drug"
)

// What courses share changes no bit of them, in whatever order it is asked.
func TestPaceIsShared(t *testing.T) {
	for _, name := range drug.Names() {
		d, _ := drug.Named(name)
		if d.VolumeL == 0 {
			continue
		}
		a := Of(d, 44, 58)
		for _, s := range []float64{1e-3, 1, 10, 30, 60, 3600, 1e5} {
			p := a.Pace(s)
			for _, st := range []State{{Amount: 3, Effect: 0.2}, {Amount: 1e-7, Effect: 4, Eliminated: 9}} {
				c := st.Under(Input{C0: 0.2, C1: 1e-5, C2: 1e-9}, &a)
				if got, want := c.EffectAt(&p), c.Effect(s); got != want {
					t.Errorf("%s after %v s: effect %v, not %v", name, s, got, want)
				}
				for range 2 {
					if got, want := c.AfterAt(&p), c.After(s); got != want {
						t.Errorf("%s after %v s: %+v, not %+v", name, s, got, want)
					}
				}
			}
		}
	}
}
