package drill

import (
	"slices"

	"blanch/sim/drug"
	"blanch/sim/quantity"
)

// mix is a bag that is used somewhere, and the doses given from it.
type mix struct {
	drug   string
	amount quantity.Quantity
	volume quantity.Quantity
}

// mixes of the drugs whose dose is a mass.
//
// Norepinephrine: 4 mg in 1000 mL is the American label's, 4 mg in 250 mL is
// ASHP's (Injectable Drug Information, 25th edition), 8 mg and 16 mg in 250 mL
// are the 32 and 64 mcg/mL of published protocols (Yerke 2024). Epinephrine: 1
// mg in 1000 mL is the American label's; 20 mcg/mL is a strength of ASHP
// Standardize 4 Safety. Phenylephrine: 10 mg in 500 mL is the American
// label's; 200 mcg/mL is in an Ohio hospital system's guideline. Dopamine: the
// American label's premixed bags. The rest is common practice.
var massMixes = []mix{
	{"norepinephrine", of(4, "mg"), of(250, "mL")},
	{"norepinephrine", of(8, "mg"), of(250, "mL")},
	{"norepinephrine", of(16, "mg"), of(250, "mL")},
	{"norepinephrine", of(4, "mg"), of(500, "mL")},
	{"norepinephrine", of(8, "mg"), of(500, "mL")},
	{"norepinephrine", of(4, "mg"), of(1000, "mL")},
	{"epinephrine", of(1, "mg"), of(250, "mL")},
	{"epinephrine", of(2, "mg"), of(250, "mL")},
	{"epinephrine", of(5, "mg"), of(250, "mL")},
	{"phenylephrine", of(10, "mg"), of(250, "mL")},
	{"phenylephrine", of(20, "mg"), of(250, "mL")},
	{"phenylephrine", of(50, "mg"), of(250, "mL")},
	{"phenylephrine", of(10, "mg"), of(500, "mL")},
	{"dopamine", of(200, "mg"), of(250, "mL")},
	{"dopamine", of(400, "mg"), of(250, "mL")},
	{"dopamine", of(800, "mg"), of(250, "mL")},
	{"dopamine", of(400, "mg"), of(500, "mL")},
}

// unitMixes are bags of vasopressin: 0.1 and 1 unit/mL are in the American
// label's Table 1, 0.2 and 0.4 units/mL are its premixed bags.
var unitMixes = []mix{
	{"vasopressin", of(20, "units"), of(100, "mL")},
	{"vasopressin", of(40, "units"), of(100, "mL")},
	{"vasopressin", of(50, "units"), of(500, "mL")},
	{"vasopressin", of(20, "units"), of(50, "mL")},
	{"vasopressin", of(25, "units"), of(250, "mL")},
	{"vasopressin", of(100, "units"), of(100, "mL")},
}

// span is the doses from low to high by step, in one unit.
type span struct {
	low, high, step float64
	unit            string
}

// perKG and perMin are doses per kilogram and of the whole patient.
//
// Norepinephrine: the American label has 2 to 4 mcg/min to keep on and 8 to 12
// to start; published arms got up to 15 mcg/min (Yerke 2024). Epinephrine: 0.05
// to 2 mcg/kg/min (American label, septic shock), of which the lower part.
// Phenylephrine: 0.5 to 6 mcg/kg/min (American label, septic shock, from
// memory), of which the lower part. Dopamine: 2 to 20 mcg/kg/min (American
// label, from memory, which goes on to 50).
var (
	perKG = map[string]span{
		"norepinephrine": {0.03, 0.3, 0.01, "mcg/kg/min"},
		"epinephrine":    {0.03, 0.3, 0.01, "mcg/kg/min"},
		"phenylephrine":  {0.4, 2, 0.1, "mcg/kg/min"},
		"dopamine":       {2, 15, 0.5, "mcg/kg/min"},
	}
	perMin = map[string]span{
		"norepinephrine": {2, 15, 0.5, "mcg/min"},
		"epinephrine":    {2, 12, 0.5, "mcg/min"},
		"phenylephrine":  {30, 180, 5, "mcg/min"},
	}
	// Vasopressin: 0.01 to 0.07 units/min in septic shock, by steps of 0.005
	// (American label).
	ofUnits = span{0.01, 0.07, 0.005, "units/min"}
)

// order is a dose of a drug from a bag.
type order struct {
	mix
	dose quantity.Quantity
}

// orders are all doses of all mixes that have a span.
func orders(mixes []mix, doses map[string]span) []order {
	var out []order
	for _, m := range mixes {
		s, ok := doses[m.drug]
		if !ok {
			continue
		}
		for i := 0; ; i++ {
			x := quantity.Round(s.low+float64(i)*s.step, s.step)
			if x > s.high {
				break
			}
			out = append(out, order{m, of(x, s.unit)})
		}
	}
	return out
}

