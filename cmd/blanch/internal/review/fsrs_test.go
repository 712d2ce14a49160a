package review

import (
	"math"
	"math/rand/v2"
	"os"
	"slices"
	"strings"
	"testing"
)

// model has the published weights with other settings.
func model(t testing.TB, w Weights, wanted float64, longest int) Model {
	t.Helper()
	m, err := NewModel(w, wanted, longest)
	if err != nil {
		t.Fatal(err)
	}
	return m
}

// unbounded is FSRS-6 as published, with its own longest interval.
func unbounded(t testing.TB) Model { return model(t, Published(), 0.9, maxStability) }

// play returns the memory after each review.
func play(next func(Memory, int, Grade) Memory, grades []Grade, days []int) []Memory {
	var (
		s   Memory
		out []Memory
	)
	for i, g := range grades {
		s = next(s, days[i], g)
		out = append(out, s)
	}
	return out
}

func near(t *testing.T, what string, got, want, tolerance float64) {
	t.Helper()
	if !(math.Abs(got-want) <= tolerance) {
		t.Errorf("%s: got %.6f, want %.6f", what, got, want)
	}
}

var (
	spaced = []int{0, 0, 1, 3, 8, 21}
	again3 = []Grade{Again, Good, Good, Good, Good, Good}
)

// TestMemory holds to the memory of grades 1 3 3 3 3 3: py-fsrs 3abe686e wants
// 53.62691 and 6.3574867 within 1e-4, go-fsrs 81c1d8c1 wants 53.6269 and 6.3575.
// The steps on the way are from an independent rewrite of the formulas.
func TestMemory(t *testing.T) {
	got := play(unbounded(t).Next, again3, spaced)
	for i, want := range []Memory{{.2120, 6.4133}, {.2467, 6.4021}, {2.0215, 6.3909}, {7.8637, 6.3798}, {21.9177, 6.3686}, {53.6269, 6.3575}} {
		near(t, "stability", got[i].Stability, want.Stability, 6e-5)
		near(t, "difficulty", got[i].Difficulty, want.Difficulty, 6e-5)
	}
	near(t, "stability (py-fsrs)", got[5].Stability, 53.62691, 1e-5)
	near(t, "difficulty (py-fsrs)", got[5].Difficulty, 6.3574867, 1e-6)

	// TestBasicSchedulerMemoState of go-fsrs 81c1d8c1 wants other numbers, since
	// it answers good once more on the first day.
	more := play(unbounded(t).Next, append(slices.Clone(again3), Good), append([]int{0}, spaced...))
	near(t, "stability, one more good", more[6].Stability, 54.0393, 6e-5)
	near(t, "difficulty, one more good", more[6].Difficulty, 6.3464, 6e-5)
}

// TestLongTerm holds to the memory without same-day terms, w17 = w18 = w19 = 0,
// of go-fsrs 81c1d8c1.
func TestLongTerm(t *testing.T) {
	w := Published()
	w[17], w[18], w[19] = 0, 0, 0
	got := play(model(t, w, 0.9, maxStability).Next, again3, spaced)
	near(t, "stability", got[5].Stability, 53.3351, 6e-5)
	near(t, "difficulty", got[5].Difficulty, 6.3575, 6e-5)
}

// pyNext is Next with the same-day factor of py-fsrs 3abe686e, which keeps it
// from falling below 1 for good and easy only.
func pyNext(m Model) func(Memory, int, Grade) Memory {
	return func(s Memory, days int, g Grade) Memory {
		next := m.Next(s, days, g)
		if s != (Memory{}) && days == 0 && g == Hard {
			next.Stability = s.Stability * math.Exp(m.w[17]*(float64(g-3)+m.w[18])) * math.Pow(s.Stability, -m.w[19])
		}
		return next
	}
}

