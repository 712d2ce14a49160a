package drill

import "fmt"

var watches = []Drill{
	{
		Name: "start-delay", Objective: "Work out how long drug takes to reach the vein after the start",
		Unit: "watch", Level: First, Critical: true, kind: "first_drug", least: 1, most: 240, apart: 25,
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
		Unit: "watch", Level: Middle, Critical: true, kind: "first_drug", least: 5, most: 240, apart: 25,
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
		Unit: "watch", Level: First, Critical: true, kind: "run_out", least: 0.2, most: 48, apart: 50,
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
		Unit: "watch", Level: Middle, kind: "run_out", least: 0.5, most: 48, apart: 16,
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
		Unit: "watch", Level: Middle, Critical: true, kind: "hang_next", least: 0.2, most: 48, apart: 100,
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
		Unit: "watch", Level: First, kind: "volume_needed", least: 20, most: 3000, apart: 25,
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
		Unit: "watch", Level: Middle, kind: "run_out", least: 0.5, most: 72, apart: 80,
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