var (
	kgOrders   = orders(massMixes, perKG)
	minOrders  = orders(massMixes, perMin)
	unitOrders = orders(unitMixes, map[string]span{"vasopressin": ofUnits})
)

// strength is the concentration on the label of a mix.
func (m mix) strength() quantity.Quantity {
	unit := m.amount.Unit.String()
	if unit == "mg" {
		unit = "mcg"
	}
	return of(quantity.Round(m.amount.Float(unit)/m.volume.Float("mL"), 0.001), unit+"/mL")
}

// bag is the mix as a bag whose strength is not written on it.
func (m mix) bag() Bag { return Bag{Drug: m.drug, Amount: m.amount, Volume: m.volume} }

// holds says the mix in a sentence: "4 mg of norepinephrine in 250 mL".
func (m mix) holds() string {
	return m.amount.String() + " of " + m.drug + " in " + m.volume.String()
}

// vialOf is the vial of a drug as it is supplied.
func vialOf(name string) Vial {
	d, _ := drug.Named(name)
	return Vial{Drug: name, Amount: d.Supplied.Amount, Volume: d.Supplied.Volume}
}

// massOf is a mass rounded clear of what multiplying leaves.
func massOf(v float64, unit string) quantity.Quantity { return of(quantity.Round(v, 0.001), unit) }

// need is an amount of a drug, in the unit of its vial.
type need struct {
	drug  string
	value float64
}

func needs(drug string, values ...float64) []need {
	out := make([]need, len(values))
	for i, v := range values {
		out[i] = need{drug, v}
	}
	return out
}

// shiftNeeds are what the bags of a shift take: one or two of 4, 5, 8 or 10 mg
// of norepinephrine, 10, 20 or 25 mg of phenylephrine, 200 or 400 mg of dopamine,
// 20, 25 or 50 units of vasopressin, 1 or 2 mg of epinephrine (American labels and
// common practice). bagNeeds are what one bag or syringe takes. From five vials
// on, slips meet on one number.
var (
	shiftNeeds = slices.Concat(
		needs("norepinephrine", 8, 9, 10, 12, 13, 14, 15, 16),
		needs("phenylephrine", 20, 25, 30, 35, 40),
		needs("dopamine", 400, 600, 800),
		needs("vasopressin", 40, 45, 50, 60, 70, 80),
		needs("epinephrine", 2, 3, 4),
	)
	bagNeeds = slices.Concat(
		needs("phenylephrine", 2, 4, 5, 8, 10, 15, 16, 20, 25, 30, 40, 50, 80, 100),
		needs("vasopressin", 5, 10, 15, 20, 25, 30, 40, 50, 60, 80, 100, 150, 200),
		needs("dopamine", 40, 80, 160, 200, 320, 400, 500, 600, 800, 1600),
		needs("norepinephrine", 1.6, 3.2, 6.4, 8, 16),
	)
)

// madeUp are bags and syringes by the strengths that units use: 4 to 80
// mcg/mL of norepinephrine, 2 to 100 of epinephrine, 20 to 400 of
// phenylephrine (labels, ASHP Standardize 4 Safety, published protocols, and
// common practice for syringes). Each set of numbers stands once.
var madeUp = func() []mix {
	var out []mix
	seen := map[[2]float64]bool{}
	for _, m := range []struct {
		drug      string
		strengths []float64 // mcg/mL
	}{
		{"phenylephrine", []float64{40, 100, 160, 200, 400}},
		{"epinephrine", []float64{2, 10, 100}},
		{"norepinephrine", []float64{4, 8, 16, 20, 32, 64, 80}},
	} {
		for _, s := range m.strengths {
			for _, v := range []float64{50, 100, 250, 500, 1000} {
				mg := quantity.Round(s*v/1000, 0.001)
				if mg < 0.4 || mg > 100 || mg > 40 && v < 250 || seen[[2]float64{mg, v}] {
					continue
				}
				seen[[2]float64{mg, v}] = true
				out = append(out, mix{m.drug, of(mg, "mg"), of(v, "mL")})
			}
		}
	}
	return out
}()

// labelled are amounts and strengths as labels of norepinephrine have them, in
// base or in salt (labels of several countries; common practice).
var labelled = func() []quantity.Quantity {
	var out []quantity.Quantity
	for _, v := range []float64{2, 3, 4, 5, 6, 8, 10, 12, 15, 16, 20, 24, 25, 30, 32, 40, 48, 50} {
		out = append(out, of(v, "mg"))
	}
	for _, v := range []float64{8, 10, 12, 16, 20, 24, 25, 32, 40, 48, 50, 60, 64, 80, 96, 100, 120, 128, 160, 200} {
		out = append(out, of(v, "mcg/mL"))
	}
	return out
}()
