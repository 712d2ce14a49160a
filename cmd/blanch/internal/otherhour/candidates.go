package otherhour

import (
	"fmt"
	"slices"

	"blanch/scoring"
	"blanch/sim"
	"blanch/sim/quantity"
	"blanch/sim/sentence"
)

// Candidate is a move that is tried, and why.
type Candidate struct {
	Move Move
	Why  string // why it is tried, in words
}

// Candidates are the moves that marks and policy suggest: each decision that a
// critical or a lost mark rests on, left out; what came later than the policy
// asks, at the time that it asks; a rate outside the order, at the ordered
// dose; and drawing back, where the cannula was pulled without.
func (h *Hour) Candidates() []Candidate {
	var out []Candidate
	try := func(why string, m Move) {
		if m.Way != LeftOut && (m.At < 0 || m.At >= h.until) {
			return
		}
		if !slices.ContainsFunc(out, func(c Candidate) bool { return same(c.Move, m) }) {
			out = append(out, Candidate{m, why})
		}
	}
	h.late(try)
	h.missedLooks(try)
	h.offOrder(try)
	h.notDrawnBack(try)
	h.rested(try, func(m scoring.Mark) bool { return m.Verdict == scoring.NotMet })
	h.rested(try, func(m scoring.Mark) bool { return m.Verdict == scoring.Met && m.Critical })
	return out
}

// rested leaves out what marks rest on.
func (h *Hour) rested(try func(string, Move), counts func(scoring.Mark) bool) {
	for _, mark := range h.Before.Sheet.Marks {
		if !counts(mark) {
			continue
		}
		for _, entry := range mark.Evidence {
			for _, n := range h.decisionsOf(h.owner[entry]) {
				try(fmt.Sprintf("The mark %s, which is %s, rests on it", mark.Rule, mark.Verdict), Move{Way: LeftOut, N: n})
			}
		}
	}
}

func same(a, b Move) bool {
	return a.Way == b.Way && a.N == b.N && a.At == b.At && a.act == b.act && a.Does.String() == b.Does.String()
}

// decisionsOf are the numbers of the decisions that an act belongs to.
func (h *Hour) decisionsOf(act int) []int {
	var out []int
	for _, d := range h.Decisions {
		if slices.Contains(d.acts, act) {
			out = append(out, d.N)
		}
	}
	return out
}

// start is when a vasopressor first ran; Never.
func (h *Hour) start() sim.Time {
	at := sim.Never
	for _, l := range h.Before.Result.Lines {
		at = min(at, l.Pressor)
	}
	return at
}

// late finds what was done later than the policy asks.
func (h *Hour) late(try func(string, Move)) {
	p, r := h.Policy, h.Before.Result
	start := h.start()
	lines := 0
	for _, l := range r.Lines {
		if !l.Central && l.Placed <= start {
			lines++
		}
	}
	for i := range h.Decisions {
		d := &h.Decisions[i]
		earlier := func(by sim.Time, why string) {
			if by < d.At {
				try(why, Move{Way: To, N: d.N, At: by})
			}
		}
		switch d.Kind {
		case Drip:
			if o := r.Outcome.FirstDrug; o < sim.Never && o > p.StartBy {
				earlier(d.At-(o-p.StartBy), fmt.Sprintf("The policy asks for drug in the blood within %s of the order", words(p.StartBy)))
			}
		case Line:
			if start == sim.Never || d.At < start {
				continue
			}
			if lines++; lines == 2 {
				earlier(start+p.BackupBy-(d.Ends-d.At), fmt.Sprintf("The policy asks for a second line within %s of the start", words(p.BackupBy)))
			}
		case Antidote:
			if found := FiguresOf(r).Found; found < sim.Never {
				earlier(found+p.AntidoteBy-(d.Ends-d.At), fmt.Sprintf("The policy asks for the antidote within %s of finding the leak", words(p.AntidoteBy)))
			}
		case Act:
			if start < sim.Never && h.asksCentral(d.acts[0]) {
				earlier(start+p.DecideBy-(d.Ends-d.At), fmt.Sprintf("The policy asks for the decision on central access within %s of the start", words(p.DecideBy)))
			}
		}
	}
}

// asksCentral says that an act asks for central access.
func (h *Hour) asksCentral(act int) bool {
	a := h.acts[act].action
	return a.Name == "call" && slices.ContainsFunc(a.Args, func(g sentence.Arg) bool { return g.Kind == "request" && g.Word == "central-access" })
}

