package sum

import (
	"fmt"
	"strings"

	"blanch/sim/quantity"
)

// The two published conventions for a pound: teaching texts divide by 2.2
// (OpenStax, Pharmacology for Nurses, 2.4 Dosage Calculations); the exact
// figure is 2.20462.
const (
	poundsPerKG      = 2.2
	poundsPerKGExact = 2.20462
)

// value is a number on its way through a sum.
type value struct {
	x    float64
	unit quantity.Unit
	what string // "the weight", as sentences call it
	made bool   // came out of a division, so that turning it over is a slip of that step
}

// path is one run of a program: the right one, or one with a slip in it.
type path struct {
	given  map[string]quantity.Quantity
	want   quantity.Unit
	pounds float64 // in a kilogram
	make   string  // the slip to make; empty for none

	units  map[string]quantity.Unit // read already, for all runs of one sum
	steps  []Step
	offers []offer
	names  map[string]int
	sixty  bool // a factor of 60 stood on the path
	grand  bool // a factor of 1000 did
}

// slips offers a slip at the step that comes next, and says whether this run
// makes it. The clause stands after "have".
func (p *path) slips(name string, family Family, clause string, args ...any) bool {
	p.names[name]++
	if n := p.names[name]; n > 1 {
		name = fmt.Sprintf("%s, time %d", name, n)
	}
	if p.make == "" {
		p.offers = append(p.offers, offer{name, fmt.Sprintf(clause, args...), family, len(p.steps) + 1, family == PlaceValue})
		return false
	}
	return p.make == name
}

// unit reads a unit once.
func (p *path) unit(text string) quantity.Unit {
	u, ok := p.units[text]
	if !ok {
		u = quantity.MustUnit(text)
		p.units[text] = u
	}
	return u
}

// has says that an input was given.
func (p *path) has(name string) bool { _, ok := p.given[name]; return ok }

// take reads an input. Two neighbouring digits of it may be read swapped.
func (p *path) take(name, what string) value {
	q := p.given[name]
	v := value{x: q.Value, unit: q.Unit, what: what}
	for _, other := range swaps(q.Value) {
		misread := quantity.Quantity{Value: other, Unit: q.Unit}
		if p.slips(what+" misread as "+quantity.Number(other), PlaceValue, "read %s as %s", q, misread) {
			v.x = other
		}
	}
	return v
}

// swaps are the numbers that x becomes when two neighbouring digits of it are
// swapped. Zeros that only fill up places are left alone.
func swaps(x float64) []float64 {
	text := quantity.Number(x)
	var out []float64
	for i := range len(text) - 1 {
		j := i + 1
		if text[j] == '.' && j+1 < len(text) {
			j++
		}
		if text[i] == '.' || text[i] == text[j] || strings.Trim(text[:i], "0.") == "" && (text[i] == '0' || text[j] == '0') {
			continue
		}
		b := []byte(text)
		b[i], b[j] = b[j], b[i]
		if strings.Trim(text[j+1:], "0") == "" && text[j] == '0' && !strings.Contains(text, ".") {
			continue // 50 for 05
		}
		if q, err := quantity.Parse(string(b)); err != nil && q.Value > 0 && q.Value != x {
			out = append(out, q.Value)
		}
	}
	return out
}

// early begins the name of every slip of rounding between two steps.
const early = "early rounding of "

// record writes down a step, and rounds it when that is the slip to be made.
func (p *path) record(label, line string, v value) value {
	p.earlyRounding(label, &v)
	return p.keep(label, line, v)
}

func (p *path) earlyRounding(label string, v *value) {
	for _, r := range []struct {
		step float64
		word string
	}{{1, "a whole number"}, {0.1, "a tenth"}, {0.01, "a hundredth"}} {
		// Rounding that moves a value by more than a tenth of it is nothing
		// that anyone does, and rounding that moves nothing is no slip.
		rounded := quantity.Round(v.x, r.step)
		if off := abs(rounded - v.x); off > abs(v.x)/10 || p.make == "" && same(rounded, v.x) {
			continue
		}
		q := quantity.Quantity{Value: rounded, Unit: v.unit}
		if p.make != "" && !strings.HasPrefix(p.make, early) {
			continue // another slip is made
		}
		if p.slips(early+label+" to "+r.word, Rounding, "rounded to %s before the end", q) {
			v.x = rounded
		}
	}
}

