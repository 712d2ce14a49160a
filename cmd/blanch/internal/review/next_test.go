package review

import (
	"fmt"
	"math/rand/v2"
	"slices"
	"strings"
	"testing"
)

// names of a plan's questions, new ones with a star.
func (p Plan) names() string {
	var out []string
	for _, i := range p.Items {
		name := i.Name
		if i.New {
			name += "*"
		}
		out = append(out, name)
	}
	return strings.Join(out, " ")
}

func wantPlan(t *testing.T, what string, got Plan, want string, held int) {
	t.Helper()
	if got.names() != want || got.Held != held {
		t.Errorf("%s: got %q and %d held, want %q and %d", what, got.names(), got.Held, want, held)
	}
}

var wide = Limits{Day: 100, New: 100}

// TestNew: new questions are those of the lowest open level, and what waits
// only for another day keeps nobody.
func TestNew(t *testing.T) {
	bank := shelf(t, "l1c1 l1o1 l2c1 m1c1 m1c2 b1o1")
	cards := map[string]Card{}
	next := func(at float64) Plan { return Next(bank, cards, Default(), wide, after(at)) }
	wantPlan(t, "nothing answered", next(0), "l1c1* l1o1*", 0)
	study(bank, cards, rightOn, 0, "l1c1")
	wantPlan(t, "half a level", next(0), "l1o1*", 0)
	study(bank, cards, rightOn, 0, "l1o1")
	wantPlan(t, "a level right once", next(0), "l2c1*", 0)
	study(bank, cards, wrongOn, 0, "l2c1")
	wantPlan(t, "a miss keeps the next unit closed", next(0), "l2c1", 0)
	study(bank, cards, rightOn, 0.1, "l2c1")
	wantPlan(t, "put right on the day of the miss", next(0.1), "m1c1* m1c2*", 0)
	if want := cards["l2c1"].Due; !next(0.1).Later.Equal(want) {
		t.Errorf("later is %v, want %v", next(0.1).Later, want)
	}
	wantPlan(t, "the next day", next(1), "m1c1* l2c1 m1c2*", 0)
	study(bank, cards, rightOn, 1, "l2c1")
	wantPlan(t, "after the review", next(1), "m1c1* m1c2*", 0)
	study(bank, cards, rightOn, 1, "m1c1 m1c2")
	wantPlan(t, "a unit without questions is passed over", next(1), "b1o1*", 0)
	study(bank, cards, rightOn, 1, "b1o1")
	wantPlan(t, "all answered", next(1), "", 0)
	wantPlan(t, "reviews", next(4), "l1c1 m1c1 l2c1 m1c2 l1o1 b1o1", 0)
}

func TestLimits(t *testing.T) {
	bank := shelf(t, "l1c1 l1c2 l1c3 l1o1 l1o2 m1c1 m1c2")
	cards := map[string]Card{}
	study(bank, cards, rightOn, 0, "l1o1 l1o2 l1c1")
	limits := Limits{Day: 3, New: 1}
	next := func(at float64) Plan { return Next(bank, cards, Default(), limits, after(at)) }
	wantPlan(t, "the day is full", next(0.2), "", 0)
	wantPlan(t, "room for one new", next(1), "l1c2*", 0)
	wantPlan(t, "reviews take the room of new ones", next(3), "l1c1 l1o1 l1o2", 0)
	limits.Day = 2
	wantPlan(t, "critical reviews first, others held", next(3), "l1c1 l1o1", 1)
	study(bank, cards, wrongOn, 3, "l1c1")
	wantPlan(t, "a repeat of the day is free", next(3), "l1o1 l1c1", 1)
	study(bank, cards, rightOn, 3, "l1o1")
	wantPlan(t, "full but for the repeat", next(3), "l1c1", 1)
	limits = Limits{}
	wantPlan(t, "no limit is no room", next(9), "", 2)
}

// TestLongAssessment: what one long assessment left is not all put in one
// evening; the critical of the lower levels come first, and repeats have a day's
// limit of their own.
func TestLongAssessment(t *testing.T) {
	bank := shelf(t, "l1c1 l1o1 l2c1 l2o1 m1c1 m1o1 b1c1 b2c1 b1o1 s1c1")
	cards := map[string]Card{}
	for _, q := range bank {
		study(bank, cards, wrongOn, 0, q.Name)
	}
	limits := Limits{Day: 4, New: 2}
	next := func(at float64) Plan { return Next(bank, cards, Default(), limits, after(at)) }
	sorted := func(p Plan) string {
		names := strings.Fields(p.names())
		slices.Sort(names)
		return strings.Join(names, " ")
	}
	if p := next(0.1); sorted(p) != "b1c1 l1c1 m1c1 s1c1" || p.Held != 6 {
		t.Errorf("today: %q and %d held", sorted(p), p.Held)
	}
	if p := next(1); sorted(p) != "b1c1 l1c1 m1c1 s1c1" || p.Held != 6 {
		t.Errorf("tomorrow: %q and %d held", sorted(p), p.Held)
	}
	study(bank, cards, rightOn, 0.1, "l1c1 m1c1 s1c1")
	if p := next(0.1); len(p.Items) != 1 || p.Items[0].Name != "b1c1" {
		t.Errorf("after three repeats: %q", p.names())
	}
	study(bank, cards, rightOn, 0.1, "b1c1")
	if p := next(0.1); len(p.Items) != 0 || p.Held != 6 {
		t.Errorf("after four repeats: %q and %d held", p.names(), p.Held)
	}
	if p := next(1); len(p.Items) != 4 {
		t.Errorf("the next day: %q", p.names())
	}
}

