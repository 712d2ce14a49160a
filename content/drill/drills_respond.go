package drill

import (
	"fmt"

	"blanch/sim/quantity"
)

var responses = []Drill{
	{
		Name: "leaked-volume", Objective: "Work out how much fluid can have leaked since the last good check",
		Unit: "respond", Level: First, kind: "volume_needed", least: 0.5, most: 60, apart: 16,
		Sources: []string{"Rates by the American labels' mixes; times between checks as in published protocols (Yerke 2024, Cardenas-Garcia 2015)"},
		make: func(h *hand) draft {
			rate, t := of(h.grid(3, 75, 0.5), "mL/h"), of(h.grid(10, 120, 5), "min")
			return draft{
				given: given{"rate": rate, "time": t},
				unit:  "mL", step: 0.1,
				stem: []string{
					fmt.Sprintf("The arm is pale and swollen around the cannula. %s, and the pump has run at %s since. You have stopped it.",
						h.say("The last good check was "+t.String()+" ago", "The site was last seen well "+t.String()+" ago"), rate),
					ask(h.say("How much fluid can have leaked at most?", "How much can have gone beside the vein at most?"), "mL", 0.1),
				},
				shown: Picture{Pumps: []Pump{{Drug: "norepinephrine", Rate: rate, State: "stopped"}}},
			}
		},
	},
	{
		Name: "leaked-drug", Objective: "Work out how much drug lies in the tissue",
		Unit: "respond", Level: Middle, kind: "amount", least: 4, most: 20000, apart: 6,
		Sources: []string{"Strengths by American labels and published protocols (Yerke 2024)"},
		make: func(h *hand) draft {
			v := of(h.grid(1.5, 40, 0.5), "mL")
			c := one(h, []struct {
				drug     string
				strength quantity.Quantity
			}{
				{"norepinephrine", of(16, "mcg/mL")}, {"norepinephrine", of(32, "mcg/mL")}, {"norepinephrine", of(64, "mcg/mL")},
				{"norepinephrine", of(0.016, "mg/mL")}, {"norepinephrine", of(0.032, "mg/mL")},
				{"epinephrine", of(20, "mcg/mL")}, {"phenylephrine", of(40, "mcg/mL")}, {"phenylephrine", of(200, "mcg/mL")}, {"phenylephrine", of(0.08, "mg/mL")},
			})
			return draft{
				given: given{"volume": v, "concentration": c.strength},
				unit:  "mcg", step: 1,
				stem: []string{
					fmt.Sprintf("About %s of %s leaked into the forearm before the pump was stopped. %s", v, c.drug,
						h.say("The bag is labelled "+c.strength.String()+".", "Its strength is "+c.strength.String()+".")),
					ask(h.say("How much drug is that?", "How much drug lies beside the vein, if none was taken up yet?"), "mcg", 1),
				},
				shown: Picture{Bags: []Bag{{Drug: c.drug, Concentration: c.strength}}},
			}
		},
	},
	{
		Name: "phentolamine-volume", Objective: "Work out the volume of phentolamine to draw up for a dose",
		Unit: "respond", Level: First, Critical: true, kind: "draw_up", least: 0.4, most: 20, apart: 2,
		Sources: []string{"American phentolamine and norepinephrine labels: 5 mg a vial, 5 to 10 mg; 0.1 to 0.2 mg/kg elsewhere, at most 10 mg, which gives the doses between. A vial is made up to 5 mg/mL or 0.5 mg/mL in published notes; 2 mL and 5 mL are assumed"},
		make: func(h *hand) draft {
			want, in := of(one(h, []float64{5, 6, 7, 7.5, 8, 9, 10}), "mg"), of(one(h, []float64{1, 2, 5, 10}), "mL")
			return draft{
				given: given{"order": want, "have": of(5, "mg"), "in": in},
				unit:  "mL", step: 0.1,
				stem: []string{
					fmt.Sprintf("Norepinephrine has leaked, and the order is phentolamine %s under the skin. Each vial of 5 mg powder was made up to %s.", want, in),
					ask(h.say("What volume do you draw up?", "How much do you draw up in all?"), "mL", 0.1),
				},
				shown: Picture{Vials: []Vial{vialOf("phentolamine")}},
			}
		},
	},
	{
		Name: "phentolamine-strength", Objective: "Work out the strength of a diluted antidote",
		Unit: "respond", Level: First, kind: "concentration", device: "label", least: 0.3, most: 1, apart: 2,
		Sources: []string{"American norepinephrine label, on extravasation: phentolamine 5 to 10 mg in 10 to 15 mL of saline"},
		make: func(h *hand) draft {
			amount, v := of(one(h, []float64{5, 6, 7, 7.5, 8, 9, 10}), "mg"), of(one(h, []float64{10, 12, 15}), "mL")
			return draft{
				given: given{"amount": amount, "volume": v},
				unit:  "mg/mL", step: 0.01,
				stem: []string{
					fmt.Sprintf("Phentolamine %s is made up with saline to %s in all, %s.", amount, v, h.say("for a leak of norepinephrine", "to go under the skin around a leak")),
					ask(h.say("How strong is the mix?", "What strength do you write on the syringe?"), "mg/mL", 0.01),
				},
				shown: Picture{Syringes: []Syringe{{Drug: "phentolamine", Volume: v}}},
			}
		},
	},
	{
		Name: "phentolamine-points", Objective: "Split an antidote over several points",
		Unit: "respond", Level: First, kind: "split", least: 0.3, most: 5, apart: 2,
		Sources: []string{"American norepinephrine label: 10 to 15 mL around the area; several points are common practice"},
		make: func(h *hand) draft {
			v, n := of(one(h, []float64{10, 11, 12, 13, 14, 15}), "mL"), one(h, []float64{4, 5, 6, 7, 8, 9, 10, 12})
			return draft{
				given: given{"whole": v, "parts": bare(n)},
				unit:  "mL", step: 0.1,
				stem: []string{
					fmt.Sprintf("%s of diluted phentolamine are to go under the skin at %s points around the edge of a leak, the same at each.", v, quantity.Number(n)),
					ask(h.say("How much goes in at each point?", "What volume does each point get?"), "mL", 0.1),
				},
				shown: Picture{Syringes: []Syringe{{Drug: "phentolamine", Volume: v}}},
			}
		},
	},
	{
		Name: "terbutaline-dilution", Objective: "Work out the strength of terbutaline after dilution",
		Unit: "respond", Level: Middle, kind: "diluted", device: "label", least: 0.03, most: 0.7, apart: 2,
		Sources: []string{"Case reports only: terbutaline 0.5 to 1 mg in 1 to 10 mL where phentolamine cannot be had (Plum 2017; Ong and Van Gerpen 2020). The vial of 1 mg in 1 mL is from memory"},
		make: func(h *hand) draft {
			stock, add := of(one(h, []float64{0.5, 1}), "mL"), of(one(h, []float64{0.5, 1, 1.5, 2, 2.5, 3, 4, 4.5, 5, 7, 8, 9, 9.5}), "mL")
			return draft{
				given: given{"stock": of(1, "mg/mL"), "stock_volume": stock, "diluent": add},
				unit:  "mg/mL", step: 0.001,
				stem: []string{
					fmt.Sprintf("There is no phentolamine. The order is terbutaline, and the vial holds 1 mL of 1 mg/mL. You draw up %s and add %s of saline.", stock, add),
					ask(h.say("How strong is the mix?", "What strength do you write on the syringe?"), "mg/mL", 0.001),
				},
				shown: Picture{Vials: []Vial{vialOf("terbutaline")}},
			}
		},
	},
	{
		Name: "terbutaline-amount", Objective: "Work out how much drug a part of a syringe gives",
		Unit: "respond", Level: Middle, kind: "amount", least: 5, most: 1000, apart: 2,
		Sources: []string{"Case reports only: terbutaline 0.5 to 1 mg in 1 to 10 mL (Plum 2017; Ong and Van Gerpen 2020)"},
		make: func(h *hand) draft {
			c, v := of(one(h, []float64{0.05, 0.1, 0.2, 0.25, 0.5}), "mg/mL"), of(h.grid(0.5, 9.5, 0.5), "mL")
			return draft{
				given: given{"volume": v, "concentration": c},
				unit:  "mcg", step: 1,
				never: v.Value*c.Value > 1, // the most of the case reports
				stem: []string{
					fmt.Sprintf("The syringe with terbutaline is labelled %s. So far %s went in around the leak.", c, v),
					ask(h.say("How much drug has been given?", "How much terbutaline is that?"), "mcg", 1),
				},
				shown: Picture{Syringes: []Syringe{{Drug: "terbutaline", Concentration: c}}},
			}
		},
	},
}
