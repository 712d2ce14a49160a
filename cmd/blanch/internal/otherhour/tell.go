package otherhour

import (
	"fmt"

	"blanch/scoring"
	"blanch/sim"
)

// Tell says which decision the tool picked and why, and compares the hours.
func (h *Hour) Tell(c Choice) string {
	var p page
	switch {
	case c.Clear:
		p.row("The decision that mattered most")
		p.say("", "Of %s that marks and policy suggest, this one takes the most off the time in which %s, and costs no critical mark.", counted(c.Tried, "move"), measures[c.By].what)
		if drops(FiguresOf(h.Before.Result), FiguresOf(c.Played.Result))[1] <= -LeastMin {
			p.say("", "It leaves the pressure under the target for longer: the drug that was too much had held it up.")
		}
	case c.Tried == 0:
		p.say("", "Nothing that was decided in this hour can be moved so that it would matter: %s.", h.decidedOnly())
		h.missing(&p)
		p.gap()
		p.say("", "%s", Caution)
		return p.String()
	default:
		p.row("No single decision would have changed much")
		p.say("", "Of %s that marks and policy suggest, none takes %g min or more off the time in which the arm is short of blood, the pressure is outside what the order asks for, or no drug has come yet, without a cost elsewhere.", counted(c.Tried, "move"), LeastMin)
		switch {
		case c.Best.Move.Way != Nothing:
			p.say("", "This is the one that the lost marks hang on. What speaks for it is said by the mark, not by these figures:")
		case h.lost() > 0:
			p.say("", "None of them meets a mark that was lost.")
			h.missing(&p)
		default:
			p.say("", "No mark was lost.")
		}
	}
	if f := FiguresOf(h.Before.Result); f.Visible < sim.Never && f.Found == sim.Never {
		p.say("", "The leak was never found in this hour. What was never done cannot be moved, and it can weigh more than all that was done.")
	}
	if c.Best.Move.Way == Nothing {
		p.gap()
		p.say("", "%s", Caution)
		return p.String()
	}
	p.gap()
	p.WriteString(h.Compare(c.Best.Move, c.Best.Why, c.Played))
	return p.String()
}

// decidedOnly says how little was decided.
func (h *Hour) decidedOnly() string {
	switch len(h.Decisions) {
	case 0:
		return "nothing was done in it"
	case 1:
		return fmt.Sprintf("all that was done is %q", h.Decisions[0].What)
	}
	return fmt.Sprintf("no mark that counts rests on any of its %d decisions, and none came later than the policy asks", len(h.Decisions))
}

func (h *Hour) lost() int {
	n := 0
	for _, m := range h.Before.Sheet.Marks {
		if m.Verdict == scoring.NotMet {
			n++
		}
	}
	return n
}

// missing tells the critical marks that were lost, or else the others.
func (h *Hour) missing(p *page) {
	critical, others := []scoring.Mark{}, []scoring.Mark{}
	for _, m := range h.Before.Sheet.Marks {
		switch {
		case m.Verdict != scoring.NotMet:
		case m.Critical:
			critical = append(critical, m)
		default:
			others = append(others, m)
		}
	}
	what, list := "What was missing, and critical, by the sheet:", critical
	if len(critical) == 0 {
		what, list = "What was lost, by the sheet:", others
	}
	if len(list) == 0 {
		return
	}
	p.gap()
	p.row("%s", what)
	for _, m := range list {
		p.say("  ", "%s", m.Rule)
		p.say("    ", "%s", m.Said)
	}
}
