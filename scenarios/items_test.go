package scenarios

import (
	"math"
	"math/rand/v2"
	"os"
	"slices"
	"testing"

	"blanch/sim"
	"blanch/sim/vein"
)

// Aggregate scoring of script concordance: the votes for an option over those
// for the modal one (Charlin and others 2000, Teach Learn Med 12:189; the
// Université de Montréal's description of the test gives the same rule).
func TestConcordanceCredit(t *testing.T) {
	c := Concordance{Votes: []int{0, 1, 4, 8, 2}}
	for i, want := range []float64{0, 0.125, 0.5, 1, 0.25} {
		if got := c.Credit(i); got != want {
			t.Errorf("option %d earns %v, want %v", i, got, want)
		}
	}
	for _, out := range []int{-1, 5} {
		if c.Credit(out) != 0 {
			t.Errorf("option %d, which there is not, earns something", out)
		}
	}
	if (&Concordance{Votes: []int{0, 0, 0, 0, 0}}).Credit(0) != 0 {
		t.Error("an option earns something where nobody voted")
	}
}

// permutations calls visit with every order of n things.
func permutations(n int, visit func([]int)) {
	var grow func(order []int)
	grow = func(order []int) {
		if len(order) == n {
			visit(order)
			return
		}
		for i := range n {
			if !slices.Contains(order, i) {
				grow(append(slices.Clone(order), i))
			}
		}
	}
	grow(nil)
}

// Of all orders of five steps the right ones are those that a person counts:
// b and c may swap, and d with both of them, so that b, c and d stand in any
// order between a and e: six orders of 120.
func TestOrderingRight(t *testing.T) {
	o := Ordering{
		Steps: []OrderStep{{ID: "a"}, {ID: "b"}, {ID: "c"}, {ID: "d"}, {ID: "e"}},
		May:   [][]string{{"b", "c"}, {"d", "c"}, {"b", "d"}},
	}
	right := 0
	permutations(5, func(order []int) {
		held, all := o.Held(order)
		if all != 7 || held < 0 || held > all {
			t.Fatalf("%v holds %d of %d pairs", order, held, all)
		}
		if o.Right(order) != (order[0] == 0 && order[4] == 4) {
			t.Errorf("%v right: %v", order, o.Right(order))
		}
		if o.Right(order) {
			right++
		}
	})
	if right != 6 {
		t.Errorf("%d orders are right, want 6", right)
	}
	for _, odd := range [][]int{nil, {0}, {0, 1, 2, 3}, {0, 0, 1, 2, 3}, {0, 1, 2, 3, 4, 4}, {-1, 0, 1, 2, 9}, {0, 1, 2, 3, 5}} {
		if o.Right(odd) {
			t.Errorf("%v is taken for right", odd)
		}
	}
	if held, _ := o.Held([]int{0, 1, 1, 2, 3, 4}); held != 5 {
		t.Errorf("%d pairs are held where b is given twice, want the 5 without it", held)
	}
}

// A step belongs only under a policy that wants it; without a policy what
// hangs on one is left out.
func TestOrderingUnderAPolicy(t *testing.T) {
	when, err := readCondition("withdraw first", "is true")
	if err != nil {
		t.Fatal(err)
	}
	o := &Ordering{Decides: "withdraw first", Steps: []OrderStep{{ID: "a"}, {ID: "b", When: "is true", when: when}, {ID: "c"}, {ID: "d"}}}
	for _, c := range []struct {
		p    *Policy
		want int
	}{{nil, 3}, {&Policy{}, 3}, {&Policy{WithdrawFirst: true}, 4}} {
		under := o.Under(c.p)
		if len(under.Steps) != c.want {
			t.Errorf("%d steps, want %d", len(under.Steps), c.want)
		}
		if _, all := under.Held(nil); all != c.want*(c.want-1)/2 {
			t.Errorf("%d pairs of %d steps", all, c.want)
		}
	}
	if len(o.Steps) != 4 {
		t.Error("the item itself lost a step")
	}
}

