package sum

import (
	"errors"
	"fmt"
	"math"
	"strings"
	"unicode/utf8"

	"blanch/sim/quantity"
)

// Longest and deepest expression that anyone means to type.
const (
	longest = 120
	deepest = 10
)

// Evaluate works out what somebody typed to set a sum up, numbers only:
// "0.1 x 70 x 60 / 16". It knows x and * to multiply, / to divide, + and -,
// and brackets.
func Evaluate(text string) (float64, error) {
	if n := utf8.RuneCountInString(text); n > longest {
		return 0, fmt.Errorf("the sum is %d characters long: write it like 0.1 x 70 x 60 / 16", n)
	}
	r := &reader{rest: text}
	x, err := r.sum(0)
	if err != nil {
		return 0, err
	}
	if r.skip(); r.rest != "" {
		return 0, r.unexpected()
	}
	if math.IsNaN(x) || math.IsInf(x, 0) {
		return 0, errors.New("the sum divides by 0: look at what stands under the line")
	}
	return x, nil
}

type reader struct{ rest string }

func (r *reader) skip() { r.rest = strings.TrimLeft(r.rest, " \u00a0\u2009\u202f\t") }

// next takes off one of some signs, and says which.
func (r *reader) next(signs ...string) string {
	r.skip()
	for _, s := range signs {
		if rest, ok := strings.CutPrefix(r.rest, s); ok {
			r.rest = rest
			return s
		}
	}
	return ""
}

func (r *reader) unexpected() error {
	c, _ := utf8.DecodeRuneInString(r.rest)
	switch {
	case r.rest == "":
		return errors.New("the sum is not finished: write it like 0.1 x 70 x 60 / 16")
	case c == ',':
		return errors.New("the sum has a comma, which could mark thousands or decimals: write 1000 or 0.5 without one")
	}
	return fmt.Errorf("%q cannot stand there: write numbers only, like 0.1 x 70 x 60 / 16", string(c))
}

func (r *reader) sum(depth int) (float64, error) {
	x, err := r.product(depth)
	for err == nil {
		var y float64
		switch r.next("+", "-", "\u2212") {
		case "":
			return x, nil
		case "+":
			y, err = r.product(depth)
			x += y
		default:
			y, err = r.product(depth)
			x -= y
		}
	}
	return 0, err
}

func (r *reader) product(depth int) (float64, error) {
	x, err := r.one(depth)
	for err == nil {
		var y float64
		switch r.next("x", "X", "*", "\u00d7", "\u00b7", "/", "\u00f7") {
		case "":
			return x, nil
		case "/", "\u00f7":
			y, err = r.one(depth)
			x /= y
		default:
			y, err = r.one(depth)
			x = float64(x * y)
		}
	}
	return 0, err
}

func (r *reader) one(depth int) (float64, error) {
	if r.next("(") != "" {
		if depth == deepest {
			return 0, fmt.Errorf("the sum has more than %d brackets inside each other", deepest)
		}
		x, err := r.sum(depth + 1)
		if err == nil && r.next(")") == "" {
			return 0, errors.New("a bracket is not closed")
		}
		return x, err
	}
	r.skip()
	end := 0
	for end < len(r.rest) && (r.rest[end] == '.' || r.rest[end] >= '0' && r.rest[end] <= '9') {
		end++
	}
	if end == 0 {
		return 0, r.unexpected()
	}
	q, err := quantity.Parse(r.rest[:end])
	if !errors.Is(err, quantity.ErrNoUnit) {
		return 0, err
	}
	r.rest = r.rest[end:]
	return q.Value, nil
}
