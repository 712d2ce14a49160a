package drill

import (
	"fmt"
	"slices"

	"blanch/sim/quantity"
)

// given is what a sum is given.
type given = map[string]quantity.Quantity

var rates = []Drill{
	{
		Name: "rate-by-minute", Objective: "Work out the pump rate for a dose of the whole patient",
		Unit: "sums", Level: First, Critical: true, kind: "rate", least: 1, most: 200, apart: 3,
		Sources: []string{"American norepinephrine, epinephrine and phenylephrine labels, for vials, dilutions and doses"},
		make: func(h *hand) draft {
			o := one(h, minOrders)
			return draft{
				given: given{"dose": o.dose, "amount": o.amount, "volume": o.volume},
				unit:  "mL/h", step: 0.1,
				stem: []string{
					h.patient(),
					fmt.Sprintf("%s The bag holds %s.", ordered(h, o), o.holds()),
					ask(rateWanted(h), "mL/h", 0.1),
				},
				shown: Picture{Bags: []Bag{o.bag()}},
			}
		},
	},
	{
		Name: "rate-by-weight", Objective: "Work out the pump rate for a dose per kilogram",
		Unit: "sums", Level: Middle, Critical: true, kind: "rate", least: 1, most: 200, apart: 200,
		Sources: []string{"American norepinephrine, epinephrine, phenylephrine and dopamine labels, for vials, dilutions and doses"},
		make: func(h *hand) draft {
			o, kg := one(h, kgOrders), of(h.grid(40, 140, 0.5), "kg")
			return draft{
				given: given{"dose": o.dose, "amount": o.amount, "volume": o.volume, "weight": kg},
				unit:  "mL/h", step: 0.1,
				stem: []string{
					h.patient() + h.say(" The scale of the bed shows ", " The weight for dosing is ") + kg.String() + ".",
					fmt.Sprintf("%s The bag holds %s.", ordered(h, o), o.holds()),
					ask(rateWanted(h), "mL/h", 0.1),
				},
				shown: Picture{Bags: []Bag{o.bag()}},
			}
		},
	},
	{
		Name: "rate-from-pounds", Objective: "Work out the pump rate where the weight is known in pounds",
		Unit: "sums", Level: Advanced, Critical: true, kind: "rate", least: 1, most: 200, apart: 200,
		Sources: []string{"American labels, for vials, dilutions and doses", "2.2 lb to the kg: OpenStax, Pharmacology for Nurses, 2.4"},
		make: func(h *hand) draft {
			o, lb := one(h, kgOrders), of(h.grid(90, 308, 1), "lb")
			return draft{
				given: given{"dose": o.dose, "amount": o.amount, "volume": o.volume, "weight": lb, "lb_per_kg": bare(2.2)},
				unit:  "mL/h", step: 0.1,
				stem: []string{
					h.patient() + h.say(" The family says the weight is ", " The card from home gives the weight as ") + lb.String() + ". Take 2.2 lb to the kg.",
					fmt.Sprintf("%s The bag holds %s.", ordered(h, o), o.holds()),
					ask(rateWanted(h), "mL/h", 0.1),
				},
				shown: Picture{Bags: []Bag{o.bag()}},
			}
		},
	},
	{
		Name: "rate-of-units", Objective: "Work out the pump rate of vasopressin for a dose in units",
		Unit: "sums", Level: Middle, Critical: true, kind: "rate", least: 0.5, most: 100, apart: 40,
		Sources: []string{"American vasopressin label: strengths, and 0.01 to 0.07 units/min by steps of 0.005"},
		make: func(h *hand) draft {
			o, kg := one(h, unitOrders), of(h.grid(45, 135, 1), "kg")
			return draft{
				given: given{"dose": o.dose, "amount": o.amount, "volume": o.volume, "weight": kg},
				unit:  "mL/h", step: 0.1,
				stem: []string{
					h.patient() + " The weight is " + kg.String() + ".",
					fmt.Sprintf("%s The bag holds %s.", ordered(h, o), o.holds()),
					ask(rateWanted(h), "mL/h", 0.1),
				},
				shown: Picture{Bags: []Bag{o.bag()}},
			}
		},
	},
	{
		Name: "dose-by-minute", Objective: "Work out the dose that a pump rate gives to the whole patient",
		Unit: "sums", Level: First, kind: "dose", least: 1, most: 300, apart: 10,
		Sources: []string{"American labels, for vials, dilutions and doses"},
		make: func(h *hand) draft {
			m, rate := one(h, massMixes), of(h.grid(2, 80, 0.5), "mL/h")
			s := perMin[m.drug]
			return draft{
				given: given{"rate": rate, "amount": m.amount, "volume": m.volume},
				unit:  "mcg/min", step: 0.1,
				never: outside(m.strength().Value*rate.Value/60, s.low, s.high),
				stem: []string{
					h.patient(),
					fmt.Sprintf("%s, from a bag of %s.", h.say("At handover the pump runs at "+rate.String(), "You find the pump running at "+rate.String()), m.holds()),
					ask(h.say("What dose does the patient get?", "Which dose is running?"), "mcg/min", 0.1),
				},
				shown: Picture{Bags: []Bag{m.bag()}, Pumps: []Pump{{Drug: m.drug, Rate: rate, State: "running"}}},
			}
		},
	},
	{
		Name: "dose-by-weight", Objective: "Work out the dose per kilogram that a pump rate gives",
		Unit: "sums", Level: Middle, kind: "dose", least: 0.02, most: 20, apart: 200,
		Sources: []string{"American labels, for vials, dilutions and doses"},
		make: func(h *hand) draft {
			m, rate, kg := one(h, massMixes), of(h.grid(2, 80, 0.5), "mL/h"), of(h.grid(40, 140, 1), "kg")
			s := perKG[m.drug]
			step := map[string]float64{"dopamine": 0.1, "phenylephrine": 0.01}[m.drug]
			if step == 0 {
				step = 0.001
			}
			return draft{
				given: given{"rate": rate, "amount": m.amount, "volume": m.volume, "weight": kg},
				unit:  "mcg/kg/min", step: step,
				never: outside(m.strength().Value*rate.Value/60/kg.Value, s.low, s.high),
				stem: []string{
					h.patient() + " The weight is " + kg.String() + ".",
					fmt.Sprintf("%s, from a bag of %s.", h.say("At handover the pump runs at "+rate.String(), "You find the pump running at "+rate.String()), m.holds()),
					ask(h.say("What dose per kilogram does the patient get?", "Which dose per kilogram is running?"), "mcg/kg/min", step),
				},
				shown: Picture{Bags: []Bag{m.bag()}, Pumps: []Pump{{Drug: m.drug, Rate: rate, State: "running"}}},
			}
		},
	},
	{
		Name: "dose-of-units", Objective: "Work out the dose of vasopressin that a pump rate gives",
		Unit: "sums", Level: Middle, kind: "dose", least: 0.01, most: 0.07, apart: 3,
		Sources: []string{"American vasopressin label: strengths, and 0.01 to 0.07 units/min"},
		make: func(h *hand) draft {
			m, rate := one(h, unitMixes), of(h.grid(1, 40, 0.5), "mL/h")
			return draft{
				given: given{"rate": rate, "amount": m.amount, "volume": m.volume},
				unit:  "units/min", step: 0.001,
				stem: []string{
					h.patient(),
					fmt.Sprintf("%s, from a bag of %s.", h.say("The second pump runs at "+rate.String(), "Beside the first vasopressor a pump runs at "+rate.String()), m.holds()),
					ask(h.say("What dose does the patient get?", "Which dose is running?"), "units/min", 0.001),
				},
				shown: Picture{Bags: []Bag{m.bag()}, Pumps: []Pump{{Drug: m.drug, Rate: rate, State: "running"}}},
			}
		},
	},
	{
		Name: "step-up-rate", Objective: "Work out the new pump rate when the dose is changed",
		Unit: "sums", Level: First, Critical: true, kind: "new_rate", least: 1, most: 200, apart: 40,
		Sources: []string{"Doses within those of the American norepinephrine label and of published protocols (Yerke 2024)"},
		make: func(h *hand) draft {
			old := of(h.grid(0.03, 0.3, 0.01), "mcg/kg/min")
			now := of(quantity.Round(old.Value+one(h, []float64{-0.05, -0.03, -0.02, -0.01, 0.01, 0.02, 0.03, 0.05}), 0.01), "mcg/kg/min")
			rate := of(h.grid(4, 60, 0.1), "mL/h")
			return draft{
				given: given{"dose": old, "new_dose": now, "rate": rate},
				unit:  "mL/h", step: 0.1,
				never: outside(now.Value/old.Value, 0.5, 1.5) || !fitsAnybody(old.Value, rate.Value),
				stem: []string{
					h.patient(),
					fmt.Sprintf("Norepinephrine runs at %s, which takes %s. %s", old, rate,
						h.say("The order is now "+now.String()+".", "By the order you go to "+now.String()+".")),
					ask(h.say("What is the new rate, from the same bag?", "To what rate do you change the pump?"), "mL/h", 0.1),
				},
				shown: Picture{Pumps: []Pump{{Drug: "norepinephrine", Rate: rate, Dose: old, State: "running"}}},
			}
		},
	},
	{
		Name: "step-up-dose", Objective: "Work out the dose after the pump rate was changed",
		Unit: "sums", Level: First, kind: "new_dose", least: 0.5, most: 30, apart: 40,
		Sources: []string{"Doses within those of the American norepinephrine label and of published protocols (Yerke 2024)"},
		make: func(h *hand) draft {
			rate, now := of(h.grid(4, 60, 0.5), "mL/h"), of(h.grid(4, 60, 0.5), "mL/h")
			old := of(quantity.Round(one(h, []float64{8, 16, 32, 64})*rate.Value/60, 0.1), "mcg/min")
			return draft{
				given: given{"dose": old, "rate": rate, "new_rate": now},
				unit:  "mcg/min", step: 0.1,
				never: rate == now || outside(now.Value/rate.Value, 0.5, 2) || outside(old.Value, 2, 15) || outside(old.Value*now.Value/rate.Value, 1, 20),
				stem: []string{
					h.patient(),
					fmt.Sprintf("Norepinephrine ran at %s, which was %s. %s", rate, old,
						h.say("A colleague has set the pump to "+now.String()+".", "Since the last check the pump stands at "+now.String()+".")),
					ask(h.say("What dose runs now?", "Which dose is that, from the same bag?"), "mcg/min", 0.1),
				},
				shown: Picture{Pumps: []Pump{{Drug: "norepinephrine", Rate: now, State: "running"}}},
			}
		},
	},
	{
		Name: "convert-mass", Objective: "Convert between mcg, mg and g",
		Unit: "sums", Level: First, Critical: true, kind: "convert", least: 0.001, most: 900000, swaps: true, apart: 4,
		Sources: []string{"Amounts as doses by American labels and published protocols make them (Yerke 2024)"},
		make: func(h *hand) draft {
			c := one(h, masses)
			v := of(c.value, c.from)
			return draft{
				given: given{"value": v},
				unit:  c.to, step: c.step,
				stem: []string{
					fmt.Sprintf(c.says, v),
					ask(h.say("How much is that in "+c.to+"?", "What is the same in "+c.to+"?"), c.to, c.step),
				},
			}
		},
	},
	{
		Name: "convert-dose", Objective: "Convert a dose between minutes and hours, and between mcg and mg",
		Unit: "sums", Level: Middle, Critical: true, kind: "convert", least: 0.001, most: 9000, apart: 3,
		Sources: []string{"Doses within those of American labels"},
		make: func(h *hand) draft {
			c := one(h, []struct {
				drug, from, to       string
				low, high, step, ask float64
			}{
				{"norepinephrine", "mcg/min", "mg/h", 2, 30, 0.5, 0.01},
				{"norepinephrine", "mg/h", "mcg/min", 0.11, 2.09, 0.01, 0.1},
				{"norepinephrine", "mcg/kg/min", "mcg/kg/h", 0.02, 0.6, 0.01, 0.1},
				{"vasopressin", "units/min", "units/h", 0.01, 0.07, 0.001, 0.01},
			})
			v := of(quantity.Round(c.low+float64(h.pick(199))*c.step, c.step), c.from)
			return draft{
				given: given{"value": v},
				unit:  c.to, step: c.ask,
				never: v.Value > c.high,
				stem: []string{
					h.say("The order is "+c.drug+" "+v.String()+". The pump of the unit you work in today shows "+c.to+".",
						"One pump with "+c.drug+" shows "+v.String()+". The other shows its doses in "+c.to+"."),
					ask(h.say("What is the same dose in "+c.to+"?", "What must it show for the same dose?"), c.to, c.ask),
				},
			}
		},
	},
	{
		Name: "weight-in-kg", Objective: "Convert a body weight from pounds to kilograms",
		Unit: "sums", Level: First, Critical: true, kind: "weight", least: 40, most: 141, apart: 2,
		Sources: []string{"2.2 lb to the kg: OpenStax, Pharmacology for Nurses, 2.4"},
		make: func(h *hand) draft {
			v := of(h.grid(90, 308, 1), "lb")
			return draft{
				given: given{"weight": v, "lb_per_kg": bare(2.2)},
				unit:  "kg", step: 0.1,
				stem: []string{
					h.patient() + h.say(" The weight is written down as ", " The scale shows ") + v.String() + ". Take 2.2 lb to the kg.",
					ask("What is the weight in kg?", "kg", 0.1),
				},
			}
		},
	},
	{
		Name: "drops-from-rate", Objective: "Count drops where no pump is at hand",
		Unit: "sums", Level: Middle, kind: "drops", least: 4, most: 100, apart: 5,
		Sources: []string{"Sets of 10, 15, 20 and 60 drops to the mL (OpenStax, Pharmacology for Nurses, 2.4; from memory)"},
		make: func(h *hand) draft {
			f := of(one(h, []float64{10, 15, 20, 60}), "gtt/mL")
			rate := of(h.grid(20, 250, 1), "mL/h")
			return draft{
				given: given{"drop_factor": f, "rate": rate},
				unit:  "gtt/min", step: 1,
				stem: []string{
					fmt.Sprintf("No pump is free. Plain fluid, without a vasopressor, is to run at %s through a set that makes %s.", rate, f),
					ask(h.say("How many drops a minute do you set?", "How many drops fall in a minute?"), "gtt/min", 1),
				},
			}
		},
	},
	{
		Name: "drops-from-time", Objective: "Count drops for a volume in a time",
		Unit: "sums", Level: Advanced, kind: "drops", least: 4, most: 150, apart: 12,
		Sources: []string{"Sets of 10, 15, 20 and 60 drops to the mL (OpenStax, Pharmacology for Nurses, 2.4; from memory)"},
		make: func(h *hand) draft {
			f := of(one(h, []float64{10, 15, 20, 60}), "gtt/mL")
			v, t := of(h.grid(100, 1000, 50), "mL"), of(h.grid(30, 480, 10), "min")
			return draft{
				given: given{"drop_factor": f, "volume": v, "time": t},
				unit:  "gtt/min", step: 1,
				never: outside(v.Value/t.Value*60, 40, 999),
				stem: []string{
					fmt.Sprintf("%s of plain fluid, without a vasopressor, is to run in over %s. There is no pump; the set makes %s.", v, t, f),
					ask(h.say("How many drops a minute do you set?", "How many drops fall in a minute?"), "gtt/min", 1),
				},
				shown: Picture{Bags: []Bag{{Drug: "plain fluid", Volume: v}}},
			}
		},
	},
}

