package trial

import (
	"testing"

	"blanch/content"
	"blanch/scenarios"
	"blanch/sim"
)

// shipped is a case that ships, with its place and policy.
func shipped(tb testing.TB, id string) (*scenarios.Case, *sim.Place, *scenarios.Policy) {
	tb.Helper()
	src, file, err := content.Case(id)
	if err != nil {
		tb.Fatal(err)
	}
	c, faults := scenarios.LoadCase(file, src)
	if c == nil {
		tb.Fatal(faults)
	}
	src, file, _ = content.Place(c.Place)
	place, faults := scenarios.LoadPlace(file, src)
	if place == nil {
		tb.Fatal(faults)
	}
	src, file, _ = content.Policy(c.Policy)
	policy, faults := scenarios.LoadPolicy(file, src)
	if policy == nil {
		tb.Fatal(faults)
	}
	return c, place, policy
}

func TestDump(t *testing.T) {
	s, err := New(shipped(t, "night-bridge"))
	if err != nil {
		t.Fatal(err)
	}
	const n = 50
	runs, tried, refused, err := s.play(Kinds(), n, 1)
	if err != nil {
		t.Fatal(err)
	}
	for k, kind := range Kinds() {
		sum, pass := 0.0, 0
		lost := map[string]int{}
		for _, r := range runs[k*n : k*n+n] {
			sum += r.Share
			if r.Passed {
				pass++
			}
			for i, v := range r.verdicts {
				if v == 2 {
					lost[s.c.Rules[i].ID]++
				}
			}
		}
		t.Logf("%-20s %5.1f %% pass %d  %v", kind.ID, 100*sum/n, pass, lost)
	}
	for i, a := range actions {
		t.Log(a.Name, tried[i], refused[i])
	}
}
