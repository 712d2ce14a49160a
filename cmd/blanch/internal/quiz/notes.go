package quiz

import (
	"slices"

	"blanch/cmd/blanch/internal/session"
	"blanch/sim/sum"
)

// notation is what there is to say on how an answer was written.
type notation struct {
	head string
	says []string
}

// note keeps what there is to say on notation that can be misread, for each
// stage apart: two answers of one value can each be written badly.
func (a *asked) note(m sum.Mark) {
	if len(m.Answer.Unsafe) == 0 {
		return
	}
	where := "your answer"
	if a.drawn.Device != "" {
		switch a.stage {
		case sum.Compute:
			where = "what you computed"
		case sum.SetDevice:
			where = "what you set"
			if a.drawn.Device == "label" {
				where = "what you wrote on the label"
			}
		}
	}
	head := told("On notation: %s was taken as %s, but as you wrote it, it can be misread (%s).", where, m.Answer.Value, sum.NotationRule).Text
	at := slices.IndexFunc(a.notes, func(n notation) bool { return n.head == head })
	if at < 0 {
		at = len(a.notes)
		a.notes = append(a.notes, notation{head: head})
	}
	for _, u := range m.Answer.Unsafe {
		if !slices.Contains(a.notes[at].says, u) {
			a.notes[at].says = append(a.notes[at].says, u)
		}
	}
}

// noted is all that was kept on notation.
func (a *asked) noted() []session.Line {
	var out []session.Line
	for _, n := range a.notes {
		out = append(out, told("%s", n.head))
		for _, u := range n.says {
			out = append(out, told("  - %s.", u))
		}
	}
	return out
}
