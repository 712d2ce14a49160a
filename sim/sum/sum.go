package sum

import (
	"fmt"
	"maps"
	"math"
	"slices"
	"strconv"
	"strings"

	"blanch/sim/quantity"
)

// Sum is one sum with its numbers. Nothing here changes it once it is made;
// only Tolerance is for the caller to set.
type Sum struct {
	Kind *Kind
	Unit quantity.Unit // of the answer
	Step float64       // what the answer is set or measured to

	// Tolerance lets an answer be off by this share of the key as well, for
	// values that no device takes. It is narrowed by itself: it never reaches
	// half way to a wrong way of the same sum.
	Tolerance float64

	given map[string]quantity.Quantity
	key   float64
	also  float64 // the key by the other convention for pounds
	steps []Step
	slips []Slip
	units map[string]quantity.Unit // while it is solved
}

// InputError is a fault in what a sum was given.
type InputError struct {
	Input string // its name, empty for the answer's unit
	Said  string
}

func (e *InputError) Error() string { return e.Said }

// New is a sum of this kind. With the zero unit the answer is in the usual
// one. The error is an [InputError] that says what is wrong and what would be
// right.
func (k *Kind) New(given map[string]quantity.Quantity, unit quantity.Unit) (*Sum, error) {
	s := &Sum{Kind: k, Unit: unit, Step: k.Step, given: maps.Clone(given)}
	for _, name := range slices.Sorted(maps.Keys(given)) {
		in, ok := k.Input(name)
		if !ok {
			return nil, &InputError{name, fmt.Sprintf("%s takes no %s: it takes %s", k.Name, name, inputNames(k))}
		}
		q := given[name]
		if !in.Measure(q.Unit) {
			if len(in.Units) == 0 {
				return nil, &InputError{name, fmt.Sprintf("%s is a bare number, without a unit: %s = %s", name, name, quantity.Number(q.Value))}
			}
			return nil, &InputError{name, fmt.Sprintf("%s cannot be %s: give it in %s", name, q, orList(in.Units))}
		}
		if name == "places" && q.Value == 0 {
			continue // whole numbers
		}
		if !(q.Value > 0) || math.IsInf(q.Value, 0) {
			return nil, &InputError{name, fmt.Sprintf("%s is %s: it must be more than 0", name, quantity.Number(q.Value))}
		}
	}
	if k.way(given) == nil {
		return nil, &InputError{"", fmt.Sprintf("%s needs %s", k.Name, k.Needs())}
	}
	if k.fault != nil {
		if err := k.fault(s); err != nil {
			return nil, err
		}
	}
	if s.Unit.IsZero() && len(k.Units) > 0 {
		usual := k.Units[0]
		if k.usual != nil {
			usual = k.usual(given)
		}
		s.Unit = quantity.MustUnit(usual)
	}
	if !k.Takes(s.Unit) {
		return nil, &InputError{"", fmt.Sprintf("the answer to %s cannot be in %s: ask for it in %s", k.Name, orBare(s.Unit), orBareList(k.Units))}
	}
	if err := s.solve(); err != nil {
		return nil, err
	}
	return s, nil
}

// way is the first way of working whose inputs are all there.
func (k *Kind) way(given map[string]quantity.Quantity) []string {
	for _, w := range k.Ways {
		if !slices.ContainsFunc(w, func(n string) bool { _, ok := given[n]; return !ok }) {
			return w
		}
	}
	return nil
}

// Needs says what the kind must be given: "dose, concentration; or dose,
// amount, volume".
func (k *Kind) Needs() string {
	var out []string
	for _, w := range k.Ways {
		out = append(out, strings.Join(w, ", "))
	}
	return strings.Join(out, "; or ")
}

// solve runs the program for the key and then for every slip.
func (s *Sum) solve() error {
	s.units = map[string]quantity.Unit{}
	defer func() { s.units = nil }()
	right := s.run("", s.pounds())
	s.key, s.also, s.steps = right.x, right.x, right.path.steps
	if !(s.key > 0) || math.IsInf(s.key, 0) {
		return &InputError{"", fmt.Sprintf("%s comes to nothing with these numbers: %s", s.Kind.Name, quantity.Number(s.key))}
	}
	both := s.poundsMatter()
	if both {
		s.also = s.run("", s.otherPounds()).x
	}
	if s.Step == 0 {
		s.Step = place(s.key, 3)
	}
	if quantity.Round(s.key, s.Step) == 0 {
		return &InputError{"", fmt.Sprintf("the answer, %s, is less than can be set or measured: that goes by %s", written(s.key, s.Unit), quantity.Number(s.Step))}
	}
	for _, o := range right.path.offers {
		if strings.HasPrefix(o.name, early) && o.step == len(s.steps) {
			continue // the last step is rounded at the end
		}
		wrong := s.run(o.name, s.pounds())
		also := wrong.x
		if both {
			also = s.run(o.name, s.otherPounds()).x
		}
		s.add(Slip{Name: o.name, Family: o.family, Step: s.parting(wrong.path.steps, o.step), clause: o.clause, steps: wrong.path.steps,
			Value: quantity.Quantity{Value: wrong.x, Unit: s.Unit}, also: also, digits: o.digits})
	}
	s.slipsAtTheEnd(right.path)
	return nil
}

