package drill

import (
	"fmt"

	"blanch/sim/quantity"
)

// given is what a sum is given.
type given = map[string]quantity.Quantity

var rates = []Drill{
	{
		Name: "rate-by-minute", Objective: "Work out the pump rate for a dose of the whole patient",
		Unit: "sums", Level: First, Critical: true, kind: "rate", least: 1, most: 200, apart: 1,
		Sources: []string{"American norepinephrine, epinephrine and phenylephrine labels, for vials, dilutions and doses"},
		make: func(h *hand) draft {
			o := one(h, minOrders)
			return draft{
				given: given{"dose": o.dose, "amount": o.amount, "volume": o.volume},
				unit:  "mL/h", step: 0.1,
				stem: []string{
					h.patient(),
					fmt.Sprintf("%s The bag holds %s.", h.say("The order is "+o.drug+" at "+o.dose.String()+".", "A doctor orders "+o.dose.String()+" of "+o.drug+"."), o.holds()),
					ask(h.say("What rate do you set on the pump?", "At what rate must the pump run?"), "mL/h", 0.1),
				},
				shown: Picture{Bags: []Bag{o.bag()}},
			}
		},
	},
	{
		Name: "rate-by-weight", Objective: "Work out the pump rate for a dose to each kilogram",
		Unit: "sums", Level: Middle, Critical: true, kind: "rate", least: 1, most: 200, apart: 1,
		Sources: []string{"American norepinephrine, epinephrine, phenylephrine and dopamine labels, for vials, dilutions and doses"},
		make: func(h *hand) draft {
			o, kg := one(h, kgOrders), of(h.grid(40, 140, 0.5), "kg")
			return draft{
				given: given{"dose": o.dose, "amount": o.amount, "volume": o.volume, "weight": kg},
				unit:  "mL/h", step: 0.1,
				stem: []string{
					h.patient() + h.say(" The bed weighs ", " The weight for dosing is ") + kg.String() + ".",
					fmt.Sprintf("%s The bag holds %s.", h.say("The order is "+o.drug+" at "+o.dose.String()+".", "A doctor orders "+o.dose.String()+" of "+o.drug+"."), o.holds()),
					ask(h.say("What rate do you set on the pump?", "At what rate must the pump run?"), "mL/h", 0.1),
				},
				shown: Picture{Bags: []Bag{o.bag()}},
			}
		},
	},
}

var lines, mixes, checks, watches, responses, bridges []Drill
