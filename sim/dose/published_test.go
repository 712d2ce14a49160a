package dose_test

import (
	"encoding/csv"
	"math"
	"os"
	"strconv"
	"strings"
	"testing"

	"blanch/sim/dose"
	"blanch/sim/drug"
	"blanch/sim/quantity"
)

// inputs are the givens of one worked example. A given that is not there, or
// is never asked for, fails the test: an example must be used whole.
type inputs struct {
	t     *testing.T
	given map[string]string
	used  map[string]bool
}

func (in inputs) has(name string) bool { _, ok := in.given[name]; return ok }

func (in inputs) word(name string) string {
	in.t.Helper()
	w, ok := in.given[name]
	if !ok {
		in.t.Fatalf("no %s among the inputs", name)
	}
	in.used[name] = true
	return w
}

func (in inputs) num(name string) float64 {
	in.t.Helper()
	x, err := strconv.ParseFloat(in.word(name), 64)
	if err != nil {
		in.t.Fatal(err)
	}
	return x
}

// kg is the body weight, in pounds by the convention of 2.2 where so given.
func (in inputs) kg() float64 {
	in.t.Helper()
	if in.has("weight_kg") {
		return in.num("weight_kg")
	}
	if per := in.num("lb_per_kg"); per != 2.2 {
		in.t.Fatalf("%v lb to the kg", per)
	}
	return dose.KGFromLB(in.num("weight_lb"))
}

// conc is the nominal concentration in mcg/mL, or in units/mL.
func (in inputs) conc() float64 {
	in.t.Helper()
	switch {
	case in.has("conc_mcg_mL"):
		return in.num("conc_mcg_mL")
	case in.has("amount_units"):
		return dose.Mix{AmountMcg: in.num("amount_units"), BagML: in.num("volume_mL")}.Nominal()
	}
	amount := quantity.Of(in.num("amount_mg"), "mg").Float("mcg")
	return dose.Mix{AmountMcg: amount, BagML: in.num("volume_mL")}.Nominal()
}

// saltRatio is the mass of salt to 1 of base.
func (in inputs) saltRatio() float64 {
	in.t.Helper()
	name := strings.ReplaceAll(in.word("salt"), "_", " ")
	if name == "dopamine HCl" {
		return 1 / 0.8075 // dopamine label: 80 mg of the salt is 64.6 mg of base
	}
	d, _ := drug.Named("norepinephrine")
	s, ok := d.SaltNamed(name)
	if !ok {
		in.t.Fatalf("%s is not a salt of norepinephrine", name)
	}
	return s.Ratio
}