// parting is the first step at which a wrong way has another value than the
// right one.
func (s *Sum) parting(wrong []Step, offered int) int {
	for i := range min(len(wrong), len(s.steps)) {
		if !same(wrong[i].Value.Value, s.steps[i].Value.Value) {
			return i + 1
		}
	}
	return offered
}

// add keeps a slip that leads to a number one could write down, other than
// the key itself.
func (s *Sum) add(slip Slip) {
	// A billion times too much or too little is nothing but what a difference
	// of two equal numbers leaves.
	const farthest = 1e9
	x := slip.Value.Value
	if !(x > s.key/farthest) || x > float64(s.key*farthest) || same(x, s.key) {
		return
	}
	slip.Value.Unit = s.Unit
	switch {
	case slip.Stage != 0:
	case slip.Family == Rounding:
		slip.Stage = Compute
	default:
		slip.Stage = SetUp
	}
	if slip.Step >= 1 && slip.Step <= len(s.steps) {
		slip.Label = s.steps[slip.Step-1].Label
	}
	if slip.digits && !s.shown(slip).carries(s.Step) {
		return // one digit alone shows nothing of two that were swapped
	}
	s.slips = append(s.slips, slip)
}

type outcome struct {
	path *path
	x    float64
}

func (s *Sum) run(slip string, pounds float64) outcome {
	p := &path{given: s.given, want: s.Unit, pounds: pounds, make: slip, units: s.units, names: map[string]int{}}
	v := s.Kind.work(p)
	if !s.Unit.IsZero() {
		v = p.into("the same in "+s.Unit.String(), v, s.Unit.String())
	}
	return outcome{p, tidy(v.x)}
}

// tidy drops what binary fractions leave beyond the fourteenth figure: 18.75
// and not 18.749999999999996.
func tidy(x float64) float64 {
	r, err := strconv.ParseFloat(strconv.FormatFloat(x, 'e', 13, 64), 64)
	if err != nil {
		return x
	}
	return r
}

// pounds is the convention that the sum states, or else the teaching one.
func (s *Sum) pounds() float64 {
	if q, ok := s.given["lb_per_kg"]; ok {
		return q.Value
	}
	return poundsPerKG
}

func (s *Sum) otherPounds() float64 {
	if s.pounds() == poundsPerKG {
		return poundsPerKGExact
	}
	return poundsPerKG
}

// poundsMatter says that a body weight in pounds is given or asked for.
func (s *Sum) poundsMatter() bool {
	lb := quantity.MustUnit("lb")
	return s.given["weight"].Unit == lb || s.Unit == lb
}

// Given is what the sum was given.
func (s *Sum) Given() map[string]quantity.Quantity { return maps.Clone(s.given) }

// Key is the exact answer, not rounded.
func (s *Sum) Key() quantity.Quantity { return quantity.Quantity{Value: s.key, Unit: s.Unit} }

// Answer is the key as it is set on the device or written down: rounded half
// up, once, at the end.
func (s *Sum) Answer() quantity.Quantity {
	return quantity.Quantity{Value: quantity.Round(s.key, s.Step), Unit: s.Unit}
}

// To is the sum with its answer set or measured to another step, in the unit
// of the answer. The error says that the step is too coarse for the key.
func (s *Sum) To(step float64) (*Sum, error) {
	t := *s
	t.Step, t.slips, t.steps = step, nil, nil
	if err := t.solve(); err != nil {
		return nil, err
	}
	return &t, nil
}

// Slips lists every wrong way through the sum, with where it leads.
func (s *Sum) Slips() []Slip { return slices.Clone(s.slips) }

func inputNames(k *Kind) string {
	var out []string
	for _, in := range k.Inputs {
		out = append(out, in.Name)
	}
	return strings.Join(out, ", ")
}

func orList(words []string) string {
	if len(words) < 2 {
		return strings.Join(words, "")
	}
	return strings.Join(words[:len(words)-1], ", ") + " or " + words[len(words)-1]
}

func orBare(u quantity.Unit) string {
	if u.IsZero() {
		return "a bare number"
	}
	return u.String()
}

// inUnit says how an answer is to be given.
func inUnit(u quantity.Unit) string {
	if u.IsZero() {
		return "a number without a unit"
	}
	return "it in " + u.String()
}

func orBareList(units []string) string {
	if len(units) == 0 {
		return "a bare number"
	}
	return orList(units)
}
