package sim

import (
	"fmt"
	"strings"

	"blanch/sim/sentence"
)

// Action is one thing someone does.
type Action struct {
	Name string // of a row of the table
	By   string // empty for the learner, else the person asked to do it
	Args []sentence.Arg
}

// String is the canonical sentence; ParseAction reads it back.
func (a Action) String() string {
	spec, ok := byName[a.Name]
	if !ok {
		return a.Name
	}
	s := spec.template.Write(a.Args)
	if a.By != "" {
		return "ask " + a.By + " to " + s
	}
	return s
}

// word is the word in the hole of that kind, empty without one.
func (a Action) word(kind string) string {
	for _, arg := range a.Args {
		if arg.Kind == kind {
			return arg.Word
		}
	}
	return ""
}

// number is the number in the hole of that kind, in the hole's unit.
func (a Action) number(kind string) float64 {
	for _, arg := range a.Args {
		if arg.Kind == kind {
			return arg.Number
		}
	}
	return 0
}

func (a Action) list(kind string) []string {
	for _, arg := range a.Args {
		if arg.Kind == kind {
			return arg.List
		}
	}
	return nil
}

// Holds is what an action keeps busy while it lasts.
type Holds uint8

// What an action can hold.
const (
	Hands   Holds = iota + 1 // the hands of whoever does it
	Voice                    // only their voice: it can begin while the hands are busy
	Instant                  // nothing: it is said or decided at once
)

// Spec is one row of the action table.
type Spec struct {
	Name       string // stable, used by rules: "feel"
	Sentence   string // with typed holes: "feel around {line}"
	Does       string // one line of help
	Step       int    // step of the job, 1 to 11
	Holds      Holds
	Takes      Time   // how long, where it is always the same
	Lasts      string // how long in words, where it is not
	By         []Role // who else can be asked to do it
	Away       bool   // takes whoever does it away from the bed
	Bedside    bool   // a voice act that needs the bedside
	Impossible string // what makes it impossible, in words

	template sentence.Template
	takes    func(e *Engine, a Action) Time
	refuse   func(e *Engine, r *running) string // reason, empty when it can begin, and when it can still be done
	decided  bool                               // by its beginning, or brought about by anyone: refuse is not asked again
	begin    func(e *Engine, r *running)
	turnAt   Time                        // with turn: this long before the end
	turn     func(e *Engine, r *running) // an effect on the way
	done     func(e *Engine, r *running)
	broken   func(e *Engine, r *running) // left off half-way, or not done in the end: undoes begin and turn
}

// table is every row, one family a file, the families about in the order of the
// job. It is filled by init because the rows' functions lead back to it.
var (
	table  []*Spec
	byName = map[string]*Spec{}
)

func init() {
	for _, family := range [][]Spec{
		orderActs(), lineActs(), proveActs(), mixActs(), pumpActs(),
		patientActs(), lookActs(), respondActs(), bridgeActs(), talkActs(), otherActs(),
	} {
		for _, s := range family {
			s.template = sentence.MustParse(s.Sentence)
			if byName[s.Name] != nil {
				panic("action " + s.Name + " stands twice in the table")
			}
			table = append(table, &s)
			byName[s.Name] = &s
		}
	}
}

// Actions is the table in its order.
func Actions() []Spec {
	out := make([]Spec, len(table))
	for i, s := range table {
		out[i] = *s
	}
	return out
}

// ActionNamed is the row of that name.
func ActionNamed(name string) (Spec, bool) {
	s, ok := byName[name]
	if !ok {
		return Spec{}, false
	}
	return *s, true
}

// Holes lists the typed holes of the row's sentence.
func (s Spec) Holes() []sentence.Hole { return s.template.Holes() }

// Example is the row's sentence as it could be said, with names in capitals.
func (s Spec) Example() string { return s.template.Example() }

// Duration says how long the action takes, in words.
func (s Spec) Duration() string {
	switch {
	case s.Lasts != "":
		return s.Lasts
	case s.Takes == 0:
		return "at once"
	case s.Takes < 2*Minute && s.Takes%Minute != 0:
		return fmt.Sprintf("%d s", s.Takes/Second)
	}
	return fmt.Sprintf("%d min", s.Takes/Minute)
}

// ParseAction reads a sentence of the table. The error says which sentences
// were near, or what is wrong with the word or number in one of its holes.
func ParseAction(line string) (Action, error) {
	line = sentence.Tidy(line)
	if line == "" {
		return Action{}, fmt.Errorf("nothing was said; write an action such as %q", table[0].Sentence)
	}
	by := ""
	if who, what, ok := delegated(line); ok {
		by, line = who, what
	}
	var fault error
	for _, s := range table {
		args, fits, err := s.template.Match(line)
		switch {
		case fits && err == nil:
			return Action{Name: s.Name, By: by, Args: args}, nil
		case fits && fault == nil:
			fault = fmt.Errorf("%w, as in: %s", err, s.Example())
		}
	}
	if fault != nil {
		return Action{}, fault
	}
	if near := nearSentences(line); len(near) > 0 {
		return Action{}, fmt.Errorf("%q is not something you can do; near it: %s", line, strings.Join(near, "; "))
	}
	return Action{}, fmt.Errorf("%q is not something you can do; the list of actions shows what is", line)
}

// delegated splits "ask second-nurse to feel around ..." from the action.
func delegated(line string) (who, what string, ok bool) {
	rest, found := strings.CutPrefix(line, "ask ")
	if !found {
		return "", "", false
	}
	who, what, ok = strings.Cut(rest, " to ")
	return strings.ToLower(who), what, ok && !strings.Contains(who, " ")
}

// nearSentences are up to three rows that share the most words with line.
func nearSentences(line string) []string {
	said := map[string]bool{}
	for _, w := range strings.Fields(strings.ToLower(line)) {
		said[w] = true
	}
	var best [3]string
	var score [3]int
	for _, s := range table {
		n := 0
		words := strings.Fields(s.Sentence)
		for i, w := range words {
			if said[w] {
				n += 2
				if i == 0 {
					n++
				}
			}
		}
		if n < 3 {
			continue
		}
		for i := range best {
			if n > score[i] {
				copy(best[i+1:], best[i:])
				copy(score[i+1:], score[i:])
				best[i], score[i] = s.Example(), n
				break
			}
		}
	}
	var out []string
	for _, b := range best {
		if b != "" {
			out = append(out, b)
		}
	}
	return out
}

// CompleteAction returns whole lines that begin with typed and go on towards
// an action, as far as the next choice. It asks names what a hole accepts now.
func CompleteAction(typed string, names func(kind string) []string) []string {
	if who, what, ok := delegated(typed); ok {
		var out []string
		for _, line := range CompleteAction(what, names) {
			out = append(out, "ask "+who+" to "+line)
		}
		return out
	}
	var out []string
	seen := map[string]bool{}
	for _, s := range table {
		for _, line := range s.template.Complete(typed, names) {
			if !seen[line] {
				seen[line] = true
				out = append(out, line)
			}
		}
	}
	return out
}