// A pair can swap just when some order that keeps every other pair has it the
// other way round; the check is held to that by trying all orders.
func TestSwapsThatCannotBe(t *testing.T) {
	rng := rand.New(rand.NewPCG(1, 7))
	refused := 0
	for range 300 {
		o := Ordering{Steps: []OrderStep{{ID: "a"}, {ID: "b"}, {ID: "c"}, {ID: "d"}, {ID: "e"}}}
		for i := range 5 {
			for j := i + 1; j < 5; j++ {
				if rng.IntN(3) == 0 {
					o.May = append(o.May, []string{o.Steps[i].ID, o.Steps[j].ID})
				}
			}
		}
		possible := map[string]bool{}
		permutations(5, func(order []int) {
			if !o.Right(order) {
				return
			}
			for x := range order {
				for y := x + 1; y < 5; y++ {
					if order[x] > order[y] {
						possible[o.Steps[order[y]].ID+o.Steps[order[x]].ID] = true
					}
				}
			}
		})
		want := true
		for _, p := range o.May {
			want = want && possible[p[0]+p[1]]
		}
		r := newReader(nil)
		r.src, _ = newSource("x", []byte("x"), r.complain)
		if got := r.checkSwaps("may swap", &o, []string{"a", "b", "c", "d", "e"}); got != want {
			t.Errorf("%v: accepted is %v, want %v", o.May, got, want)
		}
		if !want {
			refused++
		}
	}
	if refused < 50 || refused > 290 {
		t.Errorf("%d of 300 were refused, which proves little", refused)
	}
}

func TestConditions(t *testing.T) {
	p := &Policy{
		LongestRun: 0, DecideBy: 2 * sim.Hour, Sites: []vein.Site{vein.Forearm, vein.Fossa}, Gauges: []int{18, 20},
		LeastShare: 0.65, AntidoteML: [2]float64{10, 15}, MostMcgML: map[string]float64{"norepinephrine": 16, "vasopressin": 0.2},
		SharedWith: "flush",
	}
	for _, c := range []struct {
		limit, condition string
		want             bool
	}{
		{"longest run", "over 72 h", true}, // no end is longer than any
		{"longest run", "at most 1000 h", false},
		{"decide by", "is 120 min", true},
		{"decide by", "at most 2 h", true},
		{"decide by", "under 2 h", false},
		{"decide by", "over 90 min", true},
		{"sites", "has fossa", true},
		{"sites", "has no hand", true},
		{"sites", "has upper-arm", false},
		{"gauges", "has no 22", true},
		{"least share", "at least 65 %", true},
		{"least share", "over 65 %", false},
		{"least vein", "unsaid", true},
		{"least vein", "over 0.1 mm", false}, // what is not said is over nothing
		{"least vein", "under 9 mm", false},
		{"antidote volume", "has 15 mL", true},
		{"antidote volume", "has no 5 mL", true},
		{"highest concentration", "has vasopressin", true},
		{"highest concentration", "has no dopamine", true},
		{"highest concentration", "norepinephrine is 0.016 mg/mL", true},
		{"highest concentration", "norepinephrine over 16 mcg/mL", false},
		{"highest concentration", "vasopressin at least 0.2 units/mL", true},
		{"highest concentration", "dopamine unsaid", true},
		{"highest concentration", "dopamine under 1 mcg/mL", false},
		{"line shared with", "is flush", true},
		{"line shared with", "is nothing", false},
		{"dosing weight", "unsaid", true},
		{"withdraw first", "is false", true},
		{"antidote for", "has leak", true}, // unsaid is every leak
	} {
		read, err := readCondition(c.limit, c.condition)
		if err != nil {
			t.Errorf("%s: %q: %v", c.limit, c.condition, err)
			continue
		}
		if got := read.holds(deciders[c.limit].reads(p)); got != c.want {
			t.Errorf("%s: %q holds is %v, want %v", c.limit, c.condition, got, c.want)
		}
	}
	for limit, conditions := range map[string][]string{
		"sites":                 {"", "is fossa", "has", "has elbow", "over 3", "fossa", "unsaid so", "norepinephrine has fossa"},
		"longest run":           {"has 4 h", "over", "over 4", "over 4 mm", "norepinephrine over 4 h", "norepinephrine unsaid"},
		"highest concentration": {"over 16 mcg/mL", "norepinephrine over 16 mcg/min", "norepinephrine has 16 mcg/mL", "vasopressin over 16 mcg/mL", "is norepinephrine"},
		"withdraw first":        {"is maybe", "has true"},
	} {
		for _, c := range conditions {
			if _, err := readCondition(limit, c); err == nil {
				t.Errorf("%s: %q is taken for a condition", limit, c)
			}
		}
	}
}

