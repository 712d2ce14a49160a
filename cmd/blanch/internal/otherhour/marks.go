package otherhour

import (
	"strings"

	"blanch/scoring"
)

// marks tells which marks changed.
func (h *Hour) marks(p *page, other Played) {
	verdicts, still := changed(h.Before.Sheet, other.Sheet)
	if len(verdicts) > 0 {
		p.row("Marks that change")
	} else {
		p.row("No mark changes its verdict.")
	}
	for _, c := range verdicts {
		crit := ""
		if c.After.Critical {
			crit = ", critical"
		}
		p.say("  ", "%s%s: %s, now %s", c.Before.Rule, crit, c.Before.Verdict, c.After.Verdict)
		if c.After.Said != "" {
			p.say("    ", "%s", c.After.Said)
		}
		if len(other.blind) > 0 && c.Before.Verdict == scoring.Met && c.After.Verdict == scoring.NotMet {
			p.say("    ", "This comes of the look that finds nothing in the other hour, as said above.")
		}
	}
	var names []string
	if len(still) > 0 {
		p.row("Still not met")
	}
	for _, m := range still {
		if !m.Critical {
			names = append(names, m.Rule)
			continue
		}
		p.say("  ", "%s, critical", m.Rule)
		p.say("    ", "%s", m.Said)
	}
	if len(names) > 0 {
		p.say("  ", "%s", strings.Join(names, ", "))
	}
}

// ChangedMark is a mark with another verdict.
type ChangedMark struct{ Before, After scoring.Mark }

// changed lists the marks with another verdict, and those that are lost in
// both hours, as they are said in the other one.
func changed(before, after scoring.Sheet) (verdicts []ChangedMark, still []scoring.Mark) {
	for i, b := range before.Marks {
		a := after.Marks[i]
		switch {
		case a.Verdict != b.Verdict:
			verdicts = append(verdicts, ChangedMark{b, a})
		case a.Verdict == scoring.NotMet:
			still = append(still, a)
		}
	}
	return verdicts, still
}

// loses says that a sheet has lost a critical mark that was met, or more
// points than it has gained.
func loses(before, after scoring.Sheet) bool {
	balance := 0.0
	for i, b := range before.Marks {
		a := after.Marks[i]
		switch {
		case b.Verdict == scoring.Met && a.Verdict == scoring.NotMet:
			if b.Critical {
				return true
			}
			balance -= b.Points
		case b.Verdict == scoring.NotMet && a.Verdict == scoring.Met:
			balance += b.Points
		}
	}
	return balance < 0
}

// mended is what the marks weigh that were lost and are met.
func mended(before, after scoring.Sheet) float64 {
	sum := 0.0
	for i, b := range before.Marks {
		if b.Verdict == scoring.NotMet && after.Marks[i].Verdict == scoring.Met {
			sum += b.Points
			if b.Critical {
				sum += critical
			}
		}
	}
	return sum
}

// critical outweighs any number of points.
const critical = 1e6