// solve answers each kind of example through the public functions.
var solve = map[string]func(in inputs) float64{
	"convert_lb_kg": func(in inputs) float64 { return in.kg() },
	"convert_mass": func(in inputs) float64 {
		return quantity.Of(in.num("value"), in.word("from")).Float(in.word("to"))
	},
	"convert_rate": func(in inputs) float64 { return dose.FlowMLMin(in.num("rate_mL_h")) },
	"round": func(in inputs) float64 {
		return quantity.Round(in.num("value"), math.Pow(10, -in.num("places")))
	},

	"conc_mcg_mL":   inputs.conc,
	"conc_units_mL": inputs.conc,
	"conc_mg_mL":    func(in inputs) float64 { return quantity.Of(in.conc(), "mcg/mL").Float("mg/mL") },
	"implied_conc": func(in inputs) float64 {
		return dose.ImpliedConcentration(in.num("dose_mcg_min"), in.num("rate_mL_min"))
	},
	"salt_from_base": func(in inputs) float64 {
		base := "base_mg"
		if in.has("base_mcg_mL") {
			base = "base_mcg_mL"
		}
		return dose.SaltFromBase(in.num(base), in.saltRatio())
	},
	"base_from_salt": func(in inputs) float64 { return dose.BaseFromSalt(in.num("salt_mg"), in.saltRatio()) },
	"dilution_C1V1": func(in inputs) float64 {
		if in.has("find") {
			if in.word("find") != "V1" {
				in.t.Fatal("only V1 is looked for")
			}
			return dose.StockML(in.num("stock_pct"), in.num("target_pct"), in.num("V2_mL"))
		}
		return dose.Added(in.num("stock_mg_mL"), in.num("stock_mL"), in.num("diluent_mL"))
	},

	"rate_mcg_kg_min": func(in inputs) float64 {
		return dose.Rate(dose.PerMin(in.num("dose"), in.kg()), in.conc())
	},
	"rate_mL_kg_min": func(in inputs) float64 { return dose.RatePerKG(in.num("dose_mcg_kg_min"), in.conc()) },
	"rate_units_h":   func(in inputs) float64 { return dose.RateHourly(in.num("dose_units_h"), in.conc()) },
	"rate_mg_h": func(in inputs) float64 {
		return dose.RateHourly(quantity.Of(in.num("dose_mg_h"), "mg/h").Float("mcg/h"), in.conc())
	},

	"dose_mcg_min": func(in inputs) float64 { return dose.Dose(in.num("rate_mL_h"), in.conc()) },
	"dose_mcg_kg_min": func(in inputs) float64 {
		return dose.PerKG(dose.Dose(in.num("rate_mL_h"), in.conc()), in.kg())
	},
	"dose_units_h": func(in inputs) float64 { return dose.DoseHourly(in.num("rate_mL_h"), in.conc()) },
	"dose_mcg_min_from_mL_min": func(in inputs) float64 {
		return dose.Dose(quantity.Of(in.num("rate_mL_min"), "mL/min").Float("mL/h"), in.conc())
	},
	"dose_amount": func(in inputs) float64 { return dose.FlushMcg(in.num("volume_mL"), in.num("units_per_mL")) },
	"dose_volume": func(in inputs) float64 {
		measure := "mg"
		if in.has("order_mEq") {
			measure = "mEq"
		}
		return dose.HoldingML(in.num("order_"+measure), in.num("have_"+measure), in.num("have_mL"))
	},
	"dose_volume_weight": func(in inputs) float64 {
		return dose.HoldingML(in.num("dose_mg_per_kg")*in.kg(), in.num("have_mg"), in.num("have_mL"))
	},
	"actual_dose_wrong_conc": func(in inputs) float64 {
		return dose.Really(in.num("programmed_mcg_kg_min"), in.num("programmed_conc_mg_per_250mL"), in.num("true_conc_mg_per_250mL"))
	},
	"count_vials": func(in inputs) float64 { return dose.Vials(in.num("total_mg"), in.num("mg_per_vial")) },

	"runout_h": func(in inputs) float64 {
		if in.has("amount_mg") {
			return dose.DrugLastsH(quantity.Of(in.num("amount_mg"), "mg").Float("mcg"), in.num("dose_mcg_min"))
		}
		return dose.RunOutH(in.num("volume_mL"), in.num("rate_mL_h"))
	},
	"volume_needed": func(in inputs) float64 { return dose.VolumeML(in.num("rate_mL_h"), in.num("hours")) },
	"gtt_min": func(in inputs) float64 {
		rate := 0.0
		if in.has("rate_mL_h") {
			rate = in.num("rate_mL_h")
		} else {
			rate = dose.RateOver(in.num("volume_mL"), in.num("time_min"))
		}
		return dose.DropsMin(rate, in.num("gtt_mL"))
	},
	"gtt_min_dose": func(in inputs) float64 {
		return dose.DropsMin(dose.Rate(in.num("dose_mcg_min"), in.conc()), in.num("gtt_mL"))
	},
	"error_factor": func(in inputs) float64 {
		if in.has("intended") {
			return dose.Factor(in.quantity("programmed").Float("mcg/kg/min"), in.quantity("intended").Float("mcg/kg/min"))
		}
		in.word("same mL/h")
		return dose.Factor(in.bag("hung_conc"), in.bag("ordered_conc"))
	},
}

// rateByWeight is the rate of a dose by the kilogram.
func rateByWeight(in inputs) float64 {
	return dose.Rate(dose.PerMin(in.num("dose_mcg_kg_min"), in.kg()), in.conc())
}

func (in inputs) quantity(name string) quantity.Quantity {
	in.t.Helper()
	q, err := quantity.Parse(in.word(name))
	if err != nil {
		in.t.Fatal(err)
	}
	return q
}

// bag is the concentration of a bag written as "dopamine 200 mg/250 mL".
func (in inputs) bag(name string) float64 {
	in.t.Helper()
	over := strings.Split(strings.TrimPrefix(in.word(name), "dopamine "), "/")
	if len(over) != 2 {
		in.t.Fatalf("%s is not a bag", name)
	}
	amount, err := quantity.Parse(over[0])
	if err != nil {
		in.t.Fatal(err)
	}
	volume, err := quantity.Parse(over[1])
	if err != nil {
		in.t.Fatal(err)
	}
	return dose.Concentration(amount.Float("mcg"), volume.Float("mL"))
}

