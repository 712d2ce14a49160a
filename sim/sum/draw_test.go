package sum

import (
	"math/rand/v2"
	"os"
	"strings"

	"blanch/sim/quantity"
)

// rounds is how many sums a property is tried on; the long suite raises it.
func rounds(short, long int) int {
	if os.Getenv("BLANCH_LONG") != "" {
		return long
	}
	return short
}

// spread is between what an input of a sum lies in a ward or an ambulance
// (common practice), with the units it is written in there.
var spread = map[string][]struct {
	unit      string
	low, high float64
	step      float64
}{
	"concentration":       {{"mcg/mL", 4, 128, 4}, {"units/mL", 0.2, 1, 0.2}, {"mg/mL", 0.4, 3.2, 0.4}},
	"told":                {{"mcg/mL", 4, 128, 4}, {"units/mL", 0.2, 1, 0.2}},
	"other_concentration": {{"mcg/mL", 4, 128, 4}, {"units/mL", 0.2, 1, 0.2}},
	"amount":              {{"mg", 1, 32, 1}, {"units", 20, 100, 5}, {"mcg", 800, 8000, 100}, {"g", 0.2, 0.8, 0.1}},
	"volume":              {{"mL", 50, 1000, 50}, {"L", 0.25, 1, 0.25}},
	"stock_amount":        {{"mg", 4, 200, 2}, {"units", 20, 40, 20}},
	"stock_volume":        {{"mL", 2, 10, 1}},
	"taken":               {{"mL", 1, 9, 1}},
	"total":               {{"mL", 20, 50, 5}},
	"drug_volume":         {{"mL", 1, 20, 1}},
	"salt_ratio":          {{"", 1.2, 2, 0.1}},
	"weight":              {{"kg", 42, 140, 1}, {"lb", 90, 310, 1}},
	"lb_per_kg":           {{"", 2.2, 2.2, 0.1}},
	"stock":               {{"mg/mL", 1, 10, 1}, {"%", 5, 50, 5}, {"mcg/mL", 100, 900, 50}},
	"diluent":             {{"mL", 1, 19, 1}},
	"target":              {{"mg/mL", 0.1, 0.9, 0.1}, {"%", 1, 4, 1}, {"mcg/mL", 10, 90, 5}},
	"final_volume":        {{"mL", 50, 500, 50}},
	"dose":                {{"mcg/kg/min", 0.02, 2, 0.01}, {"mcg/min", 2, 30, 1}, {"units/min", 0.01, 0.06, 0.01}, {"mg/h", 1, 50, 1}, {"units/h", 1, 4, 0.2}, {"mcg/kg/h", 1, 9, 0.5}},
	"new_dose":            {{"mcg/kg/min", 0.03, 2, 0.01}, {"mcg/min", 2, 30, 1}, {"units/min", 0.01, 0.06, 0.01}},
	"rate":                {{"mL/h", 2, 150, 0.5}, {"mL/min", 0.2, 2, 0.1}},
	"new_rate":            {{"mL/h", 2, 150, 0.5}},
	"base":                {{"mg", 1, 16, 1}, {"mcg/mL", 4, 64, 4}},
	"salt":                {{"mg", 2, 32, 2}, {"mcg/mL", 8, 128, 8}},
	"programmed":          {{"mcg/kg/min", 0.02, 10, 0.01}, {"mcg/min", 2, 30, 1}, {"units/min", 0.01, 0.06, 0.01}},
	"intended":            {{"mcg/kg/min", 0.02, 10, 0.01}, {"mcg/min", 2, 30, 1}},
	"lead":                {{"min", 15, 55, 5}, {"h", 0.25, 1, 0.25}},
	"time":                {{"min", 15, 960, 15}, {"h", 1, 24, 1}},
	"dead_volume":         {{"mL", 0.2, 3, 0.1}},
	"length":              {{"mm", 25, 64, 0.5}, {"cm", 3, 6, 0.5}},
	"depth":               {{"mm", 2, 12, 0.5}},
	"angle":               {{"degrees", 15, 60, 5}},
	"drop_factor":         {{"gtt/mL", 10, 60, 5}},
	"order":               {{"mg", 0.5, 250, 0.5}, {"units", 1, 40, 1}, {"mEq", 10, 40, 5}, {"mg/kg", 1, 10, 0.5}, {"mcg", 50, 900, 50}},
	"have":                {{"mg", 1, 125, 1}, {"units", 20, 100, 20}, {"mEq", 10, 40, 10}},
	"in":                  {{"mL", 1, 15, 1}},
	"total_needed":        {{"mg", 4, 80, 1}},
	"per_vial":            {{"mg", 1, 10, 1}, {"units", 20, 20, 1}},
	"whole":               {{"mL", 5, 20, 1}, {"mg", 5, 10, 1}},
	"parts":               {{"", 2, 10, 1}},
	"value":               {{"mg", 1, 900, 1}, {"mL/h", 1, 200, 1}, {"mcg/min", 1, 90, 1}, {"min", 10, 200, 5}, {"mcg/mL", 4, 400, 4}},
	"places":              {{"", 0, 3, 1}},
}

// to is what a value is converted to.
var to = map[string][]string{
	"mg": {"mcg", "g"}, "mL/h": {"mL/min"}, "mcg/min": {"mcg/h", "mg/h"}, "min": {"h", "s"}, "mcg/mL": {"mg/mL"},
}

// draw is a random sum of a kind, in one of its ways. It draws again while
// the numbers do not go together.
func draw(r *rand.Rand, k *Kind) *Sum {
	for {
		given := map[string]quantity.Quantity{}
		put := func(name string) {
			key := name
			if k.Name == "vials" && name == "total" {
				key = "total_needed"
			}
			choices := spread[key]
			if k.Name == "round" && name == "value" {
				given[name] = quantity.Quantity{Value: quantity.Round(r.Float64()*100, 0.0001)}
				return
			}
			c := choices[r.IntN(len(choices))]
			x := quantity.Round(c.low+float64(r.IntN(int((c.high-c.low)/c.step+1.5)))*c.step, c.step)
			q := quantity.Quantity{Value: min(x, c.high)}
			if c.unit != "" {
				q.Unit = quantity.MustUnit(c.unit)
			}
			given[name] = q
		}
		for _, name := range k.Ways[r.IntN(len(k.Ways))] {
			put(name)
		}
		for _, in := range k.Inputs {
			if in.Extra && r.IntN(2) == 0 && (in.Name != "lb_per_kg" || given["weight"].Unit == quantity.MustUnit("lb")) {
				put(in.Name)
			}
		}
		unit := quantity.Unit{}
		if k.Name == "convert" {
			choices := to[given["value"].Unit.String()]
			unit = quantity.MustUnit(choices[r.IntN(len(choices))])
		}
		if s, err := k.New(given, unit); err == nil {
			return s
		}
	}
}

// tell writes what a sum was given, for a message.
func tell(s *Sum) string {
	var out []string
	for _, in := range s.Kind.Inputs {
		if q, ok := s.given[in.Name]; ok {
			out = append(out, in.Name+"="+q.String())
		}
	}
	return s.Kind.Name + " " + strings.Join(out, ";") + " in " + s.Unit.String()
}
