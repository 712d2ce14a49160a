package drill

import (
	"fmt"

	"blanch/sim/quantity"
)

var watches = []Drill{
	{
		Name: "start-delay", Objective: "Work out how long drug takes to reach the vein after the start",
		Unit: "watch", Level: First, Critical: true, kind: "first_drug", least: 1, most: 240, apart: 400,
		Sources: []string{"Dead volumes of extensions and tubing are common practice; plug flow, so the first drug comes after the dead volume"},
		make: func(h *hand) draft {
			dead, rate := of(h.grid(0.4, 4, 0.1), "mL"), of(h.grid(3, 40, 0.5), "mL/h")
			return draft{
				given: given{"dead_volume": dead, "rate": rate},
				unit:  "min", step: 0.1,
				stem: []string{
					fmt.Sprintf("The line between the pump and the tip of the cannula holds %s and is filled with saline. %s", dead,
						h.say("Norepinephrine starts at "+rate.String()+", with no carrier.", "You start norepinephrine at "+rate.String()+"; nothing else runs through the line.")),
					ask(h.say("How long does it take until drug reaches the vein?", "After how many minutes does the first drug come?"), "min", 0.1),
				},
				shown: Picture{Pumps: []Pump{{Drug: "norepinephrine", Rate: rate, State: "running"}}, Lines: []Line{{Dead: dead, Flow: rate}}},
			}
		},
	},
	{
		Name: "syringe-delay", Objective: "Work out how long a slow syringe line takes that was not purged",
		Unit: "watch", Level: Middle, Critical: true, kind: "first_drug", least: 5, most: 240, apart: 400,
		Sources: []string{"Volumes of thin lines and rates of syringe pumps are common practice"},
		make: func(h *hand) draft {
			dead, rate := of(h.grid(0.3, 2.5, 0.05), "mL"), of(h.grid(0.5, 8, 0.1), "mL/h")
			return draft{
				given: given{"dead_volume": dead, "rate": rate},
				unit:  "min", step: 1,
				stem: []string{
					fmt.Sprintf("A syringe pump is to run at %s. Its thin line holds %s, and nobody purged it: it is still full of saline.", rate, dead),
					ask(h.say("How long would it be until drug reaches the tip?", "For how long would the patient get saline alone?"), "min", 1),
				},
				shown: Picture{Pumps: []Pump{{Rate: rate, State: "stopped"}}, Lines: []Line{{Dead: dead, Flow: rate}}},
			}
		},
	},
	{
		Name: "bag-end", Objective: "Work out when a bag will be empty",
		Unit: "watch", Level: First, Critical: true, kind: "run_out", least: 0.2, most: 48, apart: 600,
		Sources: []string{"Volumes of bags and rates are common practice"},
		make: func(h *hand) draft {
			left, rate := of(h.grid(15, 250, 5), "mL"), of(h.grid(3, 75, 0.5), "mL/h")
			return draft{
				given: given{"volume": left, "rate": rate},
				unit:  "h", step: 0.01,
				never: outside(left.Value/rate.Value, 0.2, 24),
				stem: []string{
					fmt.Sprintf("%s %s are left in the bag of norepinephrine, and the pump runs at %s.", h.say("At the check", "As your shift begins"), left, rate),
					ask(h.say("In how many hours is the bag empty?", "How long does the bag last at that rate?"), "h", 0.01),
				},
				shown: Picture{Bags: []Bag{{Drug: "norepinephrine", Left: left}}, Pumps: []Pump{{Drug: "norepinephrine", Rate: rate, State: "running"}}},
			}
		},
	},
	{
		Name: "drug-lasts", Objective: "Work out how long the drug that is left lasts at a dose",
		Unit: "watch", Level: Middle, kind: "run_out", least: 0.5, most: 48, apart: 400,
		Sources: []string{"Doses by the American norepinephrine label and published protocols (Yerke 2024)"},
		make: func(h *hand) draft {
			left, d := of(h.grid(0.5, 8, 0.1), "mg"), of(h.grid(2, 15, 0.5), "mcg/min")
			return draft{
				given: given{"amount": left, "dose": d},
				unit:  "h", step: 0.01,
				stem: []string{
					fmt.Sprintf("The bag still holds %s of norepinephrine, which runs at %s. %s", left, d, h.say("The pharmacy is slow tonight.", "You plan the next bag.")),
					ask(h.say("How many hours does the drug last?", "For how long is there drug at this dose?"), "h", 0.01),
				},
				shown: Picture{Bags: []Bag{{Drug: "norepinephrine", Left: left}}, Pumps: []Pump{{Drug: "norepinephrine", Dose: d, State: "running"}}},
			}
		},
	},
	{
		Name: "next-bag", Objective: "Work out when the next bag must hang, so that there is no gap",
		Unit: "watch", Level: Middle, Critical: true, kind: "hang_next", least: 0.2, most: 48, apart: 1000,
		Sources: []string{"Hanging the next bag before the last is empty is common practice; the time before is that of an invented unit"},
		make: func(h *hand) draft {
			left, rate := of(h.grid(20, 250, 5), "mL"), of(h.grid(3, 75, 0.5), "mL/h")
			lead := of(h.grid(10, 50, 5), "min")
			return draft{
				given: given{"volume": left, "rate": rate, "lead": lead},
				unit:  "h", step: 0.01,
				never: outside(left.Value/rate.Value, 0.5, 24),
				stem: []string{
					fmt.Sprintf("%s of norepinephrine mix are left, and the pump runs at %s. This invented unit hangs the next bag %s before the last is empty.", left, rate, lead),
					ask(h.say("In how many hours from now must the next bag hang?", "How many hours do you have until the next bag must hang?"), "h", 0.01),
				},
				shown: Picture{Bags: []Bag{{Drug: "norepinephrine", Left: left}}, Pumps: []Pump{{Drug: "norepinephrine", Rate: rate, State: "running"}}},
			}
		},
	},
	{
		Name: "fluid-by-day", Objective: "Work out the fluid that a mix brings in a day",
		Unit: "watch", Level: First, kind: "volume_needed", least: 20, most: 3000, apart: 600,
		Sources: []string{"Rates as the American labels' mixes and doses make them"},
		make: func(h *hand) draft {
			rate, t := of(h.grid(2, 90, 0.1), "mL/h"), of(one(h, []float64{8, 12, 24}), "h")
			span := "in a day, that is in 24 h"
			if t.Value < 24 {
				span = fmt.Sprintf("in a shift of %s", t)
			}
			return draft{
				given: given{"rate": rate, "time": t},
				unit:  "mL", step: 1,
				stem: []string{
					h.patient() + " Every mL counts in the balance.",
					fmt.Sprintf("The vasopressor runs at %s and stays there.", rate),
					ask(h.say("How much fluid does it bring "+span+"?", "How much goes into the balance "+span+"?"), "mL", 1),
				},
				shown: Picture{Pumps: []Pump{{Rate: rate, State: "running"}}},
			}
		},
	},
	{
		Name: "time-on-the-arm", Objective: "Work out from the volume pumped how long a vasopressor has run through the arm",
		Unit: "watch", Level: Middle, kind: "run_out", least: 0.5, most: 72, apart: 1000,
		Sources: []string{"Longest runs of 4 to 72 h are in published protocols; here they are those of invented policies"},
		make: func(h *hand) draft {
			ran, rate := of(h.grid(12, 400, 2), "mL"), of(h.grid(4, 40, 0.5), "mL/h")
			return draft{
				given: given{"volume": ran, "rate": rate},
				unit:  "h", step: 0.1,
				never: outside(ran.Value/rate.Value, 1, 24),
				stem: []string{
					fmt.Sprintf("Nobody wrote down when norepinephrine was started through this cannula. The pump has given %s since, at %s all the time. The policy of an invented unit counts the hours.", ran, rate),
					ask(h.say("For how long has it run through the arm?", "How many of the policy's hours are used up?"), "h", 0.1),
				},
				shown: Picture{Pumps: []Pump{{Drug: "norepinephrine", Rate: rate, State: "running"}}},
			}
		},
	},
}