// step is the rounding that an example states, 0 when its answer is exact.
func step(rounding string) float64 {
	for _, s := range []struct {
		word string
		step float64
	}{{"nearest hundredth", 0.01}, {"nearest tenth", 0.1}, {"whole", 1}, {"approximately", 1}} {
		if strings.Contains(rounding, s.word) {
			return s.step
		}
	}
	return 0
}

type example struct {
	id, kind string
	in       map[string]string
	answer   float64
	rounding string
	right    string // of an answer in print that is wrong
}

func published(t *testing.T) []example {
	t.Helper()
	file, err := os.Open("testdata/published.csv")
	if err != nil {
		t.Fatal(err)
	}
	defer file.Close()
	rows, err := csv.NewReader(file).ReadAll()
	if err != nil {
		t.Fatal(err)
	}
	var all []example
	for _, r := range rows[1:] {
		e := example{id: r[0], kind: r[1], in: map[string]string{}, rounding: r[5], right: r[7]}
		for _, field := range strings.Split(r[2], ";") {
			// "same mL/h" stands without a value.
			name, value, _ := strings.Cut(field, "=")
			e.in[name] = value
		}
		if e.answer, err = strconv.ParseFloat(r[3], 64); err != nil {
			t.Fatal(err)
		}
		all = append(all, e)
	}
	return all
}

// Every worked example has a published answer and its source beside it.
func TestPublishedExamplesComeOut(t *testing.T) {
	n := 0
	for _, e := range published(t) {
		if e.right != "" {
			continue
		}
		n++
		t.Run(e.id, func(t *testing.T) {
			answer, ok := solve[e.kind]
			if !ok {
				t.Fatalf("no function answers %s", e.kind)
			}
			in := inputs{t, e.in, map[string]bool{}}
			got := answer(in)
			if s := step(e.rounding); s != 0 {
				if r := quantity.Round(got, s); r != e.answer {
					t.Errorf("%s is %v, rounded %v, want %v (%s)", e.kind, got, r, e.answer, e.rounding)
				}
			} else if math.Abs(got-e.answer) > 1e-12*e.answer {
				t.Errorf("%s is %v, want %v exactly", e.kind, got, e.answer)
			}
			for name := range e.in {
				if !in.used[name] {
					t.Errorf("input %s was not used", name)
				}
			}
		})
	}
	if n != 77 {
		t.Errorf("%d examples were worked, want 77", n)
	}
}

// A trap is an answer in print that is wrong for its givens. Ours must be the
// right one, and must differ from the printed one.
func TestPublishedMistakesAreNotRepeated(t *testing.T) {
	right := map[string]struct {
		answer, step float64
		solve        func(in inputs) float64
	}{
		"OSX-03":  {9.68, 0.01, rateByWeight},
		"TRAP-01": {3, 0.1, func(in inputs) float64 { return dose.Rate(in.num("dose_mcg_min"), in.conc()) }},
		"TRAP-02": {31, 1, func(in inputs) float64 {
			return dose.DropsMin(dose.RateOver(in.num("volume_mL"), in.num("hours")*60), in.num("gtt_mL"))
		}},
		"TRAP-03": {5.33, 0.01, func(in inputs) float64 {
			stock := dose.Concentration(quantity.Of(in.num("stock_mg"), "mg").Float("mcg"), in.num("stock_vol_mL"))
			taken, total := in.num("taken_mL"), in.num("total_mL")
			return dose.PerKG(dose.Dose(in.num("rate_mL_h"), dose.Added(stock, taken, total-taken)), in.kg())
		}},
		"TRAP-04": {34.9, 0.1, rateByWeight},
	}
	n := 0
	for _, e := range published(t) {
		if e.right == "" {
			continue
		}
		n++
		t.Run(e.id, func(t *testing.T) {
			r, ok := right[e.id]
			if !ok {
				t.Fatal("no right answer is known for this trap")
			}
			got := quantity.Round(r.solve(inputs{t, e.in, map[string]bool{}}), r.step)
			if got != r.answer {
				t.Errorf("got %v, want %v", got, r.answer)
			}
			if got == e.answer {
				t.Errorf("got the printed %v, which is wrong", got)
			}
		})
	}
	if n != len(right) {
		t.Errorf("%d traps were found, want %d", n, len(right))
	}
}

// TRAP-04 prints 35: that is what rounding the weight first makes of 34.9.
func TestRoundingTwiceMovesTheAnswer(t *testing.T) {
	kg := quantity.Round(dose.KGFromLB(205), 0.1)
	if got := quantity.Round(dose.Rate(dose.PerMin(5, kg), 800), 0.1); got != 35 {
		t.Errorf("with the weight rounded to %v kg the rate is %v, want 35", kg, got)
	}
}
