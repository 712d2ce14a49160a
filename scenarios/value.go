package scenarios

import (
	"fmt"
	"math"
	"strconv"
	"strings"

	"blanch/sim"
	"blanch/sim/quantity"
)

// What a schema can hold of quantities and names: a number and something
// behind it, since units have more spellings than a pattern should list.
const (
	quantityPattern = `^[-+−]?([0-9]+\.?[0-9]*|\.[0-9]+)\s*[^0-9\s.,].*$`
	namePattern     = `^[a-z][-a-z0-9]{0,63}$`
)

// word takes the text of a scalar that stands for a number, a name or a
// choice. It complains and reports false for anything else.
func (r *reader) word(at string, n *node, says string) (string, bool) {
	if n.kind != scalar || n.null() && n.style == plain {
		return "", r.unfit(at, n, "wrong-value", says)
	}
	text := strings.Trim(n.text, " \t\r\n")
	if text == "" {
		r.complain(Complaint{Code: "empty-field", Pos: r.place(at, n), Said: r.subject(at, "file") + " is empty", Allowed: says})
		return "", false
	}
	if text != strings.TrimSpace(text) {
		r.complain(Complaint{
			Code: "hidden-space", Pos: r.place(at, n),
			Said:    r.subject(at, "file") + " begins or ends with a space of another kind, which cannot be seen",
			Allowed: quoted(strings.TrimSpace(text)),
		})
		return "", false
	}
	if leadingZero(text) {
		r.complain(Complaint{
			Code: "leading-zero", Pos: r.place(at, n),
			Said:    fmt.Sprintf("%s is %s, and some readers take a leading zero for base eight", r.subject(at, "file"), quoted(text)),
			Allowed: "the number without the zero in front",
		})
		return "", false
	}
	return text, true
}

func leadingZero(text string) bool {
	text = strings.TrimLeft(text, "+-")
	return len(text) > 1 && text[0] == '0' && (text[1] >= '0' && text[1] <= '9' || text[1] == '_' || text[1] == 'x' || text[1] == 'o' || text[1] == 'b')
}

// measure reads a quantity and stores it as a number of that unit.
func measure(unit, says string, least, most float64) form[float64] {
	into := quantity.MustUnit(unit)
	bounds := fmt.Sprintf("from %s %s to %s %s", quantity.Number(least), unit, quantity.Number(most), unit)
	return form[float64]{
		value: Value{Kind: "measure", Says: says, Pattern: quantityPattern},
		read: func(r *reader, at string, n *node, v *float64) bool {
			q, ok := r.quantity(at, n, says)
			if !ok {
				return false
			}
			x, err := q.In(into)
			if err != nil {
				return r.unfit(at, n, "wrong-unit", says)
			}
			if x < least || x > most {
				return r.unfit(at, n, "out-of-range", says+", "+bounds)
			}
			*v = x
			return true
		},
	}
}

func (r *reader) quantity(at string, n *node, says string) (quantity.Quantity, bool) {
	text, ok := r.word(at, n, says)
	if !ok {
		return quantity.Quantity{}, false
	}
	if _, err := strconv.ParseFloat(text, 64); err == nil {
		r.complain(Complaint{Code: "no-unit", Pos: r.place(at, n), Said: fmt.Sprintf("%s is %s, without a unit", r.subject(at, "file"), quoted(text)), Allowed: says})
		return quantity.Quantity{}, false
	}
	q, err := quantity.Parse(text)
	if err != nil {
		r.complain(Complaint{Code: "unreadable-quantity", Pos: r.place(at, n), Said: fmt.Sprintf("%s cannot be read: %s", r.subject(at, "file"), err), Allowed: says})
		return q, false
	}
	return q, true
}

// longest is the longest that a case, and what happens in it, can take.
const longest = 7 * 24 * sim.Hour

// span is a length of time, stored to the millisecond.
func span(says string) form[sim.Time] { return spanWithin(says, 0, longest) }

// lasting is a length of time that is more than nothing.
func lasting(says string) form[sim.Time] { return spanWithin(says, sim.Minute, 2*longest) }

// spanWithin is a length of time between bounds.
func spanWithin(says string, least, most sim.Time) form[sim.Time] {
	seconds := quantity.MustUnit("s")
	return form[sim.Time]{value: Value{Kind: "time", Says: says, Pattern: quantityPattern}, read: func(r *reader, at string, n *node, v *sim.Time) bool {
		q, ok := r.quantity(at, n, says)
		if !ok {
			return false
		}
		s, err := q.In(seconds)
		if err != nil {
			return r.unfit(at, n, "wrong-unit", says)
		}
		if s < least.Seconds() || s > most.Seconds() {
			return r.unfit(at, n, "out-of-range", fmt.Sprintf("%s, from %s to %s", says, TimeWords(least), TimeWords(most)))
		}
		*v = milliseconds(s)
		return true
	}}
}

