package session

import (
	"fmt"
	"slices"

	"blanch/cmd/blanch/internal/picture"
	"blanch/sim"
	"blanch/sim/quantity"
	"blanch/sim/sentence"
)

// LookDesk is a site with the acts of looking at it and what each found.
type LookDesk struct {
	Line   string
	About  string   // "20 gauge, 47.8 mm"
	Visits []string // when it was looked at, oldest first
	Acts   []LookAct
}

// LookAct is one act of looking with its findings.
type LookAct struct {
	Short string // "feel"
	Said  string // the sentence, without gaps
	Takes string
	Finds []Finding
}

// Finding is one finding over the visits. A visit in which it was not sought
// says so.
type Finding struct {
	What   string
	Visits []string
}

// NotChecked stands where nobody looked.
const NotChecked = "not checked"

// visitApart is the pause that begins a new visit to a site.
const visitApart = 4 * sim.Minute

// lookActs are the acts in the order a site is gone through, with what each
// finds. The flush is one of them: it can be felt and seen.
var lookActs = []struct {
	act, short, sentence string
	finds                []string
}{
	{"glance", "glance", "glance at %s", []string{"at a glance"}},
	{"uncover", "uncover", "uncover %s", []string{"colour"}},
	{"feel", "feel", "feel around %s", []string{"swelling", "warmth", "tension"}},
	{"compare", "compare", "compare %s with the other arm", []string{"compared"}},
	{"ask-pain", "ask", "ask how %s feels", []string{"pain"}},
	{"refill", "press", "press and watch refill at %s", []string{"refill"}},
	{"measure", "measure", "measure around %s", []string{"swelling measured", "pale skin measured"}},
	{"beyond", "beyond", "feel pulse and movement beyond %s", []string{"pulse beyond", "fingers", "stretching the fingers"}},
	{"blood-return", "draw", "test blood return at %s", []string{"blood return"}},
	{"flush", "flush", "flush %s with 10 mL", []string{"flush"}},
	{"view-tip", "scan tip", "look at the tip of %s with ultrasound", []string{"tip", "fluid around the vein"}},
}

// Sites are the lines that can be looked at.
func (s *Session) Sites() []string { return s.e.Vocabulary("line") }

// LookFirst is the line to look at first: the one judged to be leaking, else
// the arm's line that something runs through, else the one looked at last.
func (s *Session) LookFirst() string {
	v := s.e.View()
	if line := s.leaking(); line != "" {
		return line
	}
	for _, in := range v.Infusions {
		if in.Running && in.Line != central {
			return in.Line
		}
	}
	first, last := "", sim.Time(-1)
	for _, l := range v.Lines {
		if seen := l.LastLook; seen != sim.Never && seen > last { // who feels looks too
			first, last = l.Name, seen
		}
	}
	return first
}

// LookDesk copies what is known of a site.
func (s *Session) LookDesk(line string) LookDesk {
	d := LookDesk{Line: line}
	for _, l := range s.e.View().Lines {
		if l.Name == line {
			d.About = l.About
			if !l.In {
				d.About += ", out"
			}
		}
	}
	visits := s.visits(line)
	for _, v := range visits {
		d.Visits = append(d.Visits, v[0].At.Clock())
	}
	for _, act := range lookActs {
		spec, _ := sim.ActionNamed(act.act)
		a := LookAct{Short: act.short, Said: fmt.Sprintf(act.sentence, line), Takes: spec.Duration()}
		for _, what := range act.finds {
			f := Finding{What: what}
			for _, v := range visits {
				f.Visits = append(f.Visits, foundIn(v, what))
			}
			a.Finds = append(a.Finds, f)
		}
		for _, what := range unexpected(visits, act.act, act.finds) {
			f := Finding{What: what}
			for _, v := range visits {
				f.Visits = append(f.Visits, foundIn(v, what))
			}
			a.Finds = append(a.Finds, f)
		}
		d.Acts = append(d.Acts, a)
	}
	return d
}

// visits groups the findings at a site by when they were made.
func (s *Session) visits(line string) [][]sim.Entry {
	var out [][]sim.Entry
	last := sim.Time(0)
	for _, en := range s.entries {
		if en.Kind != sim.Found || en.Subject != line || !isLook(en.Act) {
			continue
		}
		if len(out) == 0 || en.At-last > visitApart {
			out = append(out, nil)
		}
		out[len(out)-1] = append(out[len(out)-1], en)
		last = en.At
	}
	return out
}

func isLook(name string) bool {
	for _, act := range lookActs {
		if act.act == name {
			return true
		}
	}
	return false
}

// unexpected are findings of an act that it does not always make, such as a
// streak along the vein. They have a row from when they were first found.
func unexpected(visits [][]sim.Entry, act string, usual []string) []string {
	var out []string
	for _, v := range visits {
		for _, en := range v {
			if en.Act == act && en.What != covered && !slices.Contains(usual, en.What) && !slices.Contains(out, en.What) {
				out = append(out, en.What)
			}
		}
	}
	return out
}

// covered is what a glance finds under a blanket: it stands in the row of what
// is seen at a glance.
const covered = "site"

// foundIn is the last such finding of a visit.
func foundIn(visit []sim.Entry, what string) string {
	said := NotChecked
	for _, en := range visit {
		switch {
		case en.What == covered && what == "at a glance":
			said = en.Word
		case en.What != what:
		case en.Word != "" && en.Unit != "":
			said = fmt.Sprintf("%s, %s %s", en.Word, quantity.Number(en.Value), en.Unit)
		case en.Word != "":
			said = en.Word
		default:
			said = fmt.Sprintf("%s %s", quantity.Number(en.Value), en.Unit)
		}
	}
	return said
}

// Swelling draws what was last measured at a site.
func (s *Session) Swelling(line string, width, height int, rich bool) []string {
	var sw picture.Swelling
	for _, en := range s.entries {
		if en.Kind != sim.Found || en.Subject != line {
			continue
		}
		switch en.What {
		case "swelling measured":
			sw.SwollenMM, sw.Known = 10*en.Value, true
		case "pale skin measured":
			sw.PaleMM, sw.Known = 10*en.Value, true
		}
	}
	return pen(rich).Swelling(sw, width, height)
}

// Verdict is what a site can be judged to be.
type Verdict struct {
	Word  string // "leaking"
	Means string
	Said  string // the sentence
	Last  string // "said at 0:36", when it is what was last said of the line
}

// verdictSays words what a site can be judged to be.
var verdictSays = map[string]string{
	"leaking": "fluid runs beside the vein", "sound": "nothing is wrong with the line",
	"inflamed": "the vein is inflamed, and nothing leaks", "blocked": "nothing goes through the cannula",
	"out": "the cannula has come out", "unsure": "you cannot tell yet",
}

// Verdicts are what a site can be judged to be.
func (s *Session) Verdicts(line string) []Verdict {
	last, at := "", ""
	for _, en := range s.entries {
		if en.Kind == sim.Done && en.Act == "judge" && en.Subject == line {
			last, at = en.Word, "said at "+en.At.Clock()
		}
	}
	var out []Verdict
	if h, ok := sentence.Named("verdict"); ok {
		for _, word := range h.Choices {
			v := Verdict{Word: word, Means: verdictSays[word], Said: fmt.Sprintf("judge %s %s", line, word)}
			if word == last {
				v.Last = at
			}
			out = append(out, v)
		}
	}
	return out
}
