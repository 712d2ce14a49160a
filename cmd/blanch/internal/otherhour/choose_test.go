package otherhour

import (
	"reflect"
	"slices"
	"strings"
	"testing"

	"blanch/scenarios"
	"blanch/scoring"
	"blanch/sim"
	"blanch/sim/quantity"
)

// TestChosen names, for each slip among the walk-throughs, the decision that
// mattered, as an educator would.
func TestChosen(t *testing.T) {
	for _, test := range []struct {
		walk, decided, moved string
		clear                bool
		by                   int
	}{
		{"no-second-line", "place a cannula in right-cephalic-forearm", "31 min 45 s earlier, to 1:07:55, with what belongs to it", true, 0},
		{"unchecked", "look at right-cephalic-forearm", "done at 1:43:05 as well as at 1:56:00", true, 0},
		{"sixty-fold", "set pump-1 to 653 mL/h", `"set pump-1 to 10.9 mL/h" instead of "set pump-1 to 653 mL/h"`, true, 2},
		{"turned-up", "set pump-1 to 24 mL/h", "left out", false, 0},
		{"pulled-at-once", "pull right-cephalic-forearm", `"draw back from right-cephalic-forearm" is done first`, false, 0},
		{"line-at-once", "", "nothing", false, 0},
		{"better-line-first", "", "nothing", false, 0},
		{"nothing", "", "nothing", false, 0},
	} {
		h := walked(t, test.walk)
		c := h.Choose()
		decided := ""
		if n := h.about(c.Best.Move); n > 0 {
			decided = h.Decisions[n-1].What
		}
		if decided != test.decided || h.Moved(c.Best.Move) != test.moved || c.Clear != test.clear || c.By != test.by {
			t.Errorf("%s: %q, %s, clear %v by %d", test.walk, decided, h.Moved(c.Best.Move), c.Clear, c.By)
		}
	}
}

// TestChoiceIsFair wants, of random hours, the same choice every time, one
// that makes at least the least difference when it says so, and none that
// spares the arm by not treating the patient.
func TestChoiceIsFair(t *testing.T) {
	a := shipped(t)
	picked := 0
	for seed := range uint64(40) {
		h := jumbled(t, a, seed)
		c := h.Choose()
		if again := h.Choose(); !reflect.DeepEqual(c.Best, again.Best) || c.Clear != again.Clear {
			t.Errorf("seed %d: another choice the second time", seed)
		}
		if text := h.Tell(c); !strings.Contains(strings.Join(strings.Fields(text), " "), Caution) {
			t.Errorf("seed %d: the caution is missing:\n%s", seed, text)
		}
		if !c.Clear {
			continue
		}
		picked++
		before, after := FiguresOf(h.Before.Result), FiguresOf(c.Played.Result)
		if drops(before, after)[c.By] < LeastMin {
			t.Errorf("seed %d: less than the least difference", seed)
		}
		for i, b := range h.Before.Sheet.Marks {
			if b.Critical && b.Verdict == scoring.Met && c.Played.Sheet.Marks[i].Verdict == scoring.NotMet {
				t.Errorf("seed %d: %s loses the critical mark %s", seed, h.Moved(c.Best.Move), b.Rule)
			}
		}
		if before.NoDrug < after.NoDrug-LeastMin {
			t.Errorf("seed %d: the drug comes later", seed)
		}
	}
	if picked == 0 {
		t.Error("no random hour had a decision that mattered")
	}
}

// TestStartIsNoCandidateForTheArm shows what the guard is for: with the start
// left out the arm is never short of blood, and it is not picked.
func TestStartIsNoCandidateForTheArm(t *testing.T) {
	h := walked(t, "unchecked")
	n := slices.IndexFunc(h.Decisions, func(d Decision) bool { return d.What == "start pump-1" }) + 1
	tried := slices.ContainsFunc(h.Candidates(), func(c Candidate) bool { return c.Move.Way == LeftOut && c.Move.N == n })
	p := h.Play(Move{Way: LeftOut, N: n})
	if f := FiguresOf(p.Result); !tried || f.Ischaemia != 0 || !loses(h.Before.Sheet, p.Sheet) {
		t.Errorf("tried %v, %.1f min short of blood, loses %v", tried, f.Ischaemia, loses(h.Before.Sheet, p.Sheet))
	}
}