func milliseconds(s float64) sim.Time { return sim.Time(math.Round(s * 1000)) }

// dose is a dose rate in whatever unit the order uses.
var dose = form[quantity.Quantity]{
	value: Value{Kind: "dose", Says: "a dose with its unit such as 0.05 mcg/kg/min", Pattern: quantityPattern},
	read: func(r *reader, at string, n *node, v *quantity.Quantity) bool {
		q, ok := r.quantity(at, n, "a dose with its unit such as 0.05 mcg/kg/min")
		if ok && !(q.Value >= 0.000001 && q.Value <= 1e6) {
			return r.unfit(at, n, "out-of-range", "a dose such as 0.05 mcg/kg/min, from 0.000001 to 1,000,000 of its unit")
		}
		*v = q
		return ok
	},
}

// share is a percentage, stored from 0 to 1.
func share(says string) form[float64] {
	inner := measure("%", says, 0, 100)
	return form[float64]{value: inner.value, read: func(r *reader, at string, n *node, v *float64) bool {
		ok := inner.read(r, at, n, v)
		*v /= 100
		return ok
	}}
}

// whole is a whole number between bounds.
func whole(least, most int) form[int] {
	says := fmt.Sprintf("a whole number from %d to %d", least, most)
	return form[int]{value: Value{Kind: "count", Says: says, Least: float64(least), Most: float64(most)}, read: func(r *reader, at string, n *node, v *int) bool {
		text, ok := r.word(at, n, says)
		if !ok {
			return false
		}
		x, err := strconv.Atoi(text)
		if err != nil || x < least || x > most {
			return r.unfit(at, n, "not-a-count", says)
		}
		*v = x
		return true
	}}
}

// points is a number of marks.
var points = form[float64]{
	value: Value{Kind: "points", Says: "a number of points from 0 to 100", Least: 0, Most: 100},
	read: func(r *reader, at string, n *node, v *float64) bool {
		text, ok := r.word(at, n, "a number of points from 0 to 100")
		if !ok {
			return false
		}
		x, err := strconv.ParseFloat(text, 64)
		if err != nil || !(x >= 0 && x <= 100) || strings.ContainsAny(text, "_xXpPeE") {
			return r.unfit(at, n, "not-a-count", "a number of points from 0 to 100")
		}
		*v = x
		return true
	},
}

// seed is the number that all luck of a run comes from.
var seed = form[uint64]{
	value: Value{Kind: "count", Says: "a whole number such as 7"},
	read: func(r *reader, at string, n *node, v *uint64) bool {
		text, ok := r.word(at, n, "a whole number such as 7")
		if !ok {
			return false
		}
		x, err := strconv.ParseUint(text, 10, 63)
		if err != nil {
			return r.unfit(at, n, "not-a-count", "a whole number such as 7")
		}
		*v = x
		return true
	},
}

// truth is true or false.
var truth = form[bool]{
	value: Value{Kind: "truth", Says: "true or false"},
	read: func(r *reader, at string, n *node, v *bool) bool {
		text, ok := r.word(at, n, "true or false")
		if !ok {
			return false
		}
		if text != "true" && text != "false" {
			return r.unfit(at, n, "not-true-or-false", "true or false")
		}
		*v = text == "true"
		return true
	},
}

// choice is one of a few words, each standing for a value.
func choice[V any](says string, words []string, values []V) form[V] {
	return form[V]{
		value: Value{Kind: "choice", Says: says, Choices: words},
		read: func(r *reader, at string, n *node, v *V) bool {
			text, ok := r.word(at, n, says)
			if !ok {
				return false
			}
			for i, w := range words {
				if w == text {
					*v = values[i]
					return true
				}
			}
			r.complain(Complaint{
				Code: "not-a-choice", Pos: r.place(at, n),
				Said:    fmt.Sprintf("%s is %s", r.subject(at, "file"), quoted(text)),
				Allowed: "one of: " + strings.Join(words, ", "), Meant: Nearest(text, words),
			})
			return false
		},
	}
}

// oneOf is a choice that is stored as its own word.
func oneOf[V ~string](says string, words ...V) form[V] {
	plain := make([]string, len(words))
	for i, w := range words {
		plain[i] = string(w)
	}
	return choice(says, plain, words)
}

// name is the name of something defined elsewhere.
func name(says string) form[string] {
	return form[string]{value: Value{Kind: "name", Says: says, Pattern: namePattern}, read: func(r *reader, at string, n *node, v *string) bool {
		text, ok := r.word(at, n, says)
		if !ok {
			return false
		}
		if !isName(text) {
			return r.unfit(at, n, "bad-name", says+": small letters, digits and hyphens")
		}
		*v = text
		return true
	}}
}
