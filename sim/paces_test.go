package sim

import "testing"

// A pace that is kept is the one that would be worked out, also when more
// lengths are asked for than are kept.
func TestPacesAreTheirOwn(t *testing.T) {
	e := newEngine(t, testCase(), 1)
	for range 3 {
		for _, s := range []float64{0, 10, 5, 20, 10, 60, 30, 3600, 0, 10} {
			if got, want := *e.pace(e.ordered, s), e.agents[e.ordered].Pace(s); got != want {
				t.Errorf("over %v s %+v, not %+v", s, got, want)
			}
		}
	}
}
