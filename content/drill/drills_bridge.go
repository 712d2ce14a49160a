package drill

import "fmt"

var bridges = []Drill{
	{
		Name: "flush-bolus", Objective: "Work out the bolus that a flush pushes out of the line",
		Unit: "bridge", Level: First, Critical: true, kind: "flush", least: 2, most: 10000, apart: 4,
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
		Unit: "bridge", Level: Middle, Critical: true, kind: "first_drug", least: 0.5, most: 240, apart: 60,
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
		Unit: "bridge", Level: First, kind: "volume_needed", least: 0.1, most: 10, apart: 4,
		Sources: []string{"Rates and times of an overlap are common practice"},
		make: func(h *hand) draft {
			rate, t := of(h.grid(6, 60, 0.5), "mL/h"), of(one(h, []float64{2, 3, 4, 5, 6}), "min")
			return draft{
				given: given{"rate": rate, "time": t},
				unit:  "mL", step: 0.01,
				stem: []string{
					fmt.Sprintf("At the changeover the new pump gives its drug at %s while the old pump still runs. After %s, when the pressure begins to rise, the old pump is stopped, so that the double dose stays short.", rate, t),
					ask(h.say("How much mix does the new pump give in that time?", "What volume does the new pump give before the old one stops?"), "mL", 0.01),
				},
				shown: Picture{Pumps: []Pump{{Rate: rate, State: "running"}}},
			}
		},
	},
	{
		Name: "stronger-bag", Objective: "Work out the rate when a stronger bag replaces a weaker one",
		Unit: "bridge", Level: Advanced, Critical: true, kind: "rate", least: 1, most: 200, apart: 5,
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
		Unit: "bridge", Level: Middle, Critical: true, kind: "run_out", least: 0.3, most: 24, apart: 80,
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
		Name: "begin-central-line", Objective: "Work out when to call for a central line, so that it works in time",
		Unit: "bridge", Level: Advanced, Critical: true, kind: "hang_next", least: 0.1, most: 24, apart: 200,
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
