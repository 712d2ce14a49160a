package scoring

import (
	"fmt"
	"slices"
	"strings"

	"blanch/scenarios"
	"blanch/sim"
)

// CheckWalks plays every walk-through of a case in a place and holds its
// marks against what the author said it would earn. Policy looks policies up
// by name. What [Check] finds under the case's own policy is not repeated;
// rules that only another policy makes faulty are reported once.
func CheckWalks(c *scenarios.Case, place *sim.Place, policy func(id string) (*scenarios.Policy, bool)) []scenarios.Complaint {
	var faults []scenarios.Complaint
	markers := map[string]*Marker{}
	var known []scenarios.Complaint
	if p, ok := policy(c.Policy); ok {
		markers[c.Policy], known = Compile(c, p)
	}
	for _, walk := range c.Walks {
		id := walk.Policy
		if id == "" {
			id = c.Policy
		}
		m, compiled := markers[id]
		if !compiled {
			p, ok := policy(id)
			if !ok {
				faults = append(faults, walkComplaint(walk, "unknown-policy", fmt.Sprintf("walk-through %s: there is no policy called %q", walk.ID, id), "a policy that is at hand"))
				continue
			}
			var wrong []scenarios.Complaint
			m, wrong = Compile(c, p)
			markers[id] = m
			for _, w := range wrong {
				if !slices.Contains(known, w) {
					known, faults = append(known, w), append(faults, w)
				}
			}
		}
		if m != nil {
			faults = append(faults, checkWalk(c, place, m, walk)...)
		}
	}
	return faults
}

func checkWalk(c *scenarios.Case, place *sim.Place, m *Marker, walk scenarios.Walk) []scenarios.Complaint {
	result, faults, err := play(c, place, walk.Seed, walk.Steps)
	if err != nil {
		return []scenarios.Complaint{walkComplaint(walk, "cannot-play", fmt.Sprintf("walk-through %s cannot be played: %v", walk.ID, err), "")}
	}
	for i := range faults {
		faults[i].Said = called(walk) + ": " + faults[i].Said
	}
	differs := compareWalk(m.Mark(result), walk)
	for i := range differs {
		for _, f := range faults {
			if f.Pos.Line >= differs[i].Follows.Line {
				differs[i].Follows = f.Pos
			}
		}
	}
	return append(faults, differs...)
}

// compareWalk says in words where the marks differ from what the author
// said.
func compareWalk(s Sheet, walk scenarios.Walk) []scenarios.Complaint {
	var differs []string
	for _, mark := range s.Marks {
		loses := slices.Contains(walk.Loses, mark.Rule)
		switch {
		case loses && mark.Verdict == Met:
			differs = append(differs, mark.Rule+" should be lost, and is met")
		case loses && mark.Verdict == DidNotApply:
			differs = append(differs, mark.Rule+" should be lost, and did not apply")
		case !loses && mark.Verdict == NotMet:
			differs = append(differs, fmt.Sprintf("%s is lost, and should not be (%s)", mark.Rule, mark.Said))
		}
	}
	for _, id := range walk.Loses {
		if !slices.ContainsFunc(s.Marks, func(m Mark) bool { return m.Rule == id }) {
			differs = append(differs, fmt.Sprintf("there is no rule %s to lose", id))
		}
	}
	if s.Passed != walk.Passes {
		said := fmt.Sprintf("it passes with %s, and should not", ofPoints(s.Earned, s.OutOf))
		if walk.Passes {
			said = "it does not pass, and should: " + strings.Join(s.Why, "; ")
		}
		differs = append(differs, said)
	}
	if len(differs) == 0 {
		return nil
	}
	allowed := "loses: nothing"
	if lost := lostRules(s); len(lost) > 0 {
		allowed = "loses: [" + strings.Join(lost, ", ") + "]"
	}
	return []scenarios.Complaint{walkComplaint(walk, "walk-through-differs",
		called(walk)+": "+strings.Join(differs, "; "),
		fmt.Sprintf("what the run earns is %s, passes: %s", allowed, format(s.Passed)))}
}

// called names a run and its luck, since another seed may judge otherwise.
func called(walk scenarios.Walk) string {
	return fmt.Sprintf("walk-through %s (seed %d)", walk.ID, walk.Seed)
}

func lostRules(s Sheet) []string {
	var lost []string
	for _, m := range s.Marks {
		if m.Verdict == NotMet {
			lost = append(lost, m.Rule)
		}
	}
	return lost
}

func walkComplaint(walk scenarios.Walk, code, said, allowed string) scenarios.Complaint {
	return scenarios.Complaint{Level: scenarios.Error, Code: code, Pos: walk.Pos, Said: said, Allowed: allowed}
}
