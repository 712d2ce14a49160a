package otherhour

import (
	"fmt"
	"slices"
	"strings"

	"blanch/sim"
)

// Caution is said under every comparison.
const Caution = "Both hours are of an invented patient in a teaching model. They say what this model does, never what a real arm would have done, and no time here is a safe one. No mark depends on how long the arm was short of blood. On a real arm every leak is treated at once; local policy and licensed practice decide."

// List tells the decisions with their numbers; what follows because of one
// stands under it.
func (h *Hour) List() string {
	var p page
	p.row("Decisions of this hour")
	for i := range h.Decisions {
		d := &h.Decisions[i]
		lead := fmt.Sprintf("%3d  %s  ", d.N, d.At.Exact())
		if d.Within > 0 {
			lead += "- "
		}
		p.say(lead, "%s", d.label())
	}
	if len(h.Decisions) == 0 {
		p.row("  none: nothing was done")
		return p.String()
	}
	p.gap()
	p.say("", "What follows because of a decision stands under it with a dash, and shifts with it. Any of them can be moved: %s.", Forms)
	return p.String()
}

// label is a decision in a line of the list.
func (d *Decision) label() string {
	switch {
	case d.Found != "":
		return fmt.Sprintf("%s, which found: %s; %s because of it, to %s", d.What, lower(d.Found), followed(d.Follows()), d.Ends.Exact())
	case d.Alarm != "":
		return fmt.Sprintf("%s (%s), to %s", d.What, d.alarm(), d.Ends.Exact())
	case d.Kind == Look && d.episode >= 0:
		return fmt.Sprintf("%s, which was then judged to be leaking; %s because of it, to %s", d.What, followed(d.Follows()), d.Ends.Exact())
	case len(d.acts) > 1:
		return fmt.Sprintf("%s (%s), to %s", d.What, counted(len(d.acts), "act"), d.Ends.Exact())
	}
	return d.What
}

func followed(n int) string {
	if n == 1 {
		return "1 act follows"
	}
	return counted(n, "act") + " follow"
}

// alarm is what the alarm said.
func (d *Decision) alarm() string {
	return strings.TrimSuffix(lower(strings.TrimPrefix(d.Alarm, "Alarm: ")), ".")
}

// lower begins a text with a small letter.
func lower(s string) string {
	if s == "" {
		return s
	}
	return strings.ToLower(s[:1]) + s[1:]
}

// Compare tells what was moved and what came of it. Why is the reason for
// which it was tried, empty for a move that somebody asked for.
func (h *Hour) Compare(m Move, why string, other Played) string {
	var p page
	if n := h.about(m); n > 0 {
		h.decided(&p, &h.Decisions[n-1])
	}
	p.say("Moved    ", "%s", h.Moved(m))
	if why != "" {
		p.say("Why      ", "%s.", why)
	}
	h.consequences(&p, m, other)
	p.gap()
	h.sideBySide(&p, other)
	p.gap()
	h.marks(&p, other)
	p.gap()
	h.timeline(&p, other)
	p.gap()
	p.say("", "%s", Caution)
	return p.String()
}

// about is the number of the decision that a move is about; 0 for none.
func (h *Hour) about(m Move) int {
	if m.N > 0 || m.Way != Add || m.act < 0 {
		return m.N
	}
	of := h.decisionsOf(m.act)
	return of[len(of)-1]
}

// decided says what the decision was.
func (h *Hour) decided(p *page, d *Decision) {
	said := fmt.Sprintf("%s  %s", d.At.Exact(), d.What)
	if len(d.own) > 1 {
		var own []string
		for _, i := range d.own {
			own = append(own, h.acts[i].said)
		}
		said += ": " + strings.Join(own, ", ")
	}
	p.say("Decided  ", "%s", said)
	if d.Found != "" {
		p.say("         ", "It found: %s.", lower(d.Found))
	}
	if d.Alarm != "" {
		p.say("         ", "The alarm: %s.", d.alarm())
	}
	var under []string
	for i := range h.Decisions {
		if h.Decisions[i].Within == d.N {
			under = append(under, h.Decisions[i].What)
		}
	}
	switch {
	case len(under) > 0 && len(d.own) > 0:
		p.say("         ", "%s because of it, to %s: %s.", followed(d.Follows()), d.Ends.Exact(), strings.Join(under, "; "))
	case len(under) > 0:
		p.say("         ", "It is made up of %s, to %s: %s.", counted(len(d.acts), "act"), d.Ends.Exact(), strings.Join(under, "; "))
	}
}

