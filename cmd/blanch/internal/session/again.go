package session

import (
	"fmt"
	"slices"

	"blanch/sim"
)

// Again is the last look at a line, to be done once more.
type Again struct {
	Line  string
	At    string    // when it began
	Acts  []LookAct // possible now, in the order they were done; without findings
	Takes string    // all of them together
	Why   string    // why none of them can be done; empty when one can
}

// LookAgain is what the last visit to a line was made of. What was done to the
// flow, a flush or a draw for blood, is no part of it: that is decided anew
// each time.
func (s *Session) LookAgain(line string) Again {
	visits := s.visits(line)
	if len(visits) == 0 {
		return Again{Line: line, Why: "there was no look at this line yet"}
	}
	last := visits[len(visits)-1]
	g := Again{Line: line, At: last[0].At.Clock()}
	var acts []string
	takes := sim.Time(0)
	for _, en := range last {
		if slices.Contains(acts, en.Act) || en.Act == "flush" || en.Act == "blood-return" {
			continue
		}
		acts = append(acts, en.Act)
		for _, act := range lookActs {
			if act.act != en.Act {
				continue
			}
			said := fmt.Sprintf(act.sentence, line)
			p := s.Preview(said)
			if p.Why != "" {
				g.Why = p.Why
				continue
			}
			spec, _ := sim.ActionNamed(act.act)
			g.Acts = append(g.Acts, LookAct{Short: act.short, Said: said, Takes: spec.Duration()})
			takes += spec.Takes
		}
	}
	switch {
	case len(g.Acts) > 0:
		g.Why, g.Takes = "", toTheSecond(takes)
	case g.Why == "":
		g.Why = "the last look at this line was a flush or a draw for blood only"
	}
	return g
}

// toTheSecond writes a span whole, "35 s" or "1 min 15 s".
func toTheSecond(t sim.Time) string {
	switch whole, rest := t/sim.Minute, t%sim.Minute/sim.Second; {
	case whole == 0:
		return fmt.Sprintf("%d s", rest)
	case rest == 0:
		return fmt.Sprintf("%d min", whole)
	default:
		return fmt.Sprintf("%d min %d s", whole, rest)
	}
}
