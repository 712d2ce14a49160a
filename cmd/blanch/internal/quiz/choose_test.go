package quiz

import (
	"fmt"
	"strings"
	"testing"
)

// typed is what to type for an option, by what it says.
func typed(t *testing.T, s *Sitting, says string) string {
	t.Helper()
	for at, i := range s.now.place {
		if s.now.Single.Options[i].Says == says {
			return string(rune('a' + at))
		}
	}
	t.Fatalf("no option %q", says)
	return ""
}

func TestEveryOptionIsExplained(t *testing.T) {
	task := shipped(t, "keeping-watch/hands-not-eyes")
	for _, right := range []bool{true, false} {
		s := sit(t, Options{Tasks: []Task{task}})
		says := "Redness along the vein"
		if right {
			says = "Early swelling and cool skin"
		}
		said := say(t, s, typed(t, s, says))
		for _, o := range task.Single.Options {
			has(t, said, o.Says, o.Because)
		}
		if c, _ := s.o.Progress.Card(task.Name); c.Passed != right {
			t.Errorf("%s: %+v", says, c)
		}
		if strings.HasPrefix(said, "Right.") != right {
			t.Errorf("%s:\n%s", says, said)
		}
	}
}

// The item's policy limit is the longest run: what is right under one policy is
// wrong under another, and both views are shown under either.
func TestPolicyInForceDecides(t *testing.T) {
	task := shipped(t, "bridging-and-after/hours-by-policy")
	keys := map[int]bool{}
	for _, id := range []string{"alder-court", "gannet-street", "marl-hill", "quarry-lane", "saltmere"} {
		p := policy(t, id)
		key := task.Single.Key(p)
		keys[key] = true
		s := sit(t, Options{Tasks: []Task{task}, Policy: p})
		has(t, text(s.Ask()), "Policy in force, "+p.Title+": longest run: ")
		said := say(t, s, typed(t, s, task.Single.Options[key].Says))
		has(t, said, "Right.\n", "marked by the policy in force, "+p.Title, "Where sources disagree:", "under any other policy")
		for _, v := range task.Views {
			has(t, said, v.By+": "+v.Holds)
		}
	}
	if len(keys) < 2 {
		t.Errorf("keys %v: no two policies differ", keys)
	}
}

func TestOptionsAreShuffledAndNumbersAreNot(t *testing.T) {
	orders := map[string]bool{}
	task := shipped(t, "keeping-watch/hands-not-eyes")
	for seed := range uint64(20) {
		orders[fmt.Sprint(sit(t, Options{Tasks: []Task{task}, Seed: seed}).now.place)] = true
	}
	if len(orders) < 5 {
		t.Errorf("%d orders of 24 in 20 seeds", len(orders))
	}
	all, err := Questions()
	if err != nil {
		t.Fatal(err)
	}
	seen := 0
	for _, task := range all {
		if task.Single == nil || task.Single.Options[0].Says[0] > '9' {
			continue
		}
		seen++
		if got := fmt.Sprint(sit(t, Options{Tasks: []Task{task}, Seed: 5}).now.place); !strings.HasPrefix("[0 1 2 3 4]", strings.TrimSuffix(got, "]")) {
			t.Errorf("%s: numbers stand as %s", task.Name, got)
		}
	}
	if seen == 0 {
		t.Error("no question with numbers as options")
	}
}

func TestEveryOrderingCanBeRightAndWrong(t *testing.T) {
	all, err := Questions()
	if err != nil {
		t.Fatal(err)
	}
	n := 0
	for _, task := range all {
		if task.Order == nil {
			continue
		}
		n++
		s := sit(t, Options{Tasks: []Task{task}})
		at := map[int]int{}
		var shown []string
		for place, step := range s.now.place {
			at[step] = place + 1
			shown = append(shown, fmt.Sprint(place+1))
		}
		var right []string
		for step := range s.now.order.Steps {
			right = append(right, fmt.Sprint(at[step]))
		}
		has(t, say(t, s, strings.Join(right[1:], " ")), "each number from 1 to")
		has(t, say(t, s, strings.Join(right, ", ")), "Right.\n")
		s = sit(t, Options{Tasks: []Task{task}})
		has(t, say(t, s, strings.Join(shown, " ")), "Not right.", "pairs of steps", "A right order", strings.TrimSpace(task.Order.Because))
	}
	if n == 0 {
		t.Error("no ordering")
	}
}

// Votes 0, 1, 8, 2, 1: credits are votes over 8, the votes for the option that
// most chose (aggregate scoring, Charlin 2000, Teach Learn Med 12:189).
func TestConcordanceCreditIsByVotes(t *testing.T) {
	for answer, want := range map[string]struct {
		credit string
		right  bool
	}{"c": {"1", true}, "d": {"0.25", false}, "a": {"0", false}} {
		s := sit(t, Options{Tasks: []Task{concordance(t)}})
		has(t, text(s.Ask()), "If you were thinking: The line leaks.", "neither more nor less likely")
		has(t, say(t, s, answer), "Your answer earns a credit of "+want.credit+" out of 1.", "votes 8, credit 1", "Most leaks are silent.")
		if c, _ := s.o.Progress.Card("weighing/quiet-pump"); c.Passed != want.right {
			t.Errorf("%s: %+v", answer, c)
		}
	}
}