var responses = []Drill{
	{
		Name: "leaked-volume", Objective: "Work out how much fluid can have leaked since the last good check",
		Unit: "respond", Level: First, kind: "volume_needed", least: 0.5, most: 60, apart: 300,
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
		Unit: "respond", Level: Middle, kind: "amount", least: 4, most: 20000, apart: 150,
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
		Unit: "respond", Level: First, Critical: true, kind: "draw_up", least: 0.4, most: 15, apart: 20,
		Sources: []string{"American phentolamine and norepinephrine labels: 5 mg a vial, 5 to 10 mg; the volume that a vial is made up with is assumed"},
		make: func(h *hand) draft {
			want, in := of(h.grid(5, 10, 0.5), "mg"), of(h.grid(1, 5, 0.5), "mL")
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
		Unit: "respond", Level: First, kind: "concentration", device: "label", least: 0.3, most: 1, apart: 40,
		Sources: []string{"American norepinephrine label, on extravasation: phentolamine 5 to 10 mg in 10 to 15 mL of saline"},
		make: func(h *hand) draft {
			amount, v := of(h.grid(5, 10, 0.5), "mg"), of(h.grid(10, 15, 0.25), "mL")
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
		Unit: "respond", Level: First, kind: "split", least: 0.3, most: 5, apart: 16,
		Sources: []string{"American norepinephrine label: 10 to 15 mL around the area; several points are common practice"},
		make: func(h *hand) draft {
			v, n := of(h.grid(10, 15, 0.25), "mL"), h.grid(4, 12, 1)
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
		Unit: "respond", Level: Middle, kind: "diluted", device: "label", least: 0.05, most: 0.5, apart: 50,
		Sources: []string{"Case reports only: terbutaline 0.5 to 1 mg in 1 to 10 mL where phentolamine cannot be had (Plum 2017; Ong and Van Gerpen 2020). The vial of 1 mg in 1 mL is from memory"},
		make: func(h *hand) draft {
			stock, add := of(h.grid(0.5, 1, 0.05), "mL"), of(h.grid(1, 9.5, 0.5), "mL")
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
		Unit: "respond", Level: Middle, kind: "amount", least: 5, most: 1000, apart: 300,
		Sources: []string{"Case reports only: terbutaline 0.5 to 1 mg in 1 to 10 mL (Plum 2017; Ong and Van Gerpen 2020)"},
		make: func(h *hand) draft {
			c, v := of(h.grid(0.05, 0.5, 0.01), "mg/mL"), of(h.grid(0.5, 5, 0.1), "mL")
			return draft{
				given: given{"volume": v, "concentration": c},
				unit:  "mcg", step: 1,
				stem: []string{
					fmt.Sprintf("The syringe with terbutaline is labelled %s. So far %s went in around the leak.", c, v),
					ask(h.say("How much drug has been given?", "How much terbutaline is that?"), "mcg", 1),
				},
				shown: Picture{Syringes: []Syringe{{Drug: "terbutaline", Concentration: c}}},
			}
		},
	},
}

var bridges = []Drill{
	{
		Name: "flush-bolus", Objective: "Work out the bolus that a flush pushes out of the line",
		Unit: "bridge", Level: First, Critical: true, kind: "flush", least: 2, most: 10000, apart: 100,
		Sources: []string{"Mixes by American labels and published protocols; dead volumes are common practice"},
		make: func(h *hand) draft {
			m, dead := one(h, massMixes), of(h.grid(0.3, 3, 0.1), "mL")
			return draft{
				given: given{"dead_volume": dead, "amount": m.amount, "volume": m.volume},
				unit:  "mcg", step: 0.1,
				stem: []string{
					fmt.Sprintf("The vasopressor now runs through another line. The old extension and cannula still hold %s of the mix, %s.", dead, m.holds()),
					ask(h.say("How much drug would a flush push into the vein at once?", "What bolus would the patient get from a flush?"), "mcg", 0.1),
				},
				shown: Picture{Bags: []Bag{m.bag()}, Lines: []Line{{Dead: dead}}},
			}
		},
	},
	{
		Name: "new-line-delay", Objective: "Work out for how long two lines must run together at a changeover",
		Unit: "bridge", Level: Middle, Critical: true, kind: "first_drug", least: 0.5, most: 240, apart: 1000,
		Sources: []string{"Dead volumes of the lumens of central lines are about 0.3 to 0.6 mL (from memory); tubing is common practice"},
		make: func(h *hand) draft {
			dead, rate := of(h.grid(0.3, 2.4, 0.05), "mL"), of(h.grid(2, 40, 0.2), "mL/h")
			return draft{
				given: given{"dead_volume": dead, "rate": rate},
				unit:  "min", step: 0.1,
				stem: []string{
					fmt.Sprintf("The central line is in. Norepinephrine is started through it at %s, while the line in the arm runs on. Lumen and extension hold %s of saline.", rate, dead),
					ask(h.say("How long is it until drug comes by the new line?", "For how many minutes does the new line give saline alone?"), "min", 0.1),
				},
				shown: Picture{Pumps: []Pump{{Drug: "norepinephrine", Rate: rate, State: "running"}}, Lines: []Line{{Dead: dead, Flow: rate}}},
			}
		},
	},
	{
		Name: "overlap-volume", Objective: "Work out the mix that two pumps need while they overlap",
		Unit: "bridge", Level: First, kind: "volume_needed", least: 0.5, most: 100, apart: 200,
		Sources: []string{"Rates and times of an overlap are common practice"},
		make: func(h *hand) draft {
			rate, t := of(h.grid(3, 60, 0.2), "mL/h"), of(h.grid(10, 55, 5), "min")
			return draft{
				given: given{"rate": rate, "time": t},
				unit:  "mL", step: 0.1,
				stem: []string{
					fmt.Sprintf("At the changeover a second pump runs beside the first at %s for %s.", rate, t),
					ask(h.say("How much more mix does that take?", "What volume does the second pump give in that time?"), "mL", 0.1),
				},
				shown: Picture{Pumps: []Pump{{Rate: rate, State: "running"}}},
			}
		},
	},
	{
		Name: "stronger-bag", Objective: "Work out the rate when a stronger bag replaces a weaker one",
		Unit: "bridge", Level: Advanced, Critical: true, kind: "rate", least: 1, most: 200, apart: 80,
		Sources: []string{"Strengths of 8 to 64 mcg/mL by American labels and published protocols (Yerke 2024)"},
		make: func(h *hand) draft {
			c := one(h, [][2]float64{{16, 32}, {16, 64}, {32, 64}, {8, 16}, {8, 32}, {4, 16}, {4, 64}, {20, 40}})
			old, now := of(c[0], "mcg/mL"), of(c[1], "mcg/mL")
			d := of(h.grid(2, 20, 0.2), "mcg/min")
			return draft{
				given: given{"dose": d, "concentration": now, "other_concentration": old},
				unit:  "mL/h", step: 0.1,
				stem: []string{
					fmt.Sprintf("Norepinephrine runs at %s from a bag of %s. Now the central line is in, and the next bag is %s. The dose stays.", d, old, now),
					ask(h.say("What rate do you set with the new bag?", "At what rate does the new bag give the same dose?"), "mL/h", 0.1),
				},
				shown: Picture{
					Bags:  []Bag{{Drug: "norepinephrine", Concentration: old}, {Drug: "norepinephrine", Concentration: now}},
					Pumps: []Pump{{Drug: "norepinephrine", Dose: d, State: "running"}},
				},
			}
		},
	},
	{
		Name: "time-left", Objective: "Work out the time that a policy still leaves to a line in the arm",
		Unit: "bridge", Level: Middle, Critical: true, kind: "run_out", least: 0.3, most: 24, apart: 1000,
		Sources: []string{"Longest runs of 4 to 72 h are in published protocols; here the end is that of an invented policy"},
		make: func(h *hand) draft {
			left, rate := of(h.grid(6, 250, 2), "mL"), of(h.grid(4, 60, 0.5), "mL/h")
			return draft{
				given: given{"volume": left, "rate": rate},
				unit:  "h", step: 0.01,
				never: outside(left.Value/rate.Value, 0.5, 12),
				stem: []string{
					fmt.Sprintf("The volume to run was set so that the pump stops when the longest run through the arm is over, by the policy of an invented unit. It shows %s to go, at %s.", left, rate),
					ask(h.say("How many hours does the policy still leave?", "In how many hours must the vasopressor be off this arm?"), "h", 0.01),
				},
				shown: Picture{Pumps: []Pump{{Drug: "norepinephrine", Rate: rate, Left: left, State: "running"}}},
			}
		},
	},
	{
		Name: "begin-central-line", Objective: "Work out when the way to a central line must begin",
		Unit: "bridge", Level: Advanced, Critical: true, kind: "hang_next", least: 0.1, most: 24, apart: 1000,
		Sources: []string{"Longest runs of 4 to 72 h are in published protocols; the end and the time that a central line takes are those of an invented unit"},
		make: func(h *hand) draft {
			left, rate := of(h.grid(10, 250, 2), "mL"), of(h.grid(4, 60, 0.5), "mL/h")
			lead := of(h.grid(25, 95, 5), "min")
			return draft{
				given: given{"volume": left, "rate": rate, "lead": lead},
				unit:  "h", step: 0.01,
				never: outside(left.Value/rate.Value, 2, 12),
				stem: []string{
					fmt.Sprintf("The pump stops when the longest run through the arm is over, by the policy of an invented unit. It shows %s to go, at %s. From the call until the central line works takes %s here.", left, rate, lead),
					ask(h.say("In how many hours at the latest must you call?", "How many hours are left until the call must be made?"), "h", 0.01),
				},
				shown: Picture{Pumps: []Pump{{Drug: "norepinephrine", Rate: rate, Left: left, State: "running"}}},
			}
		},
	},
}
