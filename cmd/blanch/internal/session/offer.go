package session

import (
	"fmt"
	"sort"
	"strings"

	"blanch/sim"
	"blanch/sim/sentence"
)

// Offer is a sentence that can be said, with its gaps.
type Offer struct {
	Name     string
	Sentence string // with a {kind} for each gap
	Does     string
	Takes    string
	Step     int
	StepName string
	Others   []string // people at the bed who can be asked to do it
	Why      string   // why it cannot be done whatever stands in the gaps; empty when it might be
}

// StepNames are the steps of the job, from the first.
func StepNames() []string { return steps[1:] }

// Offers are the sentences about some words, in the order of the job; all for
// no word. Step limits them to one step; 0 is every step. What cannot be done
// stays on the list and says why.
func (s *Session) Offers(about string, step int) []Offer {
	want := strings.Fields(strings.ToLower(about))
	v := s.e.View()
	var out []Offer
	for _, spec := range sim.Actions() {
		if step != 0 && spec.Step != step {
			continue
		}
		text := strings.ToLower(spec.Sentence + " " + spec.Does + " " + steps[spec.Step])
		fits := true
		for _, w := range want {
			fits = fits && strings.Contains(text, w)
		}
		if fits {
			out = append(out, s.offer(spec, v))
		}
	}
	sort.SliceStable(out, func(i, j int) bool {
		a, b := begins(out[i].Sentence, want), begins(out[j].Sentence, want)
		return a && !b || a == b && out[i].Step < out[j].Step
	})
	return out
}

// begins says that a sentence begins with the first word that is wanted.
func begins(said string, want []string) bool {
	return len(want) > 0 && strings.HasPrefix(said, want[0])
}

func (s *Session) offer(spec sim.Spec, v sim.View) Offer {
	o := Offer{
		Name: spec.Name, Sentence: spec.Sentence, Does: spec.Does, Takes: spec.Duration(),
		Step: spec.Step, StepName: steps[spec.Step],
	}
	for _, p := range v.People {
		for _, role := range spec.By {
			if p.Here && p.Role == role {
				o.Others = append(o.Others, p.ID)
			}
		}
	}
	for _, h := range spec.Holes() {
		if isName(h.Kind) && len(s.e.Vocabulary(h.Kind)) == 0 {
			o.Why = "there is nothing yet that could be named here: " + h.Says
		}
	}
	if len(spec.Holes()) == 0 {
		o.Why = s.e.Possible(sim.Action{Name: spec.Name})
	}
	return o
}

// isName says that a gap holds the name of something in the case.
func isName(kind string) bool {
	switch kind {
	case "vein", "line", "pump", "bag", "person", "call", "sum", "drug":
		return true
	}
	return false
}

// Gap is the first gap of a sentence that is still open.
type Gap struct {
	Kind    string
	Says    string   // what belongs there
	Choices []string // what can be picked; empty when it is written
	Many    bool     // several of them
	Prose   bool     // one's own words
	Example string
}

// NextGap finds the first gap of a sentence; false when there is none.
func (s *Session) NextGap(said string) (Gap, bool) {
	_, after, open := strings.Cut(said, "{")
	kind, _, closed := strings.Cut(after, "}")
	h, known := sentence.Named(kind)
	if !open || !closed || !known {
		return Gap{}, false
	}
	g := Gap{Kind: kind, Says: h.Says, Example: h.Example, Many: kind == "facts", Prose: kind == "text"}
	switch {
	case kind == "gauge" || kind == "length" || isName(kind):
		g.Choices = s.names(kind)
	default:
		g.Choices = h.Choices
	}
	return g, true
}

// FillGap puts text into the first gap. The error says what does not fit.
func FillGap(said, text string) (string, error) {
	before, after, _ := strings.Cut(said, "{")
	kind, rest, _ := strings.Cut(after, "}")
	if h, ok := sentence.Named(kind); ok {
		if _, err := h.Read(text); err != nil {
			return said, err
		}
	}
	return before + strings.ReplaceAll(oneLine(text), "{", "(") + rest, nil
}

// Preview is what a whole sentence would do.
type Preview struct {
	Said  string // as it will be written
	Does  string
	Takes string // how long, and what it holds
	Why   string // why it cannot be done now; empty when it can
}

// Preview says what a sentence would do before it is done. It costs no time
// and leaves no trace.
func (s *Session) Preview(said string) Preview {
	a, err := sim.ParseAction(said)
	if err != nil {
		return Preview{Said: said, Why: err.Error()}
	}
	spec, _ := sim.ActionNamed(a.Name)
	p := Preview{Said: a.String(), Does: spec.Does, Takes: spec.Duration()}
	switch {
	case a.By != "":
		p.Takes += ", done by " + a.By
	case spec.Holds == sim.Voice:
		p.Takes += ", holds your voice"
	case spec.Holds == sim.Hands && spec.Away:
		p.Takes += ", away from the bed"
	case spec.Holds == sim.Hands:
		p.Takes += ", holds your hands"
	}
	p.Why = s.e.Possible(a)
	return p
}

// Asked is the sentence said to someone else.
func Asked(who, said string) string { return fmt.Sprintf("ask %s to %s", who, said) }
