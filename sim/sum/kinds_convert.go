package sum

import (
	"blanch/sim/quantity"
)

// convertible is one unit of each measure that sums convert within.
var convertible = []string{
	"mg", "units", "mL", "min", "mm", "mEq", "mL/h", "mcg/mL", "units/mL", "mcg/min", "mcg/kg/min", "units/min", "units/kg/min", "mL/kg/min", "gtt/min", "mg/kg",
}

var converting = []*Kind{
	{
		Name:   "convert",
		Says:   "a value in another unit",
		Inputs: []Input{{"value", "what is converted", convertible, false}},
		Ways:   [][]string{{"value"}}, Units: convertible,
		usual: func(g map[string]quantity.Quantity) string { return g["value"].Unit.String() },
		fault: func(s *Sum) error {
			q := s.given["value"]
			if s.Unit.IsZero() || s.Unit == q.Unit {
				return &InputError{"", "the unit to convert " + q.String() + " into is missing: ask for the answer in another one"}
			}
			return sameKind("value")(s)
		},
		work: func(p *path) value { return p.take("value", "the value") },
	},
	{
		Name:   "weight",
		Says:   "a body weight in kg of one in pounds, or the reverse",
		Inputs: []Input{{"weight", "body weight", weights, false}, person[1]},
		Ways:   [][]string{{"weight"}}, Units: weights, Step: 0.1,
		usual: func(g map[string]quantity.Quantity) string {
			if g["weight"].Unit == quantity.MustUnit("kg") {
				return "lb"
			}
			return "kg"
		},
		fault: func(s *Sum) error {
			if q := s.given["weight"]; s.Unit == q.Unit {
				return &InputError{"", "weight is in " + q.Unit.String() + " already: ask for the answer in the other unit"}
			}
			return nil
		},
		work: func(p *path) value { return p.take("weight", "the weight") },
	},
	{
		Name: "round",
		Says: "a value rounded half up",
		Inputs: []Input{
			{"value", "what is rounded", nil, false},
			{"places", "decimal places that stay", nil, false},
		},
		Ways: [][]string{{"value", "places"}},
		fault: func(s *Sum) error {
			n := s.given["places"].Value
			if n != float64(int(n)) || n > 9 {
				return &InputError{"places", "places is " + quantity.Number(n) + ": it must be a whole number from 0 to 9"}
			}
			s.Step = power(-int(n))
			return nil
		},
		work: func(p *path) value {
			v := p.take("value", "the value")
			p.steps = append(p.steps, Step{Label: "value", Line: quantity.Number(v.x), Value: quantity.Quantity{Value: v.x}})
			return v
		},
	},
}
