package session

import (
	"math"
	"strings"
	"testing"

	"blanch/content"
	"blanch/scoring"
	"blanch/sim"
)

// played is every shipped walk-through, played.
func played(t *testing.T, see func(a *Attempt, id string, r *sim.Result)) {
	t.Helper()
	for _, id := range content.Cases() {
		src, err := Find(id, "")
		if err != nil {
			t.Fatal(err)
		}
		a, err := Load(src, 1)
		if err != nil {
			t.Fatal(err)
		}
		for _, walk := range a.Case.Walks {
			r, _, err := scoring.Play(a.Case, a.Place, walk.Seed, walk.Steps)
			if err != nil {
				t.Fatal(err)
			}
			see(a, walk.ID, r)
		}
	}
}

// What the engine reckons a key from works out to that key again, and nothing
// right is explained away.
func TestTheInputsOfASumWorkOutToItsKey(t *testing.T) {
	n := 0
	played(t, func(a *Attempt, id string, r *sim.Result) {
		for _, ans := range r.Answers {
			s := ans.Worked(0)
			if s == nil {
				t.Errorf("%s: %s cannot be worked again", id, ans.ID)
				continue
			}
			n++
			// Inputs are as they are shown, so the last digits differ.
			if off := math.Abs(s.Key().Float(ans.Key.Unit.String())/ans.Key.Value - 1); off > 2e-3 {
				t.Errorf("%s: %s is %s by the engine and %s worked again", id, ans.ID, ans.Key, s.Key())
			}
			if d := diagnosis(a, r, ans); d != nil && a.marker.Right(r, ans) {
				t.Errorf("%s: %s is right and explained: %v", id, ans.ID, d)
			}
		}
	})
	if n < 10 {
		t.Errorf("only %d sums were asked", n)
	}
}

// The walk-through that multiplies by 60 twice is told so, with the step.
func TestTheDebriefSaysWhatWentWrongInASum(t *testing.T) {
	met := false
	played(t, func(a *Attempt, id string, r *sim.Result) {
		for _, ans := range r.Answers {
			if id != "sixty-fold" || ans.ID != "rate" {
				continue
			}
			var text []string
			for _, l := range diagnosis(a, r, ans) {
				text = append(text, strings.TrimSpace(l.Text))
				if len(l.Text) > textWidth {
					t.Errorf("too wide: %q", l.Text)
				}
			}
			said := strings.Join(text, " ")
			for _, want := range []string{"Your number is 60 times too large. This fits when one has multiplied by 60 twice, in step 2 (dose in an hour).", "a guess from the number alone", "2. dose in an hour: ", " x 60 min/h = "} {
				if !strings.Contains(said, want) {
					t.Errorf("got %q, want it to say %q", said, want)
				}
			}
			met = true
		}
	})
	if !met {
		t.Error("no walk-through multiplies by 60 twice")
	}
}
