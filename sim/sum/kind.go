package sum

import (
	"slices"
	"strings"

	"blanch/sim/quantity"
)

// Kind is one kind of sum.
type Kind struct {
	Name   string
	Says   string     // what is worked out: "the pump rate that gives a dose"
	Inputs []Input    // everything it can be given
	Ways   [][]string // the inputs that it needs, in each way it can be worked
	Units  []string   // an answer may be in these, or in what converts to them

	// Step is what the answer is set or measured to, in its unit: a pump by
	// tenths of mL/h, a syringe by tenths of mL (common practice). 0 is for
	// what no device takes: three figures.
	Step   float64
	Device string // "pump", "syringe", or empty

	// Whole is what the answer counts, of which there are no parts, and what
	// one cannot do with a part of it: "open", "vial". Empty where there are.
	Whole [2]string

	usual func(map[string]quantity.Quantity) string // the answer's unit when none is asked for; nil for the first
	fault func(*Sum) error                          // what is wrong with inputs that go well one by one
	work  func(*path) value
}

// Input is one given of a kind of sum.
type Input struct {
	Name  string
	Says  string
	Units []string // it may be in these, or in what converts to them; none for a bare number
	Extra bool     // a sum may carry it without needing it: what tempts
}

// Measure reports whether the input may be given in a unit.
func (in Input) Measure(u quantity.Unit) bool { return measured(in.Units, u) }

func measured(units []string, u quantity.Unit) bool {
	if len(units) == 0 {
		return u.IsZero()
	}
	return slices.ContainsFunc(units, func(s string) bool { return quantity.MustUnit(s).Same(u) })
}

// Takes reports whether an answer may be given in a unit.
func (k *Kind) Takes(u quantity.Unit) bool { return measured(k.Units, u) }

// Input is the input of that name.
func (k *Kind) Input(name string) (Input, bool) {
	for _, in := range k.Inputs {
		if in.Name == name {
			return in, true
		}
	}
	return Input{}, false
}

// kinds is every kind of sum, in the order of the job.
var kinds = slices.Concat(mixing, rates, running, drawing, converting)

// Kinds lists every kind of sum in the order of the job.
func Kinds() []*Kind { return slices.Clone(kinds) }

// Named is the kind of that name.
func Named(name string) (*Kind, bool) {
	for _, k := range kinds {
		if k.Name == name {
			return k, true
		}
	}
	return nil, false
}

// What inputs may be measured in.
var (
	amounts  = []string{"mg", "units", "mEq"}
	volumes  = []string{"mL"}
	times    = []string{"min"}
	weights  = []string{"kg"}
	flows    = []string{"mL/h"}
	strength = []string{"mcg/mL", "units/mL", "mEq/mL"}
	doses    = []string{"mcg/min", "mcg/kg/min", "units/min", "units/kg/min", "mEq/h"}
)

// bag is the inputs that say what is in a bag or a syringe.
var bag = []Input{
	{"concentration", "concentration of the bag", strength, false},
	{"amount", "drug in the bag", amounts, false},
	{"volume", "labelled volume of the bag", volumes, false},
	{"stock_amount", "drug in the stock", amounts, false},
	{"stock_volume", "volume of the stock", volumes, false},
	{"taken", "stock that was taken", volumes, false},
	{"total", "volume that it was made up to", volumes, false},
	{"drug_volume", "volume that the drug came in", volumes, true},
	{"other_concentration", "concentration of another bag at hand", strength, true},
	{"salt_ratio", "mass of the salt that holds 1 of base", nil, true},
}

// bagWays is what says the concentration of a bag.
var bagWays = [][]string{{"concentration"}, {"amount", "volume"}, {"stock_amount", "stock_volume", "taken", "total"}}

// person is the inputs about a body weight.
var person = []Input{
	{"weight", "body weight, needed where a dose is by the kg", weights, true},
	{"lb_per_kg", "pounds in a kilogram, where the sum says so", nil, true},
}

// with adds the same inputs to each way.
func with(ways [][]string, names ...string) [][]string {
	var out [][]string
	for _, w := range ways {
		out = append(out, slices.Concat(names, w))
	}
	return out
}

// measureOf is the measure in which a kind's answer follows its inputs.
func measureOf(given map[string]quantity.Quantity, names ...string) string {
	for _, n := range names {
		if q, ok := given[n]; ok {
			m, _, _ := strings.Cut(q.Unit.String(), "/")
			if m == "units" || m == "mEq" {
				return m
			}
		}
	}
	return "mcg"
}
