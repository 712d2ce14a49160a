package spread

import (
	"math"
	"testing"
)

// SciPy's documentation of mannwhitneyu has nine ages at the diagnosis of
// diabetes, for which U is 17; delta is 2 U / (m n) - 1 (Cliff, Psychol Bull
// 1993;114:494, in terms of U).
func TestCliffsDeltaAgainstAPublishedExample(t *testing.T) {
	males, females := []float64{19, 22, 16, 29, 24}, []float64{20, 11, 17, 12}
	const u = 17.0
	if got, want := CliffsDelta(males, females), 2*u/(5*4)-1; math.Abs(got-want) > 1e-12 {
		t.Errorf("delta %v, want %v", got, want)
	}
	if got := CliffsDelta(females, males); math.Abs(got+0.7) > 1e-12 {
		t.Errorf("the other way round: %v, want -0.7", got)
	}
}

func TestCliffsDeltaCountsPairs(t *testing.T) {
	for _, tc := range []struct {
		a, b []float64
		want float64
	}{
		{[]float64{1, 2}, []float64{1, 2}, 0},
		{[]float64{3, 4}, []float64{1, 2}, 1},
		{[]float64{1}, []float64{2, 3, 4}, -1},
		{[]float64{2, 2}, []float64{2, 1}, 0.5}, // ties count for neither
		{nil, []float64{1}, 0},
	} {
		if got := CliffsDelta(tc.a, tc.b); got != tc.want {
			t.Errorf("%v and %v: %v, want %v", tc.a, tc.b, got, tc.want)
		}
	}
}

// numpy.percentile's documentation: of 10, 7, 4, 3, 2, 1 the 50th percentile
// is 3.5.
func TestQuantilesAgainstAPublishedExample(t *testing.T) {
	if got := Of([]float64{10, 7, 4, 3, 2, 1}).Median; got != 3.5 {
		t.Errorf("median %v, want 3.5", got)
	}
	s := Of([]float64{0, 10, 20, 30, 40, 50, 60, 70, 80, 90, 100})
	if s.Low != 10 || s.High != 90 {
		t.Errorf("10th %v, 90th %v", s.Low, s.High)
	}
	if s := Of([]float64{7}); s != (Spread{7, 7, 7}) {
		t.Errorf("of one: %+v", s)
	}
}