// TestBetter orders by the measure in question, then the next, then by time.
func TestBetter(t *testing.T) {
	for _, test := range []struct {
		a, b   []float64
		at, bt sim.Time
		by     int
		want   bool
	}{
		{[]float64{8, 0, 0}, []float64{7, 9, 9}, 2, 1, 0, true},
		{[]float64{8, 2, 0}, []float64{8, 3, 0}, 1, 2, 0, false},
		{[]float64{8, 3, 0}, []float64{8, 3, 0}, 1, 2, 0, true},
		{[]float64{8, 3, 0}, []float64{8, 3, 0}, 2, 1, 0, false},
		{[]float64{0, 6, 0}, []float64{4, 5, 0}, 2, 1, 1, true},
	} {
		if got := better(test.a, test.b, test.at, test.bt, test.by); got != test.want {
			t.Errorf("better(%v at %d, %v at %d, by %d) = %v", test.a, test.at, test.b, test.bt, test.by, got)
		}
	}
}

// TestFiguresAgreeWithTheSheet reads times off a run and compares them with
// what the rules say of the same run.
func TestFiguresAgreeWithTheSheet(t *testing.T) {
	for _, id := range []string{"unchecked", "no-second-line", "turned-up", "line-at-once"} {
		h := walked(t, id)
		f := FiguresOf(h.Before.Result)
		said := map[string]string{}
		for _, m := range h.Before.Sheet.Marks {
			said[m.Rule] = m.Said
		}
		if want := "The leak was found at " + f.Found.Clock() + "; the first sign could have been found at " + f.Visible.Clock() + "."; said["found-in-time"] != want {
			t.Errorf("%s: the sheet says %q, the figures %q", id, said["found-in-time"], want)
		}
		if want := "The antidote went in at " + f.Antidote.Clock(); !strings.HasPrefix(said["antidote"], want) {
			t.Errorf("%s: the sheet says %q, the figures %q", id, said["antidote"], want)
		}
	}
}

// What an untreated leak does goes on beyond the end, and that is said.
func TestAnArmStillShortOfBlood(t *testing.T) {
	for _, f := range []struct {
		a, b bool
		want string
	}{{true, true, "both hours"}, {true, false, "the hour as it was"}, {false, true, "the other hour"}} {
		if got := whichShort(Figures{Short: f.a}, Figures{Short: f.b}); got != f.want {
			t.Errorf("got %q, want %q", got, f.want)
		}
	}
	a := shipped(t)
	a.Ended = a.Case.Ends
	for _, line := range []string{
		"read the order", "mix 4 mg of norepinephrine in 250 mL, adding to the bag", "hang bag-1 on pump-1", "prime pump-1",
		"connect pump-1 to right-dorsal-hand primed to the tip", "set pump-1 to 18 mL/h", "start pump-1",
	} {
		at := sim.Time(0)
		if n := len(a.Said); n > 0 {
			at = a.Said[n-1].At + 5*sim.Minute
		}
		a.Said = append(a.Said, Said{At: at, Text: line})
	}
	h, err := New(a)
	if err != nil {
		t.Fatal(err)
	}
	if f := FiguresOf(h.Before.Result); !f.Short || len(f.Tissue) == 0 {
		t.Errorf("a leak that nobody answered leaves the arm as if it were well: %+v", f)
	}
}

// A rate outside the order is held against the order as it was meant, for the
// weight that the policy doses by: 0.05 mcg/kg/min at an ideal 29 kg from 16
// mcg/mL is 5.4375 mL/h, half of what the actual 58 kg want.
func TestARateIsHeldAgainstTheOrderAsMeant(t *testing.T) {
	a := shipped(t)
	c, p := *a.Case, *a.Policy
	c.Mended = &sim.Mended{Says: "A point slipped.", Order: c.Order}
	c.Order.Start, c.Order.Least, c.Order.Most = quantity.Of(5, "mcg/kg/min"), quantity.Of(2, "mcg/kg/min"), quantity.Of(20, "mcg/kg/min")
	c.Patient.IdealKG, p.DosingWeight = 29, "ideal"
	a.Case, a.Policy = &c, &p
	w := c.Walks[slices.IndexFunc(c.Walks, func(w scenarios.Walk) bool { return w.ID == "sixty-fold" })]
	r, _, err := scoring.Play(a.Case, a.Place, w.Seed, w.Steps)
	if err != nil {
		t.Fatal(err)
	}
	h := hourOf(t, a, r)
	for _, try := range h.Candidates() {
		if try.Move.Way == As && strings.Contains(try.Why, "the order starts at 0.05 mcg/kg/min and ends at 0.2 mcg/kg/min") {
			if rate := try.Move.Does.Args[len(try.Move.Does.Args)-1].Number; rate != 5.4 {
				t.Errorf("the rate that is tried is %v mL/h, want 5.4", rate)
			}
			return
		}
	}
	t.Errorf("no rate as it was meant is tried: %+v", h.Candidates())
}
