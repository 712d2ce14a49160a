// Package sentence reads and writes actions as plain English sentences with
// typed holes, such as
//
//	choose {vein} with {gauge} gauge {length} mm at {angle} degrees
//
// A [Template] matches a typed line and gives back its [Arg] values, writes
// values as the one canonical line, and offers what could come next. Match
// after Write gives the same values. What a name stands for (which veins
// there are) is the caller's business; the form of numbers and quantities
// is checked here.
package sentence

import (
	"fmt"
	"strings"
)

// Template is a sentence cut into literal text and holes, alternating:
// literal[0] hole[0] literal[1] hole[1] ... literal[n].
type Template struct {
	source   string
	literals []string
	holes    []Hole
}

// MustParse cuts source at its {holes} and panics on an unknown hole kind:
// templates are part of the program.
func MustParse(source string) Template {
	t := Template{source: source}
	rest := source
	for {
		before, after, found := strings.Cut(rest, "{")
		t.literals = append(t.literals, before)
		if !found {
			return t
		}
		kind, tail, closed := strings.Cut(after, "}")
		hole, known := holes[kind]
		if !closed || !known {
			panic(fmt.Sprintf("sentence %q: unknown hole {%s", source, after))
		}
		t.holes = append(t.holes, hole)
		rest = tail
	}
}

// String is the template's source.
func (t Template) String() string { return t.source }

// Holes lists the holes from left to right.
func (t Template) Holes() []Hole { return t.holes }

// Match reads a line that has been through [Tidy]. It reports false when the
// words around the holes do not fit, and an error when they do but what
// stands in a hole cannot be read.
func (t Template) Match(line string) ([]Arg, bool, error) {
	if !hasPrefixFold(line, t.literals[0]) {
		return nil, false, nil
	}
	rest := line[len(t.literals[0]):]
	var args []Arg
	var fault error
	for i, hole := range t.holes {
		next := t.literals[i+1]
		var inside string
		switch {
		case next == "" && i == len(t.holes)-1:
			inside, rest = rest, ""
		default:
			at := indexFold(rest, next)
			if at < 0 {
				return nil, false, nil
			}
			inside, rest = rest[:at], rest[at+len(next):]
		}
		if strings.TrimSpace(inside) == "" {
			return nil, false, nil
		}
		arg, err := hole.Read(inside)
		if err != nil && fault == nil {
			fault = err
		}
		args = append(args, arg)
	}
	if rest != "" {
		return nil, false, nil
	}
	return args, true, fault
}

// Write fills the holes with args, one for each hole.
func (t Template) Write(args []Arg) string {
	line := make([]byte, 0, 120)
	for i, literal := range t.literals {
		line = append(line, literal...)
		if i < len(t.holes) && i < len(args) {
			line = append(line, args[i].String()...)
		}
	}
	return string(line)
}

// Example is the sentence with an example in every hole.
func (t Template) Example() string {
	var b strings.Builder
	for i, literal := range t.literals {
		b.WriteString(literal)
		if i < len(t.holes) {
			b.WriteString(t.holes[i].Example)
		}
	}
	return b.String()
}

// Complete returns whole lines that begin with typed and go on towards this
// template, as far as the next choice. Names lists what a hole accepts now.
func (t Template) Complete(typed string, names func(kind string) []string) []string {
	rest, done := typed, ""
	for i, literal := range t.literals {
		if len(rest) <= len(literal) {
			if !hasPrefixFold(literal, rest) {
				return nil
			}
			if i == len(t.holes) {
				return []string{done + literal}
			}
			if rest != literal {
				return []string{done + literal}
			}
		} else if !hasPrefixFold(rest, literal) {
			return nil
		}
		if len(rest) < len(literal) {
			return []string{done + literal}
		}
		done += literal
		rest = rest[len(literal):]
		if i == len(t.holes) {
			return nil
		}
		hole, next := t.holes[i], t.literals[i+1]
		if at := indexFold(rest, next); next != "" && at > 0 {
			if _, err := hole.Read(rest[:at]); err == nil {
				done += rest[:at]
				rest = rest[at:]
				continue
			}
		}
		if line, ok := hole.onwards(rest, next); ok {
			return []string{done + line}
		}
		var lines []string
		for _, name := range hole.offers(rest, names) {
			line := done + name
			if next != "" && hole.closes(name) {
				line += leadingWord(next)
			}
			lines = append(lines, line)
		}
		return lines
	}
	return nil
}

// onwards completes a literal of which only the beginning has been typed
// after something that fits the hole.
func (h Hole) onwards(typed, next string) (string, bool) {
	for cut := 1; cut < len(next); cut++ {
		inside, ok := strings.CutSuffix(typed, next[:cut])
		if !ok || inside == "" {
			continue
		}
		if _, err := h.Read(inside); err == nil {
			return inside + next, true
		}
	}
	return "", false
}

// Leading is the literal text before the first hole.
func (t Template) Leading() string { return t.literals[0] }

// Tidy folds runs of white space and trims the ends.
func Tidy(line string) string { return strings.Join(strings.Fields(line), " ") }

func hasPrefixFold(s, prefix string) bool {
	return len(s) >= len(prefix) && strings.EqualFold(s[:len(prefix)], prefix)
}

func indexFold(s, sub string) int {
	if sub == "" {
		return len(s)
	}
	for i := 0; i+len(sub) <= len(s); i++ {
		if strings.EqualFold(s[i:i+len(sub)], sub) {
			return i
		}
	}
	return -1
}

func leadingWord(literal string) string {
	trimmed := strings.TrimLeft(literal, " ")
	word, _, more := strings.Cut(trimmed, " ")
	out := literal[:len(literal)-len(trimmed)] + word
	if more {
		out += " "
	}
	return out
}
