package session

import (
	"fmt"
	"slices"
	"sort"
	"strconv"
	"strings"

	"blanch/sim"
	"blanch/sim/quantity"
	"blanch/sim/sentence"
)

// steps are the steps of the job, in the order it happens.
var steps = [...]string{
	1: "Read the order and the patient", 2: "Choose the line", 3: "Prove the line", 4: "Mix", 5: "Set the pump",
	6: "Start and change", 7: "Watch", 8: "Say what you make of it", 9: "Respond", 10: "Bridge", 11: "Say it and write it",
}

// Help says how the prompt is used, or what there is to say about a word.
func Help(about string) []Line {
	if about != "" {
		return helpAbout(about)
	}
	lines := []Line{told("Type what you do as a sentence, such as: read the order. Tab completes it. The clock stands while you think, and never runs under help; an action or a wait makes it run, and Enter alone holds it."), heading("Words")}
	for _, w := range append(append([]word(nil), words...), aside...) {
		lines = append(lines, explain(w.sentence(), w.says)...)
	}
	return append(lines,
		told("Someone at the bed can be asked to act while your own hands do something else: ask second-nurse to feel around ..."),
		told("What is said aloud (calls, questions to the patient) can begin while your hands are busy."))
}

// explain is a sentence with its meaning beside it, or under it.
func explain(sentence, says string) []Line {
	const column = 28
	if len(sentence) < column-1 {
		return []Line{{Kind: Row, Text: fmt.Sprintf("  %-*s%s", column-2, sentence, says)}}
	}
	return []Line{row("  %s", sentence), row("%*s%s", column, "", says)}
}

func helpAbout(about string) []Line {
	var lines []Line
	for _, w := range append(append([]word(nil), words...), aside...) {
		if strings.EqualFold(strings.Fields(w.name)[0], about) || strings.EqualFold(w.name, about) {
			lines = append(lines, explain(w.sentence(), w.says)...)
		}
	}
	if rows := matching(about); len(rows) > 0 {
		return append(lines, describeRows(rows)...)
	}
	if len(lines) == 0 {
		return []Line{fault("nothing here is about %q; actions lists every action", about)}
	}
	return lines
}

// Actions explains every action, or those that a word is about.
func Actions(about string) []Line {
	rows := matching(about)
	if len(rows) == 0 {
		return []Line{fault("no action is about %q; actions lists every one", about)}
	}
	return describeRows(rows)
}

// matching are the rows that a word is about, by step of the job; all of
// them for no word.
func matching(about string) []sim.Spec {
	about = strings.ToLower(strings.TrimSpace(about))
	n, err := strconv.Atoi(about)
	named := func(s sim.Spec) bool {
		switch {
		case about == "":
			return true
		case err == nil:
			return s.Step == n
		}
		return strings.Contains(strings.ToLower(s.Name+" "+s.Sentence+" "+s.Does+" "+steps[s.Step]), about)
	}
	var rows []sim.Spec
	for _, s := range sim.Actions() {
		if named(s) {
			rows = append(rows, s)
		}
	}
	sort.SliceStable(rows, func(i, j int) bool { return rows[i].Step < rows[j].Step })
	return rows
}

func describeRows(rows []sim.Spec) []Line {
	var lines []Line
	step := 0
	holes := map[string]string{}
	var order []string
	for _, s := range rows {
		if s.Step != step {
			step = s.Step
			lines = append(lines, heading(fmt.Sprintf("%d. %s", step, steps[step])))
		}
		lines = append(lines, row("  %s", s.Example()), Line{Kind: Told, Text: "    " + s.Does}, Line{Kind: Told, Text: "    " + terms(s)})
		for _, h := range s.Holes() {
			if holes[h.Kind] == "" {
				holes[h.Kind] = label(h) + ": " + h.Says
				if len(h.Choices) > 3 {
					holes[h.Kind] += ": " + strings.Join(h.Choices, ", ")
				}
				order = append(order, h.Kind)
			}
		}
	}
	if len(order) == 0 {
		return lines
	}
	lines = append(lines, heading("What stands in the gaps"))
	for _, kind := range order {
		lines = append(lines, Line{Kind: Told, Text: "  " + holes[kind]})
	}
	return lines
}

// terms says how long an action takes, what it holds, who else can do it and
// what makes it impossible.
func terms(s sim.Spec) string {
	parts := []string{s.Duration()}
	switch {
	case s.Holds == sim.Voice && s.Bedside:
		parts = append(parts, "your voice, at the bed")
	case s.Holds == sim.Voice:
		parts = append(parts, "your voice")
	case s.Holds == sim.Hands && s.Away:
		parts = append(parts, "your hands, away from the bed")
	case s.Holds == sim.Hands:
		parts = append(parts, "your hands")
	}
	if len(s.By) > 0 {
		roles := make([]string, len(s.By))
		for i, r := range s.By {
			roles[i] = string(r)
		}
		parts = append(parts, "can be asked of: "+strings.Join(roles, ", "))
	}
	if s.Impossible != "" {
		parts = append(parts, "impossible when: "+s.Impossible)
	}
	return strings.Join(parts, "; ")
}