// TestAlternate: neighbours are of one unit only where every order has as many
// such pairs.
func TestAlternate(t *testing.T) {
	r := rand.New(rand.NewPCG(4, 6))
	for range rounds(3000) {
		queues, counts, total := map[Unit][]Item{}, map[Unit]int{}, 0
		for _, u := range Units()[:1+r.IntN(6)] {
			for n := range r.IntN(6) {
				queues[u] = append(queues[u], Item{Question: Question{Name: fmt.Sprint(n), Unit: u}})
				counts[u]++
				total++
			}
		}
		before := Unit(r.IntN(7))
		items := alternate(queues, before)
		if len(items) != total {
			t.Fatalf("%d items of %d", len(items), total)
		}
		pairs, last, seen := 0, before, map[Unit]int{}
		for _, i := range items {
			if i.Unit == last {
				pairs++
			}
			if i.Name != fmt.Sprint(seen[i.Unit]) {
				t.Fatalf("unit %v is out of order: %+v", i.Unit, items)
			}
			seen[i.Unit]++
			last = i.Unit
		}
		// A unit of n among m others can be put between them m+1 times, and one
		// time fewer when it came before.
		least := 0
		for u, n := range counts {
			places := total - n + 1
			if u == before {
				places--
			}
			least = max(least, n-places)
		}
		if pairs != least {
			t.Fatalf("%v after %v: %d pairs of neighbours, want %d: %+v", counts, before, pairs, least, items)
		}
	}
}

// TestClockSetBackPlan: with the clock back by a year everything is due again,
// within the limit of the day, and nothing is new for a second time.
func TestClockSetBackPlan(t *testing.T) {
	bank := shelf(t, "l1c1 l1c2 l1o1")
	cards := map[string]Card{}
	study(bank, cards, rightOn, 0, "l1c1 l1c2 l1o1")
	for _, back := range []float64{1, 365} {
		wantPlan(t, "clock back", Next(bank, cards, Default(), Limits{Day: 2, New: 2}, after(-back)), "l1c1 l1c2", 1)
	}
	wantPlan(t, "clock back an hour", Next(bank, cards, Default(), wide, after(-0.04)), "", 0)
}

// TestAWeek plays a learner who is always right, 20 minutes an evening: within
// a week of evenings every question was put, and critical ones twice; nobody is
// ever asked more than the limits say.
func TestAWeek(t *testing.T) {
	var names []string
	for _, u := range Units() {
		for level := 1; level <= 3; level++ {
			names = append(names, fmt.Sprintf("%c%dc1 %c%do1", u.String()[0], level, u.String()[0], level))
		}
	}
	bank, cards, limits := shelf(t, strings.Join(names, " ")), map[string]Card{}, DefaultLimits()
	for evening := range 8 {
		put, fresh := 0, 0
		for {
			now := float64(evening) + float64(put)*0.001
			plan := Next(bank, cards, Default(), limits, after(now))
			if len(plan.Items) == 0 {
				break
			}
			i := plan.Items[0]
			fresh += count(i.New)
			put++
			study(bank, cards, rightOn, now, i.Name)
		}
		if put > limits.Day || fresh > limits.New {
			t.Fatalf("evening %d: %d questions, %d new, want at most %+v", evening, put, fresh, limits)
		}
	}
	for _, s := range Stand(bank, cards, Default(), after(8)) {
		if !s.Mastered {
			t.Errorf("after a week: %v", s)
		}
	}
}

// TestPlanIsPure: the same cards give the same plan, and it changes none.
func TestPlanIsPure(t *testing.T) {
	bank := shelf(t, "l1c1 l1c2 m1c1 s1o1")
	cards := map[string]Card{}
	study(bank, cards, rightOn, 0, "l1c1 l1c2 m1c1")
	first := Next(bank, cards, Default(), wide, after(5))
	for range 50 {
		if again := Next(bank, cards, Default(), wide, after(5)); !slices.Equal(again.Items, first.Items) {
			t.Fatalf("got %q, then %q", first.names(), again.names())
		}
	}
}

// BenchmarkNext plans a day over 10,000 cards.
func BenchmarkNext(b *testing.B) {
	var questions []Question
	r := rand.New(rand.NewPCG(5, 6))
	cards := map[string]Card{}
	for i := range 10000 {
		q := Question{Name: fmt.Sprint("q", i), Unit: Units()[i%6], Level: Level(1 + i%3), Critical: i%2 == 0}
		questions = append(questions, q)
		if i%10 > 0 {
			c := answered(right(q, after(-2-18*r.Float64())))
			cards[q.Name] = c
		}
	}
	bank, err := NewBank(questions)
	if err != nil {
		b.Fatal(err)
	}
	b.ReportAllocs()
	for b.Loop() {
		if len(Next(bank, cards, Default(), DefaultLimits(), evening).Items) == 0 {
			b.Fatal("nothing to study")
		}
	}
}
