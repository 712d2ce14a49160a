package session

import (
	"cmp"
	"fmt"

	"blanch/content"
	"blanch/scenarios"
	"blanch/scoring"
	"blanch/sim"
)

// Policies lists the policies that come with the program.
func Policies() ([]*scenarios.Policy, error) {
	var out []*scenarios.Policy
	for _, id := range content.Policies() {
		p, err := PolicyNamed(id)
		if err != nil {
			return nil, err
		}
		out = append(out, p)
	}
	return out, nil
}

// PolicyNamed loads a policy by its ID in the library or by the path of a
// file. The error is a *RefusedError when the file has faults.
func PolicyNamed(name string) (*scenarios.Policy, error) {
	src, file, err := find(name, "", "policies", content.Policy)
	if err != nil {
		return nil, err
	}
	p, faults := scenarios.LoadPolicy(file, src)
	if p == nil {
		return nil, refused(faults, func(string) []byte { return src })
	}
	return p, nil
}

// Difference is a limit on which two policies differ, and what each says.
type Difference struct{ A, B scenarios.Limit }

// Compare lists the limits on which two policies differ, in the order of a
// policy's file, and the keys of those on which they agree.
func Compare(a, b *scenarios.Policy) (differ []Difference, same []string) {
	of := b.Limits()
	for i, l := range a.Limits() {
		if l.Says == of[i].Says {
			same = append(same, l.Key)
		} else {
			differ = append(differ, Difference{l, of[i]})
		}
	}
	return differ, same
}

// WalkDiffers is a walk-through that two policies mark otherwise.
type WalkDiffers struct {
	Case, Walk string
	Shows      string // what the walk-through is of
	Changes    Changes
}

// CompareWalks plays every walk-through of every case that ships, marks it
// under both policies and gives those that come out otherwise, and how many
// were played. A case that one of the policies cannot mark, since its rules
// want a limit that is not there, is told in unmarked with the reasons.
func CompareWalks(a, b *scenarios.Policy) (differ []WalkDiffers, played int, unmarked []string, err error) {
	for _, id := range content.Cases() {
		src, err := Find(id, "")
		if err != nil {
			return nil, 0, nil, err
		}
		under := func(p *scenarios.Policy) (*Attempt, error) {
			one := src
			one.Policy, one.PolicyFile = p.Source, p.File
			return Load(one, 1)
		}
		one, wrong := under(a)
		other, also := under(b)
		if wrong = cmp.Or(wrong, also); wrong != nil {
			unmarked = append(unmarked, fmt.Sprintf("%s:\n%s", id, wrong))
			continue
		}
		for _, walk := range one.Case.Walks {
			run, _, err := scoring.Play(one.Case, one.Place, walk.Seed, walk.Steps)
			if err != nil {
				return nil, 0, nil, fmt.Errorf("%s, %s: %w", id, walk.ID, err)
			}
			played++
			if c := changesOf(one, other, run); c.Any() {
				differ = append(differ, WalkDiffers{id, walk.ID, oneLine(walk.Text), c})
			}
		}
	}
	return differ, played, unmarked, nil
}

// Changes is how one run is marked under two policies.
type Changes struct {
	Marks                  []MarkChange
	Passed                 [2]bool
	Earned, OutOf          [2]float64
	SameWords, SameVerdict int // how many marks read the same, and how many came out the same
}

// MarkChange is a mark that came out otherwise, or for which the other policy
// finds other words.
type MarkChange struct {
	Rule    string
	Verdict [2]string // "met", "not met", "did not apply"
	Said    [2]string
	Points  [2]float64
}

// Any says that the run comes out otherwise: a verdict, or whether it passes.
func (c Changes) Any() bool { return c.Passed[0] != c.Passed[1] || len(c.Marks) > 0 }

// changesOf marks a run under two policies.
func changesOf(a, b *Attempt, run *sim.Result) Changes {
	one, other := a.marker.Mark(run), b.marker.Mark(run)
	c := Changes{
		Passed: [2]bool{one.Passed, other.Passed},
		Earned: [2]float64{one.Earned, other.Earned}, OutOf: [2]float64{one.OutOf, other.OutOf},
	}
	for i, m := range one.Marks {
		n := other.Marks[i]
		if m.Verdict == n.Verdict {
			c.SameVerdict++
			if m.Said == n.Said {
				c.SameWords++
			}
			continue
		}
		c.Marks = append(c.Marks, MarkChange{
			Rule: m.Rule, Verdict: [2]string{m.Verdict.String(), n.Verdict.String()},
			Said: [2]string{m.Said, n.Said}, Points: [2]float64{m.Earned, n.Earned},
		})
	}
	return c
}