// TestSameDayFloor holds to both sides of the one place where the published
// implementations differ: hard on the day of again. go-fsrs 81c1d8c1 wants
// 51.0810, as ts-fsrs and fsrs-rs reckon it; the code of py-fsrs 3abe686e gives
// 50.2641. The difficulty is 6.7493 in both.
func TestSameDayFloor(t *testing.T) {
	grades := []Grade{Again, Hard, Good, Easy, Good, Good}
	m := unbounded(t)
	for name, test := range map[string]struct {
		next func(Memory, int, Grade) Memory
		want float64
	}{
		"ours, as three of four": {m.Next, 51.0810},
		"py-fsrs":                {pyNext(m), 50.2641},
	} {
		got := play(test.next, grades, spaced)
		near(t, name+": stability", got[5].Stability, test.want, 6e-5)
		near(t, name+": difficulty", got[5].Difficulty, 6.7493, 6e-5)
	}
}

// TestIntervals holds to the intervals that py-fsrs 3abe686e and go-fsrs
// 81c1d8c1 want of reviews in time. Where they have 0 they repeat after minutes,
// which is a matter of their steps and not of the memory: the next review is on
// the same day.
func TestIntervals(t *testing.T) {
	m := unbounded(t)
	var s Memory
	days := 0
	for i, want := range []int{0, 2, 11, 46, 163, 498, 0, 0, 2, 4, 7, 12, 21} {
		g := Good
		if i == 6 || i == 7 {
			g = Again
		}
		s = m.Next(s, days, g)
		if got := m.Interval(s.Stability); want > 0 && got != want {
			t.Errorf("review %d: got %d days, want %d", i+1, got, want)
		}
		days = want
	}
}

// TestLongTermIntervals holds to ts-fsrs 5.4.2 without its short term: grades
// good, good, again, good, easy, each in time.
func TestLongTermIntervals(t *testing.T) {
	w := Published()
	w[17], w[18], w[19] = 0, 0, 0
	m := model(t, w, 0.9, maxStability)
	stability := []float64{2.3065, 13.8269, 1.7264, 5.1238, 19.1317}
	interval := []int{3, 14, 2, 5, 19} // theirs keep an order among grades, and so have 3 for the first
	var s Memory
	for i, g := range []Grade{Good, Good, Again, Good, Easy} {
		days := 0
		if i > 0 {
			days = interval[i-1]
		}
		s = m.Next(s, days, g)
		near(t, "stability", s.Stability, stability[i], 6e-5)
		if got := m.Interval(s.Stability); i > 0 && got != interval[i] {
			t.Errorf("review %d: got %d days, want %d", i+1, got, interval[i])
		}
	}
}

// TestIntervalByWantedRecall holds to go-fsrs 81c1d8c1: a stability of one day,
// wanted recall 0.1 to 1.
func TestIntervalByWantedRecall(t *testing.T) {
	for i, want := range []int{36500, 34793, 2508, 387, 90, 27, 9, 3, 1, 1} {
		m := model(t, Published(), float64(i+1)/10, maxStability)
		if got := m.Interval(1); got != want {
			t.Errorf("wanted %.1f: got %d days, want %d", float64(i+1)/10, got, want)
		}
	}
	if got := Default().Interval(maxStability); got != Longest {
		t.Errorf("got %d days, want at most %d", got, Longest)
	}
}

// TestRecall has values from an independent rewrite of the published formula,
// for a stability of 10 days. After 10 days it is 0.9 by definition.
func TestRecall(t *testing.T) {
	m := Default()
	for days, want := range map[float64]float64{0: 1, 1: .985682, 5: .940344, 10: .9, 30: .809388} {
		near(t, "recall", m.Recall(Memory{10, 5}, days), want, 6e-7)
	}
	if m.Recall(Memory{}, 3) != 0 || m.Recall(Memory{10, 5}, -3) != 1 {
		t.Error("recall of a new question is not 0, or that before the review not 1")
	}
}

func TestNewModelRefuses(t *testing.T) {
	for _, test := range []struct {
		weight  int
		value   float64
		wanted  float64
		longest int
		want    string
	}{
		{8, math.NaN(), .9, 10, "weight w8 is NaN, want a number of 0 or more"},
		{2, -1, .9, 10, "weight w2 is -1, want a number of 0 or more"},
		{20, .05, .9, 10, "weight w20 is 0.05, want 0.1 to 0.8"},
		{20, .2, 0, 10, "wanted chance of recall is 0, want more than 0 and at most 1"},
		{20, .2, math.NaN(), 10, "wanted chance of recall is NaN, want more than 0 and at most 1"},
		{20, .2, .9, 0, "longest interval is 0 days, want 1 to 36500"},
	} {
		w := Published()
		w[test.weight] = test.value
		if _, err := NewModel(w, test.wanted, test.longest); err == nil || err.Error() != test.want {
			t.Errorf("got error %v, want %s", err, test.want)
		}
	}
}

