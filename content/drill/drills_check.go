package drill

import (
	"fmt"
	"math"

	"blanch/sim/dose"
	"blanch/sim/quantity"
)

// checks is working out what a pump was really set for.
var checks = []Drill{
	{
		Name: "second-check-dose", Objective: "Work out from bag, weight and rate which dose is set, to hold against the order",
		Unit: "sums", Level: Middle, Critical: true, kind: "dose", least: 0.02, most: 1, apart: 200,
		Sources: []string{"American norepinephrine and epinephrine labels; a second person works it out anew (common practice for high-alert drugs)"},
		make: func(h *hand) draft {
			m := one(h, append(ofDrug(massMixes, "norepinephrine"), ofDrug(massMixes, "epinephrine")...))
			kg, rate := of(h.grid(40, 140, 1), "kg"), of(h.grid(2, 60, 0.1), "mL/h")
			d := m.strength().Value * rate.Value / 60 / kg.Value
			least := quantity.Round(0.05+0.01*float64(h.between(0, 3)), 0.01)
			return draft{
				given: given{"rate": rate, "amount": m.amount, "volume": m.volume, "weight": kg},
				unit:  "mcg/kg/min", step: 0.001,
				never: outside(d, 0.03, 0.3),
				stem: []string{
					fmt.Sprintf("A colleague asks you for a second check. The order is %s at %s to %s for a patient of %s.", m.drug,
						of(least, "mcg/kg/min"), of(quantity.Round(least+0.1, 0.01), "mcg/kg/min"), kg),
					fmt.Sprintf("The bag holds %s, and the pump is set to %s. You work it out yourself before you say whether it is within the order.", m.holds(), rate),
					ask(h.say("Which dose is set?", "What dose does that rate give?"), "mcg/kg/min", 0.001),
				},
				shown: Picture{Bags: []Bag{m.bag()}, Pumps: []Pump{{Drug: m.drug, Rate: rate, State: "stopped"}}},
			}
		},
	},
	{
		Name: "strength-told", Objective: "Find out from dose and rate which strength a pump is set for",
		Unit: "sums", Level: Advanced, Critical: true, kind: "implied_concentration", least: 1, most: 400, apart: 5,
		Sources: []string{"Doses and strengths by American labels and published protocols (Yerke 2024)"},
		make: func(h *hand) draft {
			d, told := of(h.grid(2, 12, 0.1), "mcg/min"), one(h, []float64{4, 8, 16, 20, 32, 64})
			name, rate := h.say("norepinephrine", "epinephrine"), of(quantity.Round(dose.Rate(d.Value, told), 0.1), "mL/h")
			return draft{
				given: given{"dose": d, "rate": rate},
				unit:  "mcg/mL", step: 1,
				never: outside(rate.Value, 4, 150) || quantity.Round(d.Value*60/rate.Value, 1) != told,
				stem: []string{
					fmt.Sprintf("At handover the pump for %s shows %s and %s, but not the strength that it is set for. %s", name, d, rate,
						h.say("You hold that against the bag.", "Before you trust the dose you hold the strength against the label.")),
					ask("Which strength is the pump set for, if its dose and its rate belong together?", "mcg/mL", 1),
				},
				shown: Picture{Pumps: []Pump{{Drug: name, Rate: rate, Dose: d, State: "running"}}},
			}
		},
	},
	{
		Name: "wrong-strength", Objective: "Work out the dose that really runs when the pump is set for another strength",
		Unit: "sums", Level: Advanced, Critical: true, kind: "wrong_entry", least: 0.1, most: 900, apart: 16,
		Sources: []string{"Mixing up strengths is a published event (ISMP, on standard concentrations); strengths of 4 to 64 mcg/mL by American labels and published protocols (Yerke 2024)"},
		make: func(h *hand) draft {
			told, hangs := one(h, entryStrengths), one(h, entryStrengths)
			d := of(h.grid(2, 15, 0.5), "mcg/min")
			return draft{
				given: given{"programmed": d, "told": told, "concentration": hangs},
				unit:  "mcg/min", step: 0.1,
				never: told.Float("mcg/mL") == hangs.Float("mcg/mL"),
				stem: []string{
					h.patient(),
					fmt.Sprintf("The pump shows norepinephrine at %s and is set for a strength of %s. The bag that hangs is labelled %s.", d, told, hangs),
					ask(h.say("What dose does the patient really get?", "Which dose really runs?"), "mcg/min", 0.1),
				},
				shown: Picture{
					Bags:  []Bag{{Drug: "norepinephrine", Concentration: hangs}},
					Pumps: []Pump{{Drug: "norepinephrine", Dose: d, Concentration: told, State: "running"}},
				},
			}
		},
	},
	{
		Name: "wrong-weight", Objective: "Work out the dose that really runs when pounds were entered as kilograms",
		Unit: "sums", Level: Advanced, Critical: true, kind: "dose", least: 0.02, most: 2, apart: 50,
		Sources: []string{"Pounds entered as kilograms is a published error (ISMP, from memory); American norepinephrine label and published protocols for strengths"},
		make: func(h *hand) draft {
			m, kg := one(h, ofDrug(massMixes, "norepinephrine")), of(h.grid(45, 125, 1), "kg")
			meant := of(h.grid(0.04, 0.25, 0.01), "mcg/kg/min")
			told := of(quantity.Round(dose.LBFromKG(kg.Value), 1), "kg")
			rate := of(quantity.Round(dose.Rate(dose.PerMin(meant.Value, told.Value), m.strength().Value), 0.1), "mL/h")
			return draft{
				given: given{"rate": rate, "amount": m.amount, "volume": m.volume, "weight": kg},
				unit:  "mcg/kg/min", step: 0.001,
				never: outside(rate.Value, 2, 150),
				stem: []string{
					fmt.Sprintf("The patient weighs %s, but %s was entered in the pump: the weight in pounds, typed in as kilograms. It shows %s and runs at %s.", kg, told, meant, rate),
					fmt.Sprintf("The bag holds %s.", m.holds()),
					ask(h.say("What dose does this patient really get?", "Which dose really runs, by the true weight?"), "mcg/kg/min", 0.001),
				},
				shown: Picture{Bags: []Bag{m.bag()}, Pumps: []Pump{{Drug: m.drug, Rate: rate, Dose: meant, Weight: told, State: "running"}}},
			}
		},
	},
	{
		Name: "wrong-rate", Objective: "Work out the dose that a mistyped rate gives",
		Unit: "sums", Level: Middle, Critical: true, kind: "new_dose", least: 0.2, most: 200, apart: 10,
		Sources: []string{"A digit typed twice or left out is an everyday slip at a pump (common practice); doses by the American norepinephrine label"},
		make: func(h *hand) draft {
			rate := of(h.grid(10, 60, 0.1), "mL/h")
			meant := of(quantity.Round(one(h, []float64{8, 16, 32, 64})*rate.Value/60, 0.1), "mcg/min")
			first := math.Floor(rate.Value / 10) // of the digits
			slip := one(h, []struct {
				times float64
				says  string
			}{{100, "A key was hit twice"}, {-10, "A digit was left out"}})
			typed := of(quantity.Round(rate.Value+slip.times*first, 0.1), "mL/h")
			return draft{
				given: given{"dose": meant, "rate": rate, "new_rate": typed},
				unit:  "mcg/min", step: 0.1,
				never: outside(typed.Value, 0.5, 400) || outside(meant.Value, 2, 15),
				stem: []string{
					fmt.Sprintf("Norepinephrine at %s takes %s. %s", meant, rate,
						h.say("At the check the pump runs at "+typed.String()+".", slip.says+", and the pump runs at "+typed.String()+".")),
					ask(h.say("What dose runs until you correct it?", "Which dose does the patient get now?"), "mcg/min", 0.1),
				},
				shown: Picture{Pumps: []Pump{{Drug: "norepinephrine", Rate: typed, State: "running"}}},
			}
		},
	},
	{
		Name: "times-too-much", Objective: "Work out how many times too much a wrong unit gives",
		Unit: "sums", Level: Advanced, Critical: true, kind: "error_factor", least: 1.2, most: 999, apart: 40,
		Sources: []string{"Minutes for hours and mg for mcg are published errors of entry (ISMP, from memory); doses by American labels"},
		make: func(h *hand) draft {
			meant := of(h.grid(2, 15, 0.5), "mcg/min")
			c := one(h, []struct {
				unit      string
				low, step float64
			}{{"mg/h", 0.5, 0.1}, {"mg/h", 7, 0.5}, {"mg/min", 0.01, 0.01}})
			got := of(quantity.Round(c.low+float64(h.pick(60))*c.step, c.step), c.unit)
			return draft{
				given: given{"intended": meant, "programmed": got},
				step:  0.1,
				stem: []string{
					h.patient(),
					fmt.Sprintf("The order is norepinephrine at %s. %s", meant,
						h.say("The pump was set to "+got.String()+".", "At the second check the pump shows "+got.String()+".")),
					h.say("How many times too much is that?", "How many times what was ordered is that?") + " Answer with a number alone, to the nearest 0.1; a half goes up.",
				},
				shown: Picture{Pumps: []Pump{{Drug: "norepinephrine", Dose: got, State: "stopped"}}},
			}
		},
	},
}

// entryStrengths are what pumps are set for, written as different labels have them.
var entryStrengths = []quantity.Quantity{
	of(4, "mcg/mL"), of(8, "mcg/mL"), of(16, "mcg/mL"), of(32, "mcg/mL"), of(64, "mcg/mL"),
	of(0.004, "mg/mL"), of(0.008, "mg/mL"), of(0.016, "mg/mL"), of(0.032, "mg/mL"), of(0.064, "mg/mL"),
}