// missedLooks finds the looks that the policy asks for at fixed times from
// the start, and nobody made. The next look at that line stands in for them.
func (h *Hour) missedLooks(try func(string, Move)) {
	p := h.Policy
	start := h.start()
	if start == sim.Never || p.CheckEarly <= 0 || p.CheckLater <= 0 {
		return
	}
	for i := range h.Decisions {
		d := &h.Decisions[i]
		if d.Kind != Look || !h.feels(d) && d.episode < 0 {
			continue
		}
		line := subject(h.acts[d.own[0]].action)
		since := h.lastCheck(line, d.At)
		every, at := p.CheckEarly, start
		for at < d.At {
			if at > since && d.At-since > every && d.At-at > sim.Minute {
				try(fmt.Sprintf("The policy asks for a check with the hands every %s; counted from the start, one was due at %s", words(every), at.Clock()), Move{Way: Also, N: d.N, At: at})
			}
			if at-start >= p.EarlyFor {
				every = p.CheckLater
			}
			at += every
		}
	}
}

// feels says that a decision's own looks are a check with the hands.
func (h *Hour) feels(d *Decision) bool {
	return slices.ContainsFunc(d.own, func(i int) bool { return h.acts[i].action.Name == "feel" })
}

// lastCheck is when a line was last felt around before then, or the infusion
// came to it.
func (h *Hour) lastCheck(line string, before sim.Time) sim.Time {
	at := sim.Time(0)
	for i := range h.acts {
		a := &h.acts[i]
		if a.action.Name == "feel" && !a.refused && subject(a.action) == line && a.ends <= before {
			at = max(at, a.ends)
		}
	}
	for _, l := range h.Before.Result.Lines {
		if l.Subject == line && l.Pressor <= before {
			at = max(at, l.Pressor)
		}
	}
	return at
}

// offOrder finds rates that give a dose outside the order as it was meant.
func (h *Hour) offOrder(try func(string, Move)) {
	r := h.Before.Result
	order := r.Case.Meant()
	ordered, ok := h.perMinute(order.Start)
	least, ok1 := h.perMinute(order.Least)
	most, ok2 := h.perMinute(order.Most)
	if !ok || !ok1 || !ok2 {
		return
	}
	for i := range h.acts {
		a := &h.acts[i]
		if a.action.Name != "set" || a.refused {
			continue
		}
		strength := 0.0
		for _, b := range r.Bags {
			if b.Drug == order.Drug && b.MixedAt <= a.At {
				strength = b.Nominal
			}
		}
		does := sim.Action{Name: a.action.Name, By: a.action.By, Args: slices.Clone(a.action.Args)}
		for j := range does.Args {
			if does.Args[j].Kind != "rate" || strength <= 0 {
				continue
			}
			dose := does.Args[j].Number * strength / 60
			rate := quantity.Round(ordered*60/strength, max(h.Policy.RateStepMLH, 0.01))
			if dose <= most*(1+h.Policy.Tolerance) && dose >= least*(1-h.Policy.Tolerance) {
				continue
			}
			does.Args[j].Number, does.Args[j].Quantity = rate, quantity.Of(rate, "mL/h")
			ns := h.decisionsOf(i)
			try(fmt.Sprintf("%s gives %s; the order starts at %s and ends at %s", a.action.Args[j].Quantity, quantity.Of(quantity.Round(dose, 0.1), "mcg/min"), order.Start, order.Most),
				Move{Way: As, N: ns[len(ns)-1], Does: does, act: i})
		}
	}
}

// perMinute is an ordered dose in mcg/min, for the weight that the policy doses
// by; false for a drug in units.
func (h *Hour) perMinute(q quantity.Quantity) (float64, bool) {
	if v, err := q.In(quantity.MustUnit("mcg/min")); err == nil {
		return v, true
	}
	v, err := q.In(quantity.MustUnit("mcg/kg/min"))
	return v * scoring.DosingKG(h.Policy, h.Case.Patient), err == nil
}

// notDrawnBack finds a leaking cannula that was pulled before anything was
// drawn back through it.
func (h *Hour) notDrawnBack(try func(string, Move)) {
	for i := range h.acts {
		a := &h.acts[i]
		line := subject(a.action)
		if a.action.Name != "pull" || a.refused || !leaking(h.Before.Result, line, a.At) {
			continue
		}
		drawn := slices.ContainsFunc(h.acts[:i], func(b act) bool {
			return b.action.Name == "draw-back" && !b.refused && subject(b.action) == line && leaking(h.Before.Result, line, b.At)
		})
		if drawn {
			continue
		}
		if does, err := sim.ParseAction("draw back from " + line); err == nil {
			try("The cannula was pulled before anything was drawn back through it", Move{Way: Add, At: a.At, Does: does, act: i})
		}
	}
}