// keep writes down a step.
func (p *path) keep(label, line string, v value) value {
	p.steps = append(p.steps, Step{Label: label, Line: line, Value: quantity.Quantity{Value: v.x, Unit: v.unit}})
	return v
}

// may is the slips that a multiplication or a division offers.
type may uint8

const (
	forget may = 1 << iota // leave the second one out
	twice                  // use it twice
	turn                   // divide for multiply, or the reverse
	flip                   // divide the second by the first
	kept                   // not rounded early: whole, or rounded by the next step
)

func (p *path) times(label string, a, b value, unit string, m may) value {
	x := float64(a.x * b.x)
	if m&forget != 0 && p.slips(b.what+" forgotten", familyOf(b), "left out %s", leftOut(b)) {
		x = a.x
	}
	if m&twice != 0 && p.slips(b.what+" twice", familyOf(b), "multiplied by %s twice", b.what) {
		x = float64(x * b.x)
	}
	if m&turn != 0 && !b.made && p.slips("divided by "+b.what, Inverted, "divided by %s where one multiplies", b.what) {
		x = a.x / b.x
	}
	out := value{x: x, unit: p.unit(unit), what: "the " + label}
	return p.record(label, p.line(a, "x", b, out), out)
}

// over divides. With no unit the result is a bare number.
func (p *path) over(label string, a, b value, unit string, m may) value {
	x := a.x / b.x
	if m&forget != 0 && p.slips(b.what+" forgotten", familyOf(b), "left out %s", leftOut(b)) {
		x = a.x
	}
	if m&twice != 0 && p.slips(b.what+" twice", familyOf(b), "divided by %s twice", b.what) {
		x /= b.x
	}
	if m&turn != 0 && !b.made && p.slips("multiplied by "+b.what, Inverted, "multiplied by %s where one divides", b.what) {
		x = float64(a.x * b.x)
	}
	if m&flip != 0 && p.slips(b.what+" over "+a.what, Inverted, "divided %s by %s, upside down", b.what, a.what) {
		x = b.x / a.x
	}
	out := value{x: x, what: "the " + label, made: true}
	if unit != "" {
		out.unit = p.unit(unit)
	}
	if m&kept != 0 {
		return p.keep(label, p.line(a, "/", b, out), out)
	}
	return p.record(label, p.line(a, "/", b, out), out)
}

// line is a step as text; a wrong way has none.
func (p *path) line(a value, sign string, b, out value) string {
	if p.make != "" {
		return ""
	}
	by := written(b.x, b.unit)
	if sign == "/" {
		by = divisor(b)
	}
	return written(a.x, a.unit) + " " + sign + " " + by + " = " + written(out.x, out.unit)
}

// divisor puts a unit that divides into brackets, so that a line has one
// meaning.
func divisor(v value) string {
	if strings.Contains(v.unit.String(), "/") {
		return "(" + written(v.x, v.unit) + ")"
	}
	return written(v.x, v.unit)
}

// plus adds, or with a minus takes away. Rounding early what was rounded
// early before would be the same slip twice.
func (p *path) plus(label string, a, b value, sign string, x float64) value {
	out := value{x: x, unit: a.unit, what: "the " + label, made: true}
	return p.keep(label, p.line(a, sign, b, out), out)
}

// leftOut names a number that was left out, and what that takes for granted.
func leftOut(v value) string {
	if v.what == weighed {
		return v.what + ", as if a kilogram were the whole patient"
	}
	return v.what
}

// weighed is the body weight, as sentences call it.
const weighed = "the weight"

func familyOf(v value) Family {
	if v.what == weighed {
		return UnitFactor
	}
	return WrongDatum
}