// masses are amounts to convert, each in a sentence: what a pump gives in an hour
// (2 to 30 mcg/min), what leaked or was flushed of a usual mix (whole mL of 16
// mcg/mL), what a day of dopamine comes to (about 2 to 15 mcg/kg/min).
var masses = func() []mass {
	var out []mass
	add := func(low, high, by float64, from, to string, step float64, says string) {
		for i := 0; ; i++ {
			v := quantity.Round(low+float64(i)*by, by)
			if v > high {
				return
			}
			out = append(out, mass{v, from, to, says, step})
		}
	}
	add(0.12, 1.8, 0.03, "mg", "mcg", 1, "In an hour the pump gives %s of norepinephrine.")
	add(48, 1280, 16, "mcg", "mg", 0.001, "About %s of norepinephrine leaked into the forearm.")
	add(0.2, 1.6, 0.02, "g", "mg", 1, "In a day the patient was given %s of dopamine.")
	add(210, 1590, 20, "mg", "g", 0.001, "In a day the patient was given %s of dopamine.")
	return out
}()

type mass struct {
	value    float64
	from, to string
	says     string // with a place for the amount
	step     float64
}

// fitsAnybody says that norepinephrine at a dose per kilogram takes that rate in
// somebody of 45 to 120 kg, from a bag of 16, 32 or 64 mcg/mL.
func fitsAnybody(perKG, rate float64) bool {
	return slices.ContainsFunc([]float64{16, 32, 64}, func(strength float64) bool {
		return !outside(rate*strength/60/perKG, 45, 120)
	})
}

// ordered is the order in a sentence.
func ordered(h *hand, o order) string {
	return h.say("The order is "+o.drug+" at "+o.dose.String()+".", "A doctor orders "+o.dose.String()+" of "+o.drug+".", "You are to start "+o.drug+" at "+o.dose.String()+".")
}

func rateWanted(h *hand) string {
	return h.say("What rate do you set on the pump?", "At what rate must the pump run?")
}
