package sim

import (
	"fmt"
	"testing"
)

// A limit sounds when it is crossed, when a reading is 5 mmHg worse than the
// one that last sounded, and after ten minutes beyond it, high as well as low.
func TestALimitSoundsAgain(t *testing.T) {
	for name, tc := range map[string]struct {
		readings []float64 // every 5 min
		want     string
	}{
		"crossed once":       {[]float64{66, 59, 63, 59}, "0:05 0:15"},
		"and no worse":       {[]float64{66, 59, 58}, "0:05"},
		"still low":          {[]float64{66, 59, 58, 58, 58, 59}, "0:05 0:15 0:25"},
		"falling":            {[]float64{66, 59, 54, 49, 48, 34}, "0:05 0:10 0:15 0:25"},
		"a little at a time": {[]float64{66, 59, 56, 53}, "0:05 0:15"},
	} {
		for _, high := range []bool{false, true} {
			var l limit
			got := ""
			for i, mmHg := range tc.readings {
				out, worse := mmHg < 60, l.mmHg-mmHg
				if high { // the same as in a mirror
					mmHg = 160 - mmHg
					out, worse = mmHg > 100, mmHg-l.mmHg
				}
				if at := Time(i) * 5 * Minute; l.sounds(at, mmHg, out, worse) {
					got += fmt.Sprintf(" %s", at.Clock())
				}
			}
			if got != " "+tc.want {
				t.Errorf("%s, high %t: sounds at%s, want %s", name, high, got, tc.want)
			}
		}
	}
}

// A patient who is low when the case opens is not announced, and sounds ten
// minutes later.
func TestALowPressureIsNotForgotten(t *testing.T) {
	c := testCase()
	c.Leak = Fate{Kind: NoLeak}
	c.Patient.Untreated = []Point{{0, 50}, {4 * Hour, 50}}
	e := newEngine(t, c, 1)
	e.Advance(35 * Minute)
	n := count(e, func(en Entry) bool {
		return en.Kind == Alarm && en.What == "low pressure" && en.At > 0
	})
	if n != 3 {
		t.Errorf("%d alarms in 35 min at 50 mmHg, want 3", n)
	}
}
