package session

import (
	"cmp"
	"slices"
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
	Done     string   // "done 0:04", when it was last completed; empty when that says nothing
	Why      string   // why it cannot be done whatever stands in the gaps; empty when it might be
}

// StepNames are the steps of the job, from the first.
func StepNames() []string { return steps[1:] }

// Offers are the sentences about some words, best first; all in the order of
// the job for no word. Step limits them to one step; 0 is every step. What
// cannot be done stays on the list and says why.
func (s *Session) Offers(about string, step int) []Offer {
	want := wanted(about)
	v := s.e.View()
	var out []found
	best := 0
	for _, spec := range sim.Actions() {
		if step != 0 && spec.Step != step || spec.Name == "premixed" && len(s.a.Place.Premixed) == 0 {
			continue // what a unit never has would only stand in the way
		}
		n := s.matches(spec, want)
		if n == 0 && len(want) > 0 {
			continue
		}
		best = max(best, n)
		out = append(out, found{s.offer(spec, v), n, begins(spec.Sentence, want), onWhatRuns(spec, v)})
	}
	out = slices.DeleteFunc(out, func(f found) bool { return f.matches < best-wordMatch })
	slices.SortStableFunc(out, func(a, b found) int {
		return cmp.Or(cmp.Compare(b.matches, a.matches), first(a.begins, b.begins), first(a.runs, b.runs), cmp.Compare(a.Step, b.Step))
	})
	offers := make([]Offer, len(out))
	for i, f := range out {
		offers[i] = f.Offer
	}
	return offers
}

// found is an offer with how well it fits what is searched for.
type found struct {
	Offer
	matches      int
	begins, runs bool
}

// first puts what holds before what does not.
func first(a, b bool) int {
	switch {
	case a == b:
		return 0
	case a:
		return -1
	}
	return 1
}

// searched are the words that are looked for. Gaps may be typed as they are
// shown.
func searched(about string) []string {
	return strings.FieldsFunc(strings.ToLower(about), func(r rune) bool { return strings.ContainsRune(" \t<>{}(),:", r) })
}

// wanted are the words that are looked for, with what the trade's other words
// for them lead to.
func wanted(about string) []string {
	var out []string
	for _, w := range searched(about) {
		if other, ok := synonyms[w]; ok {
			out = append(out, strings.Fields(other)...)
		} else {
			out = append(out, w)
		}
	}
	return out
}

// A typed word counts for more when it begins a word of the sentence, or a
// name that stands in one of its gaps now, than when it begins a word of what
// is said about it.
const (
	wordMatch  = 2
	aboutMatch = 1
)

func (s *Session) matches(spec sim.Spec, want []string) int {
	if len(want) == 0 {
		return 0
	}
	said := searched(spec.Sentence)
	for _, h := range spec.Holes() {
		if names := s.names(h.Kind); len(names) > 0 {
			said = append(said, names...)
		} else {
			said = append(said, searched(strings.Join(h.Choices, " "))...)
		}
	}
	about := searched(spec.Does + " " + steps[spec.Step])
	n := 0
	for _, w := range want {
		starts := func(word string) bool { return strings.HasPrefix(word, w) }
		switch {
		case slices.ContainsFunc(said, starts):
			n += wordMatch
		case slices.ContainsFunc(about, starts):
			n += aboutMatch
		}
	}
	return n
}

// begins says that a sentence begins with the first word that is wanted.
func begins(said string, want []string) bool {
	return len(want) > 0 && strings.HasPrefix(said, want[0])
}

// onWhatRuns says that a sentence is about a pump while one runs.
func onWhatRuns(spec sim.Spec, v sim.View) bool {
	return slices.ContainsFunc(v.Infusions, func(in sim.InfusionView) bool { return in.Running }) &&
		slices.ContainsFunc(spec.Holes(), func(h sentence.Hole) bool { return h.Kind == "pump" })
}

func (s *Session) offer(spec sim.Spec, v sim.View) Offer {
	o := Offer{
		Name: spec.Name, Sentence: spec.Sentence, Does: spec.Does, Takes: spec.Duration(),
		Step: spec.Step, StepName: steps[spec.Step],
	}
	o.Done = s.lastDone(spec, v)
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
			return o
		}
	}
	o.Why = s.Refused(spec.Sentence)
	return o
}

// mostTried bounds how many ways of filling gaps are tried.
const mostTried = 32

// Refused says why a sentence cannot be done whatever stands in its open gaps.
// It is empty when it might be, and while too much is open to tell.
func (s *Session) Refused(said string) string {
	why := ""
	tried := 0
	var try func(said string) bool // false once one is possible, or too many are open
	try = func(said string) bool {
		g, open := s.gap(said)
		if !open {
			a, err := sim.ParseAction(said)
			if tried++; err != nil || tried > mostTried {
				return false
			}
			refused := s.e.Possible(a)
			if why == "" {
				why = refused
			}
			return refused != ""
		}
		from := g.Choices
		switch {
		case g.Prose:
			from = []string{"a word"}
		case g.Many || g.Kind == "request":
			from = from[:1] // which of them is asked for makes nothing impossible
		}
		for _, text := range from {
			filled, err := FillGap(said, text)
			if err != nil || !try(filled) {
				return false
			}
		}
		return len(from) > 0
	}
	if !try(said) {
		return ""
	}
	return why
}