// what lists the sentences that are possible now, by step of the job. Wise
// and unwise ones stand side by side; only what is refused whatever stands in
// its gaps is left out. Busy hands leave nothing out: they will be free.
func (s *Session) what(about string) []Line {
	rows := matching(about)
	if len(rows) == 0 {
		return []Line{fault("no action is about %q; what alone lists what can be done now", about)}
	}
	var lines, names []Line
	step := 0
	named := map[string]bool{}
	for _, spec := range rows {
		filled, ok := s.fill(spec)
		if !ok || s.busyTo() <= s.e.Now() && s.Refused(spec.Sentence) != "" {
			continue
		}
		if spec.Step != step {
			step = spec.Step
			lines = append(lines, heading(fmt.Sprintf("%d. %s", step, steps[step])))
		}
		lines = append(lines, Line{Kind: Told, Text: fmt.Sprintf("  %s  (%s)", exampled(filled, spec.Holes()), spec.Duration())})
		for _, h := range spec.Holes() {
			if strings.Contains(filled, "{"+h.Kind+"}") && !named[h.Kind] {
				named[h.Kind] = true
				names = append(names, Line{Kind: Told, Text: fmt.Sprintf("  %s: %s", label(h), s.stands(h))})
			}
		}
	}
	if len(lines) == 0 {
		return []Line{told("Nothing of that can be done yet: there is nothing to do it to.")}
	}
	if len(names) > 0 {
		lines = append(append(lines, heading("What stands in the gaps now")), names...)
	}
	return lines
}

// stands says what can stand in a gap now.
func (s *Session) stands(h sentence.Hole) string {
	if from := s.names(h.Kind); len(from) > 0 {
		return strings.Join(from, ", ")
	}
	if len(h.Choices) > 0 {
		return h.Says + ": " + strings.Join(h.Choices, ", ")
	}
	return h.Says
}

// fill writes a row's sentence with the names that fit now, where there is
// only one. It reports false when there is nothing that could stand in one of
// its gaps.
func (s *Session) fill(spec sim.Spec) (string, bool) {
	v := s.e.View()
	if spec.Name == "leave-off" && v.Hands == "" || spec.Name == "insert" && v.InHand == "" {
		return "", false
	}
	out := spec.Sentence
	for _, h := range spec.Holes() {
		switch h.Kind {
		case "vein", "line", "pump", "bag", "person", "call", "sum", "drug":
			from := s.e.Vocabulary(h.Kind)
			if len(from) == 0 {
				return "", false
			}
			if len(from) == 1 {
				out = strings.Replace(out, "{"+h.Kind+"}", from[0], 1)
			}
		}
	}
	return out, true
}

// exampled puts an example into every gap that is still open.
func exampled(filled string, holes []sentence.Hole) string {
	for _, h := range holes {
		filled = strings.Replace(filled, "{"+h.Kind+"}", h.Example, 1)
	}
	return filled
}

// label names a gap as its example shows it: a name in capitals, or the kind
// of number or choice.
func label(h sentence.Hole) string {
	if h.Example == strings.ToUpper(h.Kind) {
		return h.Example
	}
	return h.Kind
}

// Complete offers whole lines that go on from what has been typed.
func (s *Session) Complete(typed string) []string {
	if s.Over() {
		return nil
	}
	var out []string
	if !strings.Contains(typed, " ") {
		for _, w := range append(append([]word(nil), words...), aside...) {
			if strings.HasPrefix(w.name, strings.ToLower(typed)) {
				out = append(out, w.name)
			}
		}
	}
	for _, p := range s.e.View().People {
		if ask := "ask " + p.ID + " to "; p.Here && len(typed) < len(ask) && strings.HasPrefix(ask, strings.ToLower(typed)) {
			out = append(out, ask)
		}
	}
	return append(out, sim.CompleteAction(typed, s.names)...)
}

// names is what a hole accepts now; for numbers, what the unit has in stock.
func (s *Session) names(kind string) []string {
	p := s.a.Place
	var out []string
	add := func(v string) {
		if !slices.Contains(out, v) {
			out = append(out, v)
		}
	}
	switch kind {
	case "gauge":
		for _, c := range p.Cannulae {
			add(strconv.Itoa(c.Gauge))
		}
	case "length":
		for _, c := range p.Cannulae {
			add(quantity.Number(c.LengthMM))
		}
	default:
		out = s.e.Vocabulary(kind)
	}
	return out
}
