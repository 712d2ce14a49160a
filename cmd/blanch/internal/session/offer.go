package session

import (
	"cmp"
	"fmt"
	"slices"
	"strings"

	"blanch/sim"
	"blanch/sim/drug"
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
		if step != 0 && spec.Step != step {
			continue
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
	Usual   int    // the choice to begin with
	Only    string // the one name that can stand there now; empty when there are several
}

// NextGap finds the first gap of a sentence; false when there is none. The
// likeliest names come first, and those with which it is refused last.
func (s *Session) NextGap(said string) (Gap, bool) {
	g, open := s.gap(said)
	if !open || !isName(g.Kind) {
		return g, open
	}
	g.Choices = slices.Clone(g.Choices)
	rank := map[string]int{}
	var possible []string
	for _, name := range g.Choices {
		rank[name] = s.unlikely(said, g.Kind, name)
		if filled, err := FillGap(said, name); err == nil && s.Refused(filled) != "" {
			rank[name] += 10
		} else {
			possible = append(possible, name)
		}
	}
	slices.SortStableFunc(g.Choices, func(a, b string) int { return cmp.Compare(rank[a], rank[b]) })
	switch {
	case len(g.Choices) == 1: // why it is refused, if it is, is said of the whole sentence
		g.Only = g.Choices[0]
	case len(possible) == 1:
		g.Only = possible[0]
	}
	return g, true
}

// unlikely is 0 for a name that a gap is most likely to want: the line that
// was judged to be leaking and lies there still when the sentence answers a
// leak, else the one that the drug runs through; a pump that runs; a syringe
// for what goes into tissue and a bag for what hangs.
func (s *Session) unlikely(said, kind, name string) int {
	v := s.e.View()
	spec := sim.Spec{}
	for _, a := range sim.Actions() {
		lead, _, _ := strings.Cut(a.Sentence, "{")
		if lead != "" && strings.HasPrefix(said, lead) {
			spec = a
		}
	}
	const respond = 9 // the step of the job
	switch kind {
	case "line":
		if spec.Step == respond && name == s.leaking() {
			return 0
		}
		for _, in := range v.Infusions {
			if in.Running && in.Line == name {
				return 1
			}
		}
		return 2
	case "pump":
		for _, in := range v.Infusions {
			if in.Pump == name && in.Running {
				return 0
			}
		}
		return 1
	case "bag":
		for _, b := range v.Bags {
			d, known := drug.Named(b.Drug)
			if b.ID == name && (known && d.Role == drug.Antidote) != (spec.Step == respond) {
				return 1
			}
		}
	}
	return 0
}

// leaking is the line that was last judged to be leaking; empty for none.
func (s *Session) leaking() string {
	for i := len(s.entries) - 1; i >= 0; i-- {
		if en := s.entries[i]; en.Kind == sim.Done && en.Act == "judge" && en.Word == "leaking" {
			return en.Subject
		}
	}
	return ""
}

// gap finds the first gap of a sentence; false when there is none.
func (s *Session) gap(said string) (Gap, bool) {
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
	if kind == "arm" {
		g.Usual = max(0, slices.Index(g.Choices, s.armInHand()))
	}
	return g, true
}

// armInHand is the arm that the cannula in hand is meant for.
func (s *Session) armInHand() string {
	inHand := strings.FieldsFunc(s.e.View().InHand, func(r rune) bool { return r == ' ' || r == ',' })
	for _, v := range s.a.Case.Veins {
		if slices.Contains(inHand, v.ID) {
			return string(v.Side)
		}
	}
	return ""
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
	Again string // "done already at 0:04", of an act that finds the same again; else empty
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
	if a.Name == "scan" || a.Name == "examine" || a.Name == "read-notes" || a.Name == "ask-arms" {
		for _, en := range s.entries {
			if en.Kind == sim.Done && en.Act == a.Name && en.Said == p.Said {
				p.Again = "done already at " + en.At.Clock()
			}
		}
	}
	p.Why = s.e.Possible(a)
	return p
}

// Whole says that a text is a sentence without gaps.
func Whole(said string) bool {
	_, err := sim.ParseAction(said)
	return err == nil
}

// Asked is the sentence said to someone else.
func Asked(who, said string) string { return fmt.Sprintf("ask %s to %s", who, said) }
