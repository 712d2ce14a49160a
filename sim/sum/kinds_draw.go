package sum

import (
	"fmt"
	"math"
	"slices"

	"blanch/sim/quantity"
)

var drawing = []*Kind{
	{
		Name: "draw_up",
		Says: "the volume to draw up for a dose",
		Inputs: slices.Concat([]Input{
			{"order", "dose ordered", []string{"mg", "units", "mEq", "mg/kg", "units/kg"}, false},
			{"have", "drug in the stock", amounts, false},
			{"in", "volume that holds it", volumes, false},
		}, person),
		Ways: [][]string{{"order", "have", "in"}}, Units: volumes, Step: 0.1, Device: "syringe",
		fault: all(needsWeight("order"), func(s *Sum) error {
			ordered, _, _ := shape(s.given["order"].Unit)
			if !quantity.MustUnit(ordered).Same(s.given["have"].Unit) {
				return &InputError{"have", "have is in " + s.given["have"].Unit.String() + " and order in " + s.given["order"].Unit.String() + ": both must be measured alike"}
			}
			return nil
		}),
		work: func(p *path) value {
			d := p.take("order", "the dose")
			measure, perKG, _ := shape(d.unit)
			if perKG {
				d = p.times("dose of the whole patient", d, p.weight(), measure, forget|twice|turn)
				d.what = "the dose of the whole patient"
			}
			h := p.into("drug in the stock", p.take("have", "what the stock holds"), measure)
			v := p.into("volume of the stock", p.take("in", "the volume of the stock"), "mL")
			c := p.over("concentration of the stock", h, v, measure+"/mL", forget|flip)
			return p.over("volume to draw up", d, c, "mL", flip)
		},
	},
	{
		Name:   "amount",
		Says:   "the drug in a volume",
		Inputs: []Input{{"volume", "volume that is drawn up", volumes, false}, bag[0]},
		Ways:   [][]string{{"volume", "concentration"}}, Units: amounts,
		usual: func(g map[string]quantity.Quantity) string { return measureOf(g, "concentration") },
		fault: sameMeasure("concentration"),
		work:  func(p *path) value { return p.holds("volume", "the volume") },
	},
	{
		Name: "vials",
		Says: "how many vials must be opened",
		Inputs: []Input{
			{"total", "drug that is needed", amounts, false},
			{"per_vial", "drug in one vial", amounts, false},
		},
		Ways: [][]string{{"total", "per_vial"}}, Step: 1, Whole: [2]string{"open", "vial"},
		fault: alike("total", "per_vial"),
		work: func(p *path) value {
			per := p.take("per_vial", "what a vial holds")
			t := p.into("drug needed", p.take("total", "what is needed"), per.unit.String())
			n := p.over("vials", t, per, "", flip|turn|kept)
			whole := ceil(n.x)
			if p.slips("vials rounded down", Rounding, "rounded down, which leaves you short") {
				whole = math.Floor(n.x)
			}
			return p.keep("vials to open", fmt.Sprintf("%s, so %s must be opened", written(n.x, n.unit), quantity.Number(whole)),
				value{x: whole, what: "the vials"})
		},
	},
	{
		Name: "split",
		Says: "one part of a dose that is split, such as an antidote given at several points",
		Inputs: []Input{
			{"whole", "the whole dose, or its volume", []string{"mL", "mg", "units"}, false},
			{"parts", "how many equal parts", nil, false},
		},
		Ways: [][]string{{"whole", "parts"}}, Units: []string{"mL", "mg", "units"}, Step: 0.1, Device: "syringe",
		usual: func(g map[string]quantity.Quantity) string { return g["whole"].Unit.String() },
		fault: all(sameKind("whole"), func(s *Sum) error {
			if n := s.given["parts"].Value; n != math.Floor(n) || n < 2 {
				return &InputError{"parts", "parts is " + quantity.Number(n) + ": it must be a whole number from 2 on"}
			}
			return nil
		}),
		work: func(p *path) value {
			w := p.take("whole", "the whole dose")
			n := p.take("parts", "the number of parts")
			if n.x > 2 && p.slips("one part too few", WrongDatum, "counted one part too few") {
				n.x--
			}
			if p.slips("one part too many", WrongDatum, "counted one part too many") {
				n.x++
			}
			return p.over("one part", w, n, w.unit.String(), forget|flip|turn)
		},
	},
}
