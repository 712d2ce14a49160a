package sim

import (
	"math"
	"math/rand/v2"
	"testing"

	"blanch/sim/circulation"
)

// Pieces that are looked at as one give the time and the area outside the
// limits that looking at each of them gives, and all but a few that looking
// every second gives.
func TestJoinedPiecesMissNothing(t *testing.T) {
	rng := rand.New(rand.NewPCG(9, 9))
	crossed, short := 0, 0
	for round := range rounds(200) {
		c := testCase()
		c.Order.TargetMmHg, c.Order.CeilMmHg = 55+20*rng.Float64(), 76+10*rng.Float64()
		c.Patient.Untreated = []Point{{0, 45 + 20*rng.Float64()}}
		for at := Time(0); at < 9*Hour && rng.IntN(4) > 0; {
			at += Minute + Time(rng.Int64N(int64(3*Hour)))
			c.Patient.Untreated = append(c.Patient.Untreated, Point{at, 45 + 20*rng.Float64()})
		}
		if rng.IntN(2) == 0 {
			c.Strains = []Strain{{At: Time(rng.Int64N(int64(8 * Hour))), Over: Minute + Time(rng.Int64N(int64(Hour))), MmHg: 20*rng.Float64() - 10}}
		}
		e := newEngine(t, c, 1)
		e.out.FirstDrug = 0
		e.at = 600 * rng.Float64()
		var in inputs
		for i := 1; i < len(e.agents); i++ {
			if rng.IntN(2) == 0 {
				e.blood[i] = circulation.State{Amount: 30 * rng.Float64(), Effect: 8 * rng.Float64()}
				in[i].C0 = 0.3 * rng.Float64()
			}
		}
		var o outlook
		e.look(&in, &o)
		dt := 8 * 3600 * rng.Float64()
		e.watchPressure(dt, &o, e.answerAfter(dt, &o))
		joined := e.out
		e.out = Outcome{}
		mean := func(s float64) float64 { return e.untreated(e.at+s) + e.answerAfter(s, &o).Rise }
		pieces := math.Ceil(dt / scan)
		for i := 0.0; i < pieces; i++ {
			from, to := dt*i/pieces, dt*(i+1)/pieces
			e.outside(knot{from, mean(from)}, knot{to, mean(to)}, mean)
		}
		apart := e.out

		var under, underArea, over, overArea float64
		off := func(s, limit float64) float64 { return e.untreated(e.at+s) + e.answerAfter(s, &o).Rise - limit }
		for _, side := range []struct {
			limit, sign float64
			time, area  *float64
		}{{c.Order.TargetMmHg, -1, &under, &underArea}, {c.Order.CeilMmHg, 1, &over, &overArea}} {
			seconds := math.Ceil(dt)
			before := side.sign * off(0, side.limit)
			for i := 1.0; i <= seconds; i++ {
				now := side.sign * off(dt*i/seconds, side.limit)
				share, mean := 0.0, 0.0
				switch {
				case before > 0 && now > 0:
					share, mean = 1, (before+now)/2
				case before > 0 || now > 0:
					crossed++
					share = max(before, now) / math.Abs(before-now)
					mean = max(before, now) / 2
				}
				*side.time += share * dt / seconds
				*side.area += share * mean * dt / seconds / 60
				before = now
			}
		}
		astray := false
		for _, v := range []struct {
			what               string
			got, apart, second float64
			allow              float64
		}{
			{"s under", joined.UnderS, apart.UnderS, under, nearest},
			{"s over", joined.OverS, apart.OverS, over, nearest},
			{"mmHg x min under", joined.UnderArea, apart.UnderArea, underArea, 0.05 + 1e-4*underArea},
			{"mmHg x min over", joined.OverArea, apart.OverArea, overArea, 0.05 + 1e-4*overArea},
		} {
			if math.Abs(v.got-v.apart) > v.allow {
				t.Errorf("round %d: %.4f %s, in pieces of a minute %.4f", round, v.got, v.what, v.apart)
			}
			astray = astray || math.Abs(v.got-v.second) > v.allow
		}
		if astray {
			short++
		}
	}
	// A dip that begins and ends within one minute is not seen by the ends of
	// that minute. These courses are far wilder than any case.
	if n := rounds(200); short > n/100+1 {
		t.Errorf("%d of %d courses differ from what is seen second by second", short, n)
	}
	if crossed < 50 {
		t.Errorf("only %d crossings were tried", crossed)
	}
}

// Once the drugs have settled a straight course is looked at in few pieces,
// but never across a bend or a threshold.
func TestWhatIsJoined(t *testing.T) {
	c := testCase()
	c.Patient.Untreated = []Point{{0, 50}, {4 * Hour, 50}, {6 * Hour, 70}}
	e := newEngine(t, c, 1)
	var o outlook // no drug at all
	end := func(i int) float64 { return scan * float64(i) }
	for _, v := range []struct{ from, most, want int }{
		{1, 128, 128},
		{1, 1, 1},
		{200, 64, 32}, // to the bend at piece 240
		{239, 2, 1},
		{240, 8, 1},   // it bends here
		{241, 64, 64}, // 15 mmHg, and with them the target, are 90 pieces on
		{300, 64, 16},
		{329, 4, 1}, // here
		{331, 16, 16},
	} {
		if got := e.atOnce(v.from, v.most, end, &o); got != v.want {
			t.Errorf("from piece %d, of %d pieces %d are joined, not %d", v.from, v.most, got, v.want)
		}
	}
}