// Every limit that can decide is one of the table, every one reads a policy
// that says nothing without harm, and those that are left out are known.
func TestDecidersAreLimits(t *testing.T) {
	var left []string
	for _, w := range limitRows {
		d, ok := deciders[w.Key]
		if !ok {
			left = append(left, w.Key)
			continue
		}
		d.reads(&Policy{})
		if conditionsOn(w.Key) == "" {
			t.Error(w.Key)
		}
	}
	if want := []string{"early for", "scale", "call for central access"}; !slices.Equal(left, want) {
		t.Errorf("left out: %v, want %v", left, want)
	}
	if len(decidingLimits()) != len(deciders) {
		t.Errorf("%d deciders, %d of them limits", len(deciders), len(decidingLimits()))
	}
}

// What the check of an item accepts has one right option under any policy:
// shipped and made-up items against policies with random values.
func TestOneRightOptionUnderAnyPolicy(t *testing.T) {
	rng := rand.New(rand.NewPCG(3, 9))
	some := func(words []string) []string {
		return slices.DeleteFunc(slices.Clone(words), func(string) bool { return rng.IntN(2) == 0 })
	}
	hours := func() sim.Time { return sim.Time(math.Round(math.Pow(rng.Float64(), 8) * 100 * float64(sim.Hour))) }
	random := func() *Policy {
		p := &Policy{
			LongestRun: hours() * sim.Time(rng.IntN(2)), DecideBy: hours(), CheckEarly: hours(), CheckLater: hours(), BackupBy: hours(), StartBy: hours(), AntidoteBy: hours(),
			ChangeBagAfter: hours() * sim.Time(rng.IntN(2)), SecondChecks: some(SecondCheckMoments), LeastMM: 1 + 60*rng.Float64(), LeastShare: rng.Float64(),
			LeastVeinMM: 6 * rng.Float64() * float64(rng.IntN(2)), RateStepMLH: 0.01 + rng.Float64(), Tolerance: rng.Float64(), WithdrawFirst: rng.IntN(2) == 0,
			DosingWeight: append(DosingWeights, "")[rng.IntN(4)], SharedWith: append(SharedLines, "")[rng.IntN(4)], BloodReturn: append(BloodReturns, "")[rng.IntN(4)],
			AntidoteFor: some(signNames()), MostMcgML: map[string]float64{}, MostMcgMin: map[string]float64{}, OtherAntidotes: map[string][2]float64{},
		}
		for _, s := range vein.Sites() {
			if rng.IntN(2) == 0 {
				p.Sites = append(p.Sites, s)
			}
		}
		if p.Sites == nil {
			p.Sites = []vein.Site{vein.Neck}
		}
		for _, g := range []int{14, 18, 20, 22} {
			if rng.IntN(2) == 0 {
				p.Gauges = append(p.Gauges, g)
			}
		}
		for _, name := range deciders["highest dose"].words {
			if rng.IntN(2) == 0 {
				p.MostMcgML[name], p.MostMcgMin[name] = 100*rng.Float64(), 30*rng.Float64()
			}
		}
		if rng.IntN(2) == 0 {
			p.OtherAntidotes["terbutaline"] = [2]float64{0.5, 1}
		}
		for _, r := range []*[2]float64{&p.AntidoteMG, &p.AntidoteML} {
			r[0] = 20 * rng.Float64()
			r[1] = r[0] + 10*rng.Float64()
		}
		return p
	}
	files, err := os.ReadDir("../content/items")
	if err != nil || len(files) == 0 {
		t.Fatal(err)
	}
	items := 0
	for _, file := range files {
		src, err := os.ReadFile("../content/items/" + file.Name())
		if err != nil {
			t.Fatal(err)
		}
		f, out := LoadItems(file.Name(), src)
		if f == nil {
			t.Fatal(out)
		}
		for _, s := range f.Singles {
			if s.Decides == "" {
				continue
			}
			items++
			seen := map[int]bool{}
			for range 400 {
				key := s.Key(random())
				if key < 0 {
					t.Fatalf("%s: no right option, or several, under a policy", s.ID)
				}
				seen[key] = true
			}
			if len(seen) < 2 {
				t.Errorf("%s: one option is right under every policy that was tried", s.ID)
			}
		}
	}
	if items < 12 {
		t.Errorf("only %d items follow the policy", items)
	}
}