// randomMemory is one that reviews can lead to.
func randomMemory(r *rand.Rand) Memory {
	m := Default()
	var s Memory
	for range 1 + r.IntN(12) {
		s = m.Next(s, r.IntN(1+r.IntN(400)), Grade(1+r.IntN(4)))
	}
	return s
}

func rounds(short int) int {
	if os.Getenv("BLANCH_LONG") != "" {
		return short * 100
	}
	return short
}

// TestProperties holds for memories at random, reached and not.
func TestProperties(t *testing.T) {
	r := rand.New(rand.NewPCG(1, 6))
	m := unbounded(t)
	for range rounds(20000) {
		s := randomMemory(r)
		if r.IntN(2) == 0 {
			s = Memory{math.Exp(math.Log(minStability) + r.Float64()*math.Log(maxStability/minStability)), 1 + 9*r.Float64()}
		}
		days := r.IntN(1 + r.IntN(1000))
		var stability []float64
		for g := Again; g <= Easy; g++ {
			n := m.Next(s, days, g)
			if !(n.Stability >= minStability && n.Stability <= maxStability && n.Difficulty >= 1 && n.Difficulty <= 10) {
				t.Fatalf("%+v after %d days, %v: got %+v", s, days, g, n)
			}
			stability = append(stability, n.Stability)
		}
		if !slices.IsSorted(stability) {
			t.Fatalf("%+v after %d days: stabilities %v fall with a better grade", s, days, stability)
		}
		if stability[0] > s.Stability || stability[1] < s.Stability {
			t.Fatalf("%+v after %d days: stabilities %v, want it to rise for all but again", s, days, stability)
		}
		// Lapse upon lapse never makes the interval longer.
		lapsed := s
		for range 10 {
			n := m.Next(lapsed, days, Again)
			if m.Interval(n.Stability) > m.Interval(lapsed.Stability) {
				t.Fatalf("%+v after %d days, again: got %+v", lapsed, days, n)
			}
			lapsed = n
		}
		// Recall falls with time, from 1, to 0.9 after the stability.
		before := 1.0
		for _, at := range []float64{0.1, 1, 7, 30, 365, 5000} {
			now := m.Recall(s, at)
			if !(now < before && now > 0) {
				t.Fatalf("%+v: recall %g after %g days, %g before", s, now, at, before)
			}
			before = now
		}
		if m.Recall(s, 0) != 1 || math.Abs(m.Recall(s, s.Stability)-0.9) > 1e-12 {
			t.Fatalf("%+v: recall %g at once and %g after its stability", s, m.Recall(s, 0), m.Recall(s, s.Stability))
		}
	}
}

func TestGradeString(t *testing.T) {
	var words []string
	for g := Grade(0); g <= 5; g++ {
		words = append(words, g.String())
	}
	if got := strings.Join(words, ", "); got != "grade 0, again, hard, good, easy, grade 5" {
		t.Errorf("got %s", got)
	}
}

// BenchmarkSchedule schedules 10,000 cards with a history.
func BenchmarkSchedule(b *testing.B) {
	const cards = 10000
	r := rand.New(rand.NewPCG(2, 6))
	m := Default()
	memories := make([]Memory, cards)
	for i := range memories {
		memories[i] = randomMemory(r)
	}
	total := 0
	b.ReportAllocs()
	for b.Loop() {
		for i, s := range memories {
			total += m.Interval(m.Next(s, i%40, Grade(1+i%4)).Stability)
		}
	}
	b.ReportMetric(float64(b.Elapsed().Nanoseconds())/float64(b.N)/cards, "ns/card")
	if total == 0 {
		b.Fatal("nothing was scheduled")
	}
}
