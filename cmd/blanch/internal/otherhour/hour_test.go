package otherhour

import (
	"math/rand/v2"
	"reflect"
	"testing"

	"blanch/content"
	"blanch/scenarios"
	"blanch/scoring"
	"blanch/sim"
)

// shipped loads the case that the tests play.
func shipped(t testing.TB) Attempt {
	t.Helper()
	c, _, err := content.LoadCase("night-bridge")
	if err != nil {
		t.Fatal(err)
	}
	place, _, err := content.LoadPlace(c.Place)
	if err != nil {
		t.Fatal(err)
	}
	policy, _, err := content.LoadPolicy(c.Policy)
	if err != nil {
		t.Fatal(err)
	}
	return Attempt{Case: c, Place: place, Policy: policy}
}

// walked is the hour of a walk-through.
func walked(t testing.TB, id string) *Hour {
	t.Helper()
	a := shipped(t)
	for _, w := range a.Case.Walks {
		if w.ID == id {
			r, faults, err := scoring.Play(a.Case, a.Place, w.Seed, w.Steps)
			if err != nil || len(faults) > 0 {
				t.Fatal(err, faults)
			}
			return hourOf(t, a, r)
		}
	}
	t.Fatalf("there is no walk-through %s", id)
	return nil
}

// hourOf makes an hour of a run.
func hourOf(t testing.TB, a Attempt, r *sim.Result) *Hour {
	t.Helper()
	a.Seed, a.Ended = r.Seed, r.Ended
	a.Said = scoring.Inputs(r)
	h, err := New(a)
	if err != nil {
		t.Fatal(err)
	}
	return h
}

// jumbled is an hour of random acts: parts of walk-throughs at random times.
func jumbled(t testing.TB, a Attempt, seed uint64) *Hour {
	t.Helper()
	rnd := rand.New(rand.NewPCG(seed, 1))
	a.Seed = seed
	e, err := sim.New(&a.Case.Case, a.Place, seed)
	if err != nil {
		t.Fatal(err)
	}
	walk := a.Case.Walks[rnd.IntN(len(a.Case.Walks))]
	other := a.Case.Walks[rnd.IntN(len(a.Case.Walks))]
	for _, s := range walk.Steps {
		if s.Said == "" || rnd.IntN(12) == 0 {
			continue
		}
		said := s.Said
		if rnd.IntN(10) == 0 {
			said = other.Steps[rnd.IntN(len(other.Steps))].Said
		}
		action, err := sim.ParseAction(said)
		if err != nil {
			continue
		}
		at := e.Now()
		if rnd.IntN(8) > 0 {
			at = max(at, e.FreeFor(action))
		}
		if s.When == scenarios.AtTime && rnd.IntN(3) > 0 {
			at = max(at, s.At)
		}
		if rnd.IntN(6) == 0 {
			at += sim.Time(rnd.IntN(600)) * sim.Second
		}
		e.Advance(at)
		e.Do(action)
	}
	end := a.Case.Ends
	if rnd.IntN(3) == 0 {
		end = min(end, e.Now()+sim.Time(rnd.IntN(3600))*sim.Second)
	}
	e.Advance(end)
	r := e.Result()
	return hourOf(t, a, r)
}

// TestNothingMoved plays walk-throughs and random hours with nothing moved:
// everything must come out as it was.
func TestNothingMoved(t *testing.T) {
	same := func(t *testing.T, h *Hour) {
		t.Helper()
		got := h.Play(Move{})
		if !reflect.DeepEqual(got.Result, h.Before.Result) {
			for i, en := range got.Result.Journal {
				if was := h.Before.Result.Journal; i >= len(was) || en != was[i] {
					t.Fatalf("entry %d: now %s %s", i, en.At.Exact(), en.Text())
				}
			}
			t.Fatal("the result differs")
		}
		if !reflect.DeepEqual(got.Sheet, h.Before.Sheet) {
			t.Error("the sheet differs")
		}
		if len(got.Skipped)+len(got.Waited)+got.Unanswered > 0 {
			t.Errorf("nothing was moved, and yet: skipped %v, waited %v, unanswered %d", got.Skipped, got.Waited, got.Unanswered)
		}
	}
	a := shipped(t)
	for _, w := range a.Case.Walks {
		t.Run(w.ID, func(t *testing.T) { same(t, walked(t, w.ID)) })
	}
	for seed := range uint64(60) {
		same(t, jumbled(t, a, seed))
		if t.Failed() {
			t.Fatalf("seed %d", seed)
		}
	}
}
