package session

import (
	"cmp"
	"fmt"
	"regexp"
	"slices"
	"strings"

	"blanch/sim"
	"blanch/sim/drug"
	"blanch/sim/sentence"
)

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
	Means   []string // what each of them means; empty where their names say it
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
	for _, c := range g.Choices {
		if says := choiceSays(kind, c); says != "" {
			g.Means = append(g.Means, says)
		}
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

// Names says that a word is the name of a vein, a line, a pump, a bag or a
// person, of those that there are now or that there can come to be.
func (s *Session) Names(word string) bool {
	for _, kind := range []string{"vein", "line", "pump", "bag", "person"} {
		if slices.Contains(s.e.Vocabulary(kind), word) {
			return true
		}
	}
	return word == central || bagName.MatchString(word)
}

// bagName is how bags and syringes are named.
var bagName = regexp.MustCompile(`^(bag|antidote)-[1-9][0-9]*$`)

// Preview is what a whole sentence would do.
type Preview struct {
	Said  string // as it will be written
	Does  string
	Takes string   // how long, and what it holds
	Again string   // "done already at 0:04", of an act that finds the same again; else empty
	Why   string   // why it cannot be done now; empty when it can
	Notes []string // how amounts were taken that were written unsafely or are rounded
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
	if a.Name == "insert" { // which way is chosen
		p.Takes = toTheSecond(s.e.Lasts(a))
	}
	if a.Name == "judge" {
		word := a.Args[1].Word
		p.Does = word + " means that " + verdictSays[word]
	}
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
	if p.Why = s.e.Possible(a); p.Why == "" {
		p.Notes = s.taken(said, a)
	}
	return p
}

// Whole says that a text is a sentence without gaps, and of which action.
func Whole(said string) (action string, whole bool) {
	a, err := sim.ParseAction(said)
	return a.Name, err == nil
}

// Asked is the sentence said to someone else.
func Asked(who, said string) string { return fmt.Sprintf("ask %s to %s", who, said) }
