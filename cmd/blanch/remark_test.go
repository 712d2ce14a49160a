package main

import (
	"fmt"
	"strings"
	"testing"

	"blanch/cmd/blanch/internal/session"
	"blanch/content"
	"blanch/scoring"
	"blanch/sim"
)

// recorded plays a walk-through under its own policy and keeps it as a
// recording holds it.
func recorded(t *testing.T, src session.Source, walk string) session.Record {
	t.Helper()
	a, err := session.Load(src, 1)
	if err != nil {
		t.Fatal(err)
	}
	for _, w := range a.Case.Walks {
		if w.ID != walk {
			continue
		}
		r, faults, err := scoring.Play(a.Case, a.Place, w.Seed, w.Steps)
		if err != nil || len(faults) > 0 {
			t.Fatal(err, faults)
		}
		return session.Record{
			Revision: sim.Revision, Seed: w.Seed, Source: src, Said: session.Inputs(r), Reached: int64(r.Ended),
			Ended: &session.Stored{At: int64(r.Ended), Journal: session.Journal(r.Journal), Sheet: session.Sheet(a, r)},
		}
	}
	t.Fatalf("no walk-through %s", walk)
	return session.Record{}
}

// Every walk-through that ships plays without a fault under every policy that
// ships, and its journal is the same byte for byte: a policy marks, and never
// reaches the arm.
func TestEveryWalkUnderEveryPolicy(t *testing.T) {
	policies := content.Policies()
	if len(policies) < 5 {
		t.Fatalf("only %d policies ship", len(policies))
	}
	sheets := map[string]bool{}
	played := 0
	for _, id := range content.Cases() {
		own, err := session.Find(id, "")
		if err != nil {
			t.Fatal(err)
		}
		a, err := session.Load(own, 1)
		if err != nil {
			t.Fatal(err)
		}
		for n, w := range a.Case.Walks {
			if testing.Short() && n > 0 {
				break
			}
			rec := recorded(t, own, w.ID)
			for _, policy := range policies {
				out, err := session.Remark(rec, policy)
				if err != nil {
					t.Errorf("%s, %s under %s: %v", id, w.ID, policy, err)
					continue
				}
				played++
				if out.Journal != rec.Ended.Journal || out.Differs != "" {
					t.Errorf("%s, %s under %s: another journal: %s", id, w.ID, policy, out.Differs)
				}
				under, err := session.Find(id, policy)
				if err != nil {
					t.Fatal(err)
				}
				other, err := session.Load(under, w.Seed)
				if err != nil {
					t.Fatal(err)
				}
				r, faults, err := scoring.Play(other.Case, other.Place, w.Seed, w.Steps)
				if err != nil || len(faults) > 0 {
					t.Errorf("%s, %s under %s: %v %v", id, w.ID, policy, err, faults)
					continue
				}
				if session.Journal(r.Journal) != rec.Ended.Journal || session.Sheet(other, r) != out.Sheet {
					t.Errorf("%s, %s under %s: played and marked again differ", id, w.ID, policy)
				}
				if policy == a.Policy.ID && (out.Sheet != rec.Ended.Sheet || out.Changes.Any()) {
					t.Errorf("%s, %s: its own policy changes its marks", id, w.ID)
				}
				sheets[out.Sheet] = true
			}
		}
	}
	if len(sheets) < played/2 {
		t.Errorf("%d sheets of %d differ: the policies hardly do", len(sheets), played)
	}
}

// What changes is told rule by rule, and both results stand above it.
func TestRemarkTellsWhatChanges(t *testing.T) {
	src, err := session.Find("night-bridge", "")
	if err != nil {
		t.Fatal(err)
	}
	rec := recorded(t, src, "line-at-once")
	out, err := session.Remark(rec, "quarry-lane")
	if err != nil {
		t.Fatal(err)
	}
	var said strings.Builder
	for _, l := range out.Changes.Words("alder-court", "quarry-lane") {
		fmt.Fprintln(&said, l.Text)
	}
	want := `- Under alder-court: passed with 104 of 104 points.
- Under quarry-lane: not passed with 98 of 104 points.
- checks-kept: met under alder-court, not met under quarry-lane.
    In the first 4 h of the drug, to 4:13, the longest that one arm line ran without a hand on it was 20 min 50 s; there the policy asks for 15 min. A glance is not a check, and a steady pressure never clears an arm.
`
	if said.String() != want {
		t.Errorf("it says\n%s\nwant\n%s", said.String(), want)
	}
	rec.Ended.Journal = strings.Replace(rec.Ended.Journal, "read the order", "read a novel", 1)
	if out, err := session.Remark(rec, "quarry-lane"); err != nil || out.Differs == "" {
		t.Errorf("a journal that was changed passes: %v", err)
	}
	rec.Ended = nil
	if _, err := session.Remark(rec, "quarry-lane"); err == nil {
		t.Error("an unfinished attempt is marked")
	}
}
