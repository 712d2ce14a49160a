package drill

import (
	"fmt"

	"blanch/sim/dose"
	"blanch/sim/quantity"
)

var lines = []Drill{
	{
		Name: "cannula-share", Objective: "Work out how much of a cannula lies in the vein",
		Unit: "line", Level: First, kind: "vein_share", least: 5, most: 95, apart: 4,
		Sources: []string{
			"Pandurangadu 2018, Emerg Med J 35:550, for the share as a measure",
			"Common lengths of 1, 1.16, 1.88 and 2.5 inches; angles are common practice, and so are the depths: under 8 mm near the surface, more in the upper arm",
		},
		make: func(h *hand) draft {
			c := one(h, cannulae)
			size := Cannula{Gauge: c.gauges[h.between(0, 1)], Length: of(c.mm, "mm")}
			depth, angle := of(h.grid(3, 15, 0.5), "mm"), of(h.grid(20, 60, 5), "degrees")
			vein := "a vein of the upper arm"
			if depth.Value <= 7 {
				vein = h.say("a vein of the forearm", "a vein near the elbow")
			}
			sine := quantity.Round(1/dose.PathMM(1, angle.Value), 0.0001)
			f := draft{
				given: given{"length": size.Length, "depth": depth, "angle": angle},
				unit:  "%", step: 1,
				stem: []string{
					fmt.Sprintf("Ultrasound shows %s %s under the skin. %s", vein, depth,
						h.say(fmt.Sprintf("You plan a cannula of %d gauge, %s long, at %s to the skin.", size.Gauge, size.Length, angle),
							fmt.Sprintf("A cannula of %d gauge and %s is to go in at %s to the skin.", size.Gauge, size.Length, angle))),
					fmt.Sprintf("The path through the tissue is the depth divided by the sine of the angle. The sine of %s is %s, rounded.", angle, quantity.Number(sine)),
					"In Pandurangadu 2018 every cannula with less than 30 % of its length in the vein failed, and none with 65 % or more.",
					ask("What share of the cannula's length will lie in the vein?", "%", 1),
				},
				shown: Picture{Cannulae: []Cannula{{Gauge: size.Gauge, Length: size.Length, Depth: depth, Angle: angle}}},
			}
			// The rounded sine must lead to the same answer, and to the same digits
			// of the path as the worked steps show; and no answer stands in the stem.
			l, path := size.Length.Value, dose.PathMM(depth.Value, angle.Value)
			exact, rounded := quantity.Round((l-path)/l*100, 1), quantity.Round((l-depth.Value/sine)/l*100, 1)
			f.never = exact != rounded || exact == 30 || exact == 65 || fmt.Sprintf("%.4g", path) != fmt.Sprintf("%.4g", depth.Value/sine)
			return f
		},
	},
	{
		Name: "limit-rate", Objective: "Work out the highest pump rate that a policy's limit for the arm allows",
		Unit: "line", Level: Middle, Critical: true, kind: "rate", least: 1, most: 200, apart: 50,
		Sources: []string{"Limits of 8 to 20 mcg/min are in published protocols (Yerke 2024; NHS Fife, Emerg Med J 10.1136/emermed-2023-213848); here they are those of invented policies"},
		make: func(h *hand) draft {
			m := one(h, ofDrug(massMixes, "norepinephrine"))
			limit, kg := of(h.grid(8, 20, 0.5), "mcg/min"), of(h.grid(40, 140, 1), "kg")
			return draft{
				given: given{"dose": limit, "weight": kg, "amount": m.amount, "volume": m.volume},
				unit:  "mL/h", step: 0.1,
				stem: []string{
					h.patient() + " The weight is " + kg.String() + ".",
					fmt.Sprintf("The policy of %s lets no more than %s of norepinephrine run through a vein of the arm, whatever the weight. The bag holds %s.",
						h.say("this invented unit", "your invented hospital", "an invented ward"), limit, m.holds()),
					ask(h.say("At what pump rate is the limit reached?", "What is the highest rate that the limit allows?"), "mL/h", 0.1),
				},
				shown: Picture{Bags: []Bag{m.bag()}},
			}
		},
	},
	{
		Name: "limit-dose", Objective: "Turn a policy's highest rate for the arm into a dose per kilogram",
		Unit: "line", Level: Advanced, Critical: true, kind: "dose", least: 0.02, most: 1, apart: 60,
		Sources: []string{"NHS Fife, Emerg Med J 10.1136/emermed-2023-213848, which states its limit as a rate: 50 mL/h of 16 mcg/mL; here rates are those of invented policies"},
		make: func(h *hand) draft {
			m := one(h, ofDrug(massMixes, "norepinephrine"))
			rate, kg := of(h.grid(10, 75, 1), "mL/h"), of(h.grid(40, 140, 1), "kg")
			return draft{
				given: given{"rate": rate, "weight": kg, "amount": m.amount, "volume": m.volume},
				unit:  "mcg/kg/min", step: 0.001,
				never: outside(m.amount.Float("mcg")/m.volume.Value*rate.Value/60, 8, 20),
				stem: []string{
					h.patient() + " The weight is " + kg.String() + ".",
					fmt.Sprintf("The bag holds %s. The policy of an invented unit lets this mix run through the arm at %s and no faster.", m.holds(), rate),
					ask(h.say("What dose per kilogram is that at most for this patient?", "How high a dose per kilogram can this patient get through the arm?"), "mcg/kg/min", 0.001),
				},
				shown: Picture{Bags: []Bag{m.bag()}},
			}
		},
	},
}

// cannulae are the common lengths in mm, with the gauges they come in.
var cannulae = []struct {
	mm     float64
	gauges [2]int
}{{25.4, [2]int{22, 22}}, {29.5, [2]int{18, 20}}, {47.8, [2]int{18, 20}}, {63.5, [2]int{20, 20}}}

// ofDrug are the mixes of one drug.
func ofDrug(all []mix, name string) []mix {
	var out []mix
	for _, m := range all {
		if m.drug == name {
			out = append(out, m)
		}
	}
	return out
}

func outside(x, low, high float64) bool { return x < low || x > high }