// Moved says a move in words.
func (h *Hour) Moved(m Move) string {
	switch m.Way {
	case LeftOut:
		return "left out"
	case As:
		return fmt.Sprintf("%q instead of %q", m.Does.String(), h.acts[m.act].said)
	case Also:
		return fmt.Sprintf("done at %s as well as at %s", m.At.Exact(), h.Decisions[m.N-1].At.Exact())
	case Add:
		if m.act >= 0 {
			return fmt.Sprintf("%q is done first", m.Does.String())
		}
		return fmt.Sprintf("%q is done too, at %s", m.Does.String(), m.At.Exact())
	case To:
		was := h.Decisions[m.N-1].At
		with := ""
		if len(h.Decisions[m.N-1].acts) > 1 {
			with = ", with what belongs to it"
		}
		switch {
		case m.At < was:
			return fmt.Sprintf("%s earlier, to %s%s", words(was-m.At), m.At.Exact(), with)
		case m.At == was:
			return "to the same time"
		case m.At > was:
			return fmt.Sprintf("%s later, to %s%s", words(m.At-was), m.At.Exact(), with)
		}
	}
	return "nothing"
}

// mostTold bounds what is listed of one sort.
const mostTold = 8

// consequences tells what the move led to among the acts.
func (h *Hour) consequences(p *page, m Move, other Played) {
	lead := "So       "
	say := func(format string, args ...any) {
		p.say(lead, format, args...)
		lead = "         "
	}
	opens := m.N > 0 && h.Decisions[m.N-1].episode >= 0
	switch {
	case !opens || !other.looked:
	case other.saw:
		say("The look finds something wrong at that time, and what follows because of it begins then.")
	case m.Way == Also:
		say("The look finds nothing wrong at that time, so what follows from the finding stays where it was.")
	default:
		d := &h.Decisions[m.N-1]
		say("The look finds nothing wrong at that time, and nobody looks at %s any more; \"%d also at %s\" leaves that look where it was.", d.At.Exact(), d.N, m.At.Exact())
	}
	if other.Unanswered > 0 {
		them := "them"
		if other.Unanswered == 1 {
			them = "it"
		}
		say("%s not done: no look found what called for %s.", was(other.Unanswered), them)
	}
	for _, b := range other.blind {
		say("The look at %s that ends at %s finds nothing in the other hour: by then %s. The line leaks all the same, so what followed stays at its time. A mark for having found the leak can be lost by this, and that says nothing for what was moved.", b.line, b.at.Exact(), findable(other.Result, b))
	}
	if len(other.Skipped) > 0 {
		say("%s impossible and skipped:", was(len(other.Skipped)))
		for i, s := range other.Skipped {
			if i == mostTold {
				p.say("         ", "and %d more", len(other.Skipped)-mostTold)
				break
			}
			p.say("         "+s.At.Exact()+"  ", "%s: %s", s.Said, s.Why)
		}
	}
	if n := len(other.Waited); n > 0 {
		longest := slices.MaxFunc(other.Waited, func(a, b Waited) int { return int(a.At - a.Due - b.At + b.Due) })
		say("%s until hands or voice are free, for %s: %s.", waited(n), upTo(n, longest.At-longest.Due), longest.Said)
	}
	if n := other.sooner.n; n > 0 {
		say("%s sooner than before, by %s.", begins(n), upTo(n, other.sooner.most))
	}
	if n := other.later.n; n > 0 {
		say("%s later than before, by %s.", begins(n), upTo(n, other.later.most))
	}
	if lead == "So       " {
		say("Everything else is done at the time at which it was done; nothing became impossible.")
	}
}

func was(n int) string {
	if n == 1 {
		return "1 act was"
	}
	return counted(n, "act") + " were"
}

func begins(n int) string {
	if n == 1 {
		return "1 act that follows begins"
	}
	return counted(n, "act") + " that follow begin"
}

// upTo is the most of several lengths of time.
func upTo(n int, most sim.Time) string {
	if n == 1 {
		return words(most)
	}
	return "up to " + words(most)
}

// findable says what a look could have found of a line by then.
func findable(r *sim.Result, b look) string {
	var signs []string
	for _, s := range r.Sights {
		if s.Subject == b.line && s.At <= b.at && s.Sign != "leak" {
			signs = append(signs, strings.ReplaceAll(s.Sign, "-", " "))
		}
	}
	if len(signs) == 0 {
		return "there is no sign of the leak yet"
	}
	return "the only sign to be found is " + strings.Join(signs, ", ") + ", which this look does not show"
}

func waited(n int) string {
	if n == 1 {
		return "1 act waits"
	}
	return counted(n, "act") + " wait"
}
