package sum

import (
	"errors"
	"slices"
	"strings"

	"blanch/sim/quantity"
)

// NotationRule is where the rules on unsafe notation come from.
const NotationRule = "Institute for Safe Medication Practices, list of error-prone abbreviations, symbols and dose designations"

// Answer is what somebody wrote, as it could be read.
type Answer struct {
	Raw    string
	Value  quantity.Quantity // with the zero unit when none was written
	Unsafe []string          // unsafe notation in it, each with what to write; by NotationRule

	place   float64 // of the last digit that was written
	figures int     // how many were, from the first that is not 0; zeros that only fill up places are none
	exact   bool    // it was not rounded: what a sum as typed comes to
	clock   bool    // a time in hours and minutes, which is to the minute
}

// counted are words behind a count, which is a bare number here.
var counted = []string{"times", "-fold", "fold", "x", "vials", "vial", "ampoules", "ampoule", "parts", "part"}

// Counts says that a word is one that a count may have behind it.
func Counts(word string) bool { return slices.Contains(counted, strings.ToLower(word)) }

// Read reads an answer as people write it: "13.1 ml/hr", "16mcg/ml", "4 times".
// The error says why it cannot be taken; what could be read in two ways, such
// as "1,000" and "13,1", is refused and never guessed. A number without a unit
// is read, with the zero unit.
func Read(text string) (Answer, error) {
	s := strings.TrimSpace(text)
	s = strings.TrimSpace(strings.TrimPrefix(s, "="))
	if t := strings.TrimSuffix(s, "."); t != s && t != "" && (t[len(t)-1] < '0' || t[len(t)-1] > '9') {
		s = t // a full stop behind the unit
	}
	for _, word := range counted {
		if t, ok := strings.CutSuffix(strings.ToLower(s), word); ok && t != "" && strings.Trim(t, "0123456789. ") == "" {
			s = strings.TrimSpace(t)
			break
		}
	}
	if q, unsafe, err := quantity.ParseSpan(s); err != nil {
		return Answer{Raw: text}, err
	} else if !q.Unit.IsZero() {
		return Answer{Raw: text, Value: q, Unsafe: unsafe, place: 1, figures: len(quantity.Number(q.Value)), clock: true}, nil
	}
	q, err := quantity.Parse(s)
	if err != nil && !errors.Is(err, quantity.ErrNoUnit) {
		return Answer{Raw: text}, err
	}
	a := Answer{Raw: text, Value: q, Unsafe: quantity.Unsafe(s)}
	a.place, a.figures = lastPlace(s)
	return a, nil
}

// answerOf is a quantity as an answer, written as Number writes it.
func answerOf(q quantity.Quantity) Answer {
	a := Answer{Raw: q.String(), Value: q}
	a.place, a.figures = lastPlace(quantity.Number(q.Value))
	return a
}

// lastPlace is the place value of the last digit of the number that a text
// begins with, and how many figures it has.
func lastPlace(s string) (place float64, figures int) {
	s = strings.TrimLeft(s, "+-\u2212")
	end := 0
	for end < len(s) && (s[end] == '.' || s[end] >= '0' && s[end] <= '9') {
		end++
	}
	whole, decimals, _ := strings.Cut(s[:end], ".")
	digits := strings.TrimLeft(whole+decimals, "0")
	if decimals == "" {
		digits = strings.TrimRight(digits, "0")
	}
	return power(-len(decimals)), len(digits)
}

// Place is the place value of the last digit that was written: 0.01 of "2.65".
func (a Answer) Place() float64 { return a.place }
