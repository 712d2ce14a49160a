package session

import (
	"errors"
	"fmt"

	"blanch/sim"
	"blanch/sim/quantity"
)

// Remarked is a recording that was played again as it was and marked under
// another policy as well.
type Remarked struct {
	Journal      string
	Sheet        string // under the other policy
	Before, Then string // IDs of the policy recorded and of the other one
	Changes      Changes
	Differs      string // where the journal differs from what was stored, empty when nowhere
}

// Remark plays a finished recording again and marks it under another policy.
// A policy never reaches the engine, so the arm is the same to the bit; the
// journal shows it. Name is an ID of the library or the path of a file.
func Remark(r Record, name string) (Remarked, error) {
	switch {
	case r.Ended == nil:
		return Remarked{}, errors.New("the attempt has not ended, so there is nothing to mark again: resume goes on with it")
	case r.Revision != sim.Revision:
		return Remarked{}, fmt.Errorf("it was played with engine revision %d and this is revision %d: replay without --policy shows its marks as they were stored", r.Revision, sim.Revision)
	}
	before, err := Load(r.Source, r.Seed)
	if err != nil {
		return Remarked{}, err
	}
	p, err := PolicyNamed(name)
	if err != nil {
		return Remarked{}, err
	}
	under := r.Source
	under.Policy, under.PolicyFile = p.Source, p.File
	then, err := Load(under, r.Seed)
	if err != nil {
		return Remarked{}, err
	}
	s, err := New(then, 0)
	if err != nil {
		return Remarked{}, err
	}
	if err := s.repeat(r); err != nil {
		return Remarked{}, err
	}
	out := Remarked{
		Journal: s.Journal(), Sheet: s.marks(), Before: before.Policy.ID, Then: p.ID,
		Changes: changesOf(before, then, s.e.Result()),
	}
	out.Differs = differs("journal", out.Journal, r.Ended.Journal)
	return out, nil
}

func points(p float64) string { return quantity.Number(quantity.Round(p, 0.01)) }

// Words says in sentences what changed between the two policies. Names are
// what to call them.
func (c Changes) Words(a, b string) []Line {
	var lines []Line
	result := func(i int) string {
		word := "not passed"
		if c.Passed[i] {
			word = "passed"
		}
		unit := "points"
		if points(c.OutOf[i]) == "1" {
			unit = "point"
		}
		return fmt.Sprintf("%s with %s of %s %s", word, points(c.Earned[i]), points(c.OutOf[i]), unit)
	}
	lines = append(lines, told("- Under %s: %s.", a, result(0)), told("- Under %s: %s.", b, result(1)))
	for _, m := range c.Marks {
		lines = append(lines, told("- %s: %s under %s, %s under %s.", m.Rule, m.Verdict[0], a, m.Verdict[1], b))
		if m.Said[1] != "" {
			lines = append(lines, Line{Kind: Told, Text: "    " + m.Said[1]})
		}
	}
	switch n := c.SameVerdict - c.SameWords; {
	case len(c.Marks) == 0 && n == 0:
		lines = append(lines, told("Every mark is the same."))
	case len(c.Marks) == 0:
		lines = append(lines, told("Every mark comes out the same, though %d of them name other limits.", n))
	}
	return lines
}
