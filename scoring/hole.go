package scoring

import (
	"fmt"
	"slices"
	"strconv"
	"strings"

	"blanch/scenarios"
	"blanch/sim/quantity"
)

// prose is an author's text with {holes}, each an expression whose value is
// written there. Two braces stand for one.
type prose struct {
	literals []string // one more than holes
	holes    []*expression
}

// compileProse checks a text and every hole in it.
func compileProse(c *scenarios.Case, p *scenarios.Policy, text scenarios.Text) (*prose, []scenarios.Complaint) {
	out := &prose{}
	var faults []scenarios.Complaint
	var literal strings.Builder
	line, column := 1, 0
	step := func(r rune) {
		column++
		if r == '\n' {
			line, column = line+1, 0
		}
	}
	fault := func(said, allowed string) {
		faults = append(faults, scenarios.Complaint{Level: scenarios.Error, Code: "brace", Pos: text.At(line, column), Said: said, Allowed: allowed})
	}
	runes := []rune(text.Source)
	for i := 0; i < len(runes); i++ {
		r := runes[i]
		twice := i+1 < len(runes) && runes[i+1] == r
		switch {
		case (r == '{' || r == '}') && twice:
			literal.WriteRune(r)
			step(r)
			i++
		case r == '}':
			fault("a closing brace without an opening one", "}} for a brace in the text")
			literal.WriteRune(r)
		case r == '{':
			end := slices.Index(runes[i:], '}')
			if end < 0 {
				fault("this brace is never closed", "{an expression}, or {{ for a brace in the text")
				return nil, faults
			}
			inside := scenarios.Text{Source: string(runes[i+1 : i+end])}
			beginLine, beginColumn := line, column+1
			hole, wrong := compile(c, p, inside, true, func(l, col int) scenarios.Pos {
				if l == 1 {
					return text.At(beginLine, beginColumn+col)
				}
				return text.At(beginLine+l-1, col)
			})
			faults = append(faults, wrong...)
			out.literals = append(out.literals, literal.String())
			out.holes = append(out.holes, hole)
			literal.Reset()
			for _, skipped := range runes[i : i+end] {
				step(skipped)
			}
			r, i = '}', i+end
		default:
			literal.WriteRune(r)
		}
		step(r)
	}
	out.literals = append(out.literals, literal.String())
	if len(faults) > 0 {
		return nil, faults
	}
	return out, nil
}

// words is a prose whose holes are put to one record.
type words struct {
	literals []string
	holes    []*question
	long     int // bytes that usually hold it
}

// usualHole is how many bytes most holes take.
const usualHole = 16

// of puts the holes to a record.
func (p *prose) of(r *record) words {
	w := words{literals: p.literals}
	for _, x := range p.holes {
		w.holes = append(w.holes, x.of(r))
		w.long += usualHole
	}
	for _, literal := range p.literals {
		w.long += len(literal)
	}
	return w
}

// write fills the holes from the record's run.
func (w words) write() string {
	if len(w.holes) == 0 {
		return w.literals[0]
	}
	var b strings.Builder
	b.Grow(w.long)
	for i, literal := range w.literals {
		b.WriteString(literal)
		if i < len(w.holes) {
			b.WriteString(format(w.holes[i].answer()))
		}
	}
	return b.String()
}

// format writes a value as people read it.
func format(value any) string {
	switch v := value.(type) {
	case bool:
		if v {
			return "yes"
		}
		return "no"
	case int:
		return strconv.Itoa(v)
	case float64:
		return quantity.Number(quantity.Round(v, 0.01))
	case fmt.Stringer:
		return v.String()
	}
	return fmt.Sprint(value)
}
