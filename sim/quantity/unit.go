package quantity

import (
	"errors"
	"fmt"
	"sort"
	"strings"
)

// Unit is a unit of measurement such as mcg/kg/min. Units are comparable;
// two spellings of one unit ("ml/hr", "mL/h") are equal. The zero Unit is
// no unit: that of a bare number.
type Unit struct {
	text     string // as printed
	single   string // as printed after exactly 1
	dim      Dimension
	num, den int64
}

// spellings leads from every accepted spelling, in lower case, to its row of
// bases; words lists them in order for suggestions.
var spellings, words = index()

func index() (map[string]int, []string) {
	m := map[string]int{}
	for i, b := range bases {
		for _, s := range append([]string{b.symbol, b.one}, b.spelt...) {
			if s == "" {
				continue
			}
			key := strings.ToLower(s)
			if j, taken := m[key]; taken && j != i {
				panic("quantity: two units spelt " + s)
			}
			m[key] = i
		}
	}
	w := make([]string, 0, len(m))
	for s := range m {
		w = append(w, s)
	}
	sort.Strings(w)
	return m, w
}

// ParseUnit reads a unit: a base unit or a product ("mmHg x min"), divided
// by any number of others ("mcg/kg/min", "mL per hour"). Case does not
// matter. The error names the part that is not known and the nearest known
// one. An empty text is the zero Unit and [ErrNoUnit].
func ParseUnit(s string) (Unit, error) {
	if u, ok := usual[s]; ok {
		return u, nil
	}
	return parseUnit(s)
}

// usual are the units that most texts are in, read beforehand.
var usual = func() map[string]Unit {
	m := map[string]Unit{}
	for _, s := range []string{
		"mg", "mcg", "units", "mL", "kg", "min", "h", "mm", "mL/h", "mcg/mL", "units/mL",
		"mcg/min", "units/min", "mcg/kg/min", "units/kg/min",
	} {
		u, err := parseUnit(s)
		if err != nil {
			panic(err)
		}
		m[s] = u
	}
	return m
}()

func parseUnit(s string) (Unit, error) {
	if err := plain(s); err != nil {
		return Unit{}, err
	}
	text := strings.Join(strings.Fields(strings.ToLower(s)), " ")
	if text == "" {
		return Unit{}, ErrNoUnit
	}
	text = strings.ReplaceAll(text, " per ", "/")
	over := strings.Split(text, "/")
	var top, bottom []int
	for _, word := range strings.Split(over[0], " x ") {
		b, err := lookUp(word)
		if err != nil {
			return Unit{}, err
		}
		top = append(top, b)
	}
	for _, word := range over[1:] {
		b, err := lookUp(word)
		if err != nil {
			return Unit{}, err
		}
		bottom = append(bottom, b)
	}
	return compose(top, bottom)
}

func lookUp(word string) (int, error) {
	word = strings.TrimSpace(word)
	if word == "" {
		return 0, errors.New("unit is incomplete: write it like mcg/kg/min")
	}
	if i, ok := spellings[word]; ok {
		return i, nil
	}
	if near := nearest(word); near != nil {
		return 0, fmt.Errorf("unit %q is not known: did you mean %s", shorten(word), strings.Join(near, " or "))
	}
	return 0, fmt.Errorf("unit %q is not known: use one like mcg/kg/min, mL/h, units/min, mg, kg or min", shorten(word))
}

// compose multiplies and divides base units, given as rows of bases. What is
// divided by is put in the order of the table of kinds, so that mcg/min/kg
// and mcg/kg/min are one unit.
func compose(top, bottom []int) (Unit, error) {
	u := Unit{num: 1, den: 1}
	seen := [kinds]bool{}
	take := func(i int, power int8) error {
		b := bases[i]
		if seen[b.kind] {
			return fmt.Errorf("unit has %s twice: each kind of measure may stand once", b.symbol)
		}
		seen[b.kind] = true
		u.dim.powers[b.kind] = power
		n, d := b.num, b.den
		if power < 0 {
			n, d = d, n
		}
		u.num, u.den = lowest(u.num*n, u.den*d)
		return nil
	}
	for _, i := range top {
		if err := take(i, 1); err != nil {
			return Unit{}, err
		}
	}
	for _, i := range bottom {
		if err := take(i, -1); err != nil {
			return Unit{}, err
		}
	}
	sort.SliceStable(bottom, func(i, j int) bool { return bases[bottom[i]].kind < bases[bottom[j]].kind })
	var many, one, tail []string
	for _, i := range top {
		many = append(many, bases[i].symbol)
		one = append(one, bases[i].singular())
	}
	for _, i := range bottom {
		tail = append(tail, "/"+bases[i].singular())
	}
	u.text = strings.Join(many, " x ") + strings.Join(tail, "")
	u.single = strings.Join(one, " x ") + strings.Join(tail, "")
	return u, nil
}

func (b base) singular() string {
	if b.one != "" {
		return b.one
	}
	return b.symbol
}

// lowest reduces a ratio of positive numbers to its lowest terms.
func lowest(num, den int64) (int64, int64) {
	a, b := num, den
	for b != 0 {
		a, b = b, a%b
	}
	return num / a, den / a
}

// MustUnit is [ParseUnit] for constants in code; it panics on an unknown unit.
func MustUnit(s string) Unit {
	u, err := ParseUnit(s)
	if err != nil {
		panic("quantity: " + err.Error())
	}
	return u
}

// String gives the unit in safe notation, "mcg/kg/min"; empty for no unit.
func (u Unit) String() string { return u.text }

// Dimension is what the unit measures.
func (u Unit) Dimension() Dimension { return u.dim }

// Same reports whether two units measure the same thing, and so convert.
func (u Unit) Same(v Unit) bool { return u.dim == v.dim }

// IsZero reports whether there is no unit.
func (u Unit) IsZero() bool { return u == Unit{} }
