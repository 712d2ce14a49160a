package drill

import (
	"fmt"

	"blanch/sim/drug"
	"blanch/sim/quantity"
)

var mixes = []Drill{
	{
		Name: "vials-to-open", Objective: "Count the vials for an amount of drug",
		Unit: "mix", Level: First, kind: "vials", least: 2, most: 12, apart: 20,
		Sources: []string{"American labels: norepinephrine 4 mg, epinephrine 1 mg, phenylephrine 10 mg, dopamine 200 mg, vasopressin 20 units a vial"},
		make: func(h *hand) draft {
			name := one(h, []string{"norepinephrine", "phenylephrine", "dopamine", "vasopressin", "epinephrine"})
			v := vialOf(name)
			need := of(quantity.Round(v.Amount.Value*(1+h.grid(0.1, 9.9, 0.1)), 0.001), v.Amount.Unit.String())
			return draft{
				given: given{"total": need, "per_vial": v.Amount},
				step:  1,
				stem: []string{
					fmt.Sprintf("For the mixes of this shift you need %s of %s. %s", need, name,
						h.say("One vial holds "+v.Amount.String()+".", "It comes in vials of "+v.Amount.String()+".")),
					ask(h.say("How many vials do you open?", "How many vials must be opened?"), "", 1),
				},
				shown: Picture{Vials: []Vial{v}},
			}
		},
	},
	{
		Name: "draw-up-drug", Objective: "Work out the volume to draw up from vials for a bag",
		Unit: "mix", Level: First, Critical: true, kind: "draw_up", swaps: true, least: 0.5, most: 20, apart: 20,
		Sources: []string{"American labels: phenylephrine 10 mg in 1 mL, vasopressin 20 units in 1 mL; dopamine 200 mg in 5 mL from memory"},
		make: func(h *hand) draft {
			v := vialOf(one(h, []string{"phenylephrine", "vasopressin", "dopamine"}))
			want := of(quantity.Round(v.Amount.Value*h.grid(0.1, 4, 0.05), 0.001), v.Amount.Unit.String())
			return draft{
				given: given{"order": want, "have": v.Amount, "in": v.Volume},
				unit:  "mL", step: 0.1,
				stem: []string{
					fmt.Sprintf("%s needs %s of %s. Each vial is labelled %s in %s.", h.say("The next bag", "A bag that you prepare"), want, v.Drug, v.Amount, v.Volume),
					ask(h.say("What volume do you draw up?", "How much do you draw up in all?"), "mL", 0.1),
				},
				shown: Picture{Vials: []Vial{v}},
			}
		},
	},
	{
		Name: "label-strength", Objective: "Work out the strength to write on a bag",
		Unit: "mix", Level: First, Critical: true, kind: "concentration", device: "label", least: 1, most: 4000, apart: 10,
		Sources: []string{"American labels, for the vials: norepinephrine 4 mg, epinephrine 1 mg, phenylephrine 10 mg; numbers of vials and bags are common practice"},
		make: func(h *hand) draft {
			v := vialOf(one(h, []string{"norepinephrine", "epinephrine", "phenylephrine"}))
			n := h.grid(1, 8, 1)
			bag := of(one(h, []float64{50, 100, 150, 250, 500, 1000}), "mL")
			amount := massOf(v.Amount.Value*n, "mg")
			return draft{
				given: given{"amount": amount, "volume": bag},
				unit:  "mcg/mL", step: 0.1,
				never: unusual(v.Drug, amount, bag),
				stem: []string{
					fmt.Sprintf("You add %s of %s to a bag labelled %s. %s", amount, v.Drug, bag, labelRule),
					ask(h.say("What strength do you write on the bag?", "What is the strength for the label?"), "mcg/mL", 0.1),
				},
				shown: Picture{Bags: []Bag{{Drug: v.Drug, Amount: amount, Volume: bag}}},
			}
		},
	},
	{
		Name: "label-units", Objective: "Work out the strength of a bag in units",
		Unit: "mix", Level: First, Critical: true, kind: "concentration", device: "label", least: 0.04, most: 2, apart: 12,
		Sources: []string{"American vasopressin label: 20 units in 1 mL a vial, 0.1 to 1 unit/mL"},
		make: func(h *hand) draft {
			amount := of(h.grid(15, 100, 5), "units")
			bag := of(one(h, []float64{50, 100, 150, 250, 500}), "mL")
			return draft{
				given: given{"amount": amount, "volume": bag},
				unit:  "units/mL", step: 0.01,
				never: outside(amount.Value/bag.Value, 0.1, 1),
				stem: []string{
					fmt.Sprintf("%s %s of vasopressin to a bag labelled %s. %s", h.say("You add", "The recipe of your unit adds"), amount, bag, labelRule),
					ask("What strength do you write on the bag?", "units/mL", 0.01),
				},
				shown: Picture{Bags: []Bag{{Drug: "vasopressin", Amount: amount, Volume: bag}}},
			}
		},
	},
	{
		Name: "label-grams", Objective: "Work out the strength of a bag whose drug is given in grams",
		Unit: "mix", Level: Middle, kind: "concentration", least: 0.4, most: 4000, apart: 12,
		Sources: []string{"American dopamine label: premixed bags of 800 to 3200 mcg/mL, in 250 mL and 500 mL; other volumes are common practice"},
		make: func(h *hand) draft {
			amount := of(h.grid(0.2, 1.6, 0.1), "g")
			bag := of(one(h, []float64{250, 500, 1000}), "mL")
			unit, step := "mcg/mL", 1.0
			if h.pick(2) == 1 {
				unit, step = "mg/mL", 0.01
			}
			return draft{
				given: given{"amount": amount, "volume": bag},
				unit:  unit, step: step,
				never: outside(amount.Float("mcg")/bag.Value, 400, 3200),
				stem: []string{
					fmt.Sprintf("A bag of dopamine is labelled %s in %s. The library of your pump lists strengths in %s.", amount, bag, unit),
					ask(h.say("Which strength do you look for?", "What is the strength of this bag?"), unit, step),
				},
				shown: Picture{Bags: []Bag{{Drug: "dopamine", Amount: amount, Volume: bag}}},
			}
		},
	},
	{
		Name: "true-strength", Objective: "Tell the true strength of a bag from the one on its label",
		Unit: "mix", Level: Middle, kind: "true_concentration", least: 1, most: 4000, apart: 5,
		Sources: []string{"American norepinephrine, epinephrine and dopamine labels, for vials; labels reckon by the volume of the bag. Overfill is left out"},
		make: func(h *hand) draft {
			v := vialOf(one(h, []string{"norepinephrine", "epinephrine", "dopamine"}))
			n := h.grid(2, 10, 1)
			bag := of(one(h, []float64{50, 100, 150, 250, 500}), "mL")
			amount, drugML := massOf(v.Amount.Value*n, "mg"), massOf(v.Volume.Value*n, "mL")
			return draft{
				given: given{"amount": amount, "volume": bag, "drug_volume": drugML},
				unit:  "mcg/mL", step: 0.1,
				never: unusual(v.Drug, amount, bag),
				stem: []string{
					fmt.Sprintf("You add %s vials of %s, each %s in %s, to a bag labelled %s and take nothing out first. Leave the maker's overfill aside.",
						quantity.Number(n), v.Drug, v.Amount, v.Volume, bag),
					fmt.Sprintf("That is %s of drug in %s of fluid, on top of what is in the bag.", amount, drugML),
					ask(h.say("What is the true strength of the bag?", "How strong is the mix that really runs?"), "mcg/mL", 0.1),
				},
				shown: Picture{Vials: []Vial{{Drug: v.Drug, Amount: v.Amount, Volume: v.Volume, Number: int(n)}}, Bags: []Bag{{Volume: bag, Drug: "diluent"}}},
			}
		},
	},
	{
		Name: "label-from-vial", Objective: "Work out the strength of a syringe made up from part of a vial",
		Unit: "mix", Level: Advanced, Critical: true, kind: "concentration", device: "label", least: 1, most: 4000, apart: 10,
		Sources: []string{"American phenylephrine, norepinephrine and epinephrine labels, for vials; made-up volumes are common practice"},
		make: func(h *hand) draft {
			v := vialOf(one(h, []string{"phenylephrine", "norepinephrine", "epinephrine"}))
			taken := of(h.grid(0.2, 4, 0.1), "mL")
			total := of(one(h, []float64{20, 30, 40, 48, 50, 60, 100}), "mL")
			return draft{
				given: given{"stock_amount": v.Amount, "stock_volume": v.Volume, "taken": taken, "total": total},
				unit:  "mcg/mL", step: 0.1,
				never: taken.Value > v.Volume.Value || outside(v.Amount.Float("mcg")/v.Volume.Value*taken.Value/total.Value, 4, 400),
				stem: []string{
					fmt.Sprintf("A vial of %s is labelled %s in %s. You draw up %s of it and make it up with diluent to %s in all.", v.Drug, v.Amount, v.Volume, taken, total),
					ask(h.say("What strength do you write on the syringe?", "How strong is what you made?"), "mcg/mL", 0.1),
				},
				shown: Picture{Vials: []Vial{v}, Syringes: []Syringe{{Drug: v.Drug, Volume: total}}},
			}
		},
	},
	{
		Name: "stock-for-limit", Objective: "Work out how much drug makes a bag of the strength that a policy allows",
		Unit: "mix", Level: Middle, Critical: true, kind: "stock_needed", least: 0.5, most: 40, apart: 32,
		Sources: []string{
			"Norepinephrine 16, 32 and 64 mcg/mL by the arm are in published protocols (NHS Fife, Emerg Med J 10.1136/emermed-2023-213848; Yerke 2024), phenylephrine to 200 mcg/mL in an Ohio hospital system's guideline",
			"Vials by the American labels",
		},
		make: func(h *hand) draft {
			v := vialOf(one(h, []string{"norepinephrine", "phenylephrine"}))
			stock := of(v.Amount.Value/v.Volume.Value, "mg/mL")
			target := of(h.grid(8, 200, 4), "mcg/mL")
			bag := of(one(h, []float64{50, 100, 150, 250, 500, 1000}), "mL")
			return draft{
				given: given{"stock": stock, "target": target, "final_volume": bag},
				unit:  "mL", step: 0.1,
				never: v.Drug == "norepinephrine" && target.Value > 64 || v.Drug == "phenylephrine" && target.Value < 20 || target.Value*bag.Value/1000/v.Amount.Value > 6,
				stem: []string{
					fmt.Sprintf("The policy of an invented unit allows %s up to %s through the arm. You make %s of just that strength from vials of %s, and take out of the bag what the drug adds.", v.Drug, target, bag, stock),
					ask(h.say("What volume of the drug goes in?", "How much do you draw up from the vials?"), "mL", 0.1),
				},
				shown: Picture{Vials: []Vial{v}, Bags: []Bag{{Drug: "diluent", Volume: bag}}},
			}
		},
	},
	{
		Name: "salt-to-base", Objective: "Turn a label in salt into the base that doses are ordered in",
		Unit: "mix", Level: Middle, Critical: true, kind: "base", least: 0.5, most: 200, apart: 40,
		Sources: []string{"American norepinephrine label, section 11, for 1.89; 1.994 from molar masses, as the ASHP handbook's approximately 2 (SCCM and ESICM task force, Crit Care Med 2024;52:521, asks for base)"},
		make: func(h *hand) draft {
			s, salt := saltOf(h), of(h.grid(4, 32, 0.25), one(h, []string{"mg", "mcg/mL"}))
			return draft{
				given: given{"salt": salt, "salt_ratio": bare(s.Ratio)},
				unit:  salt.Unit.String(), step: 0.1,
				stem: []string{
					fmt.Sprintf("A label from abroad reads norepinephrine %s %s. %s mg of that salt holds 1 mg of the base, and the order is in base.", saltName(s), salt, quantity.Number(s.Ratio)),
					ask(h.say("How much is it as base?", "What does it come to as base?"), salt.Unit.String(), 0.1),
				},
				shown: saltShown(salt, "as "+saltName(s)),
			}
		},
	},
	{
		Name: "base-to-salt", Objective: "Turn an amount of base into what a label in salt reads",
		Unit: "mix", Level: Advanced, kind: "salt", least: 1, most: 200, apart: 40,
		Sources: []string{"American norepinephrine label, section 11, for 1.89; 1.994 from molar masses"},
		make: func(h *hand) draft {
			s, base := saltOf(h), of(h.grid(2, 32, 0.25), one(h, []string{"mg", "mcg/mL"}))
			return draft{
				given: given{"base": base, "salt_ratio": bare(s.Ratio)},
				unit:  base.Unit.String(), step: 0.1,
				stem: []string{
					fmt.Sprintf("A recipe asks for norepinephrine %s as base. The stock at hand is labelled as %s, and %s mg of that salt holds 1 mg of the base.", base, saltName(s), quantity.Number(s.Ratio)),
					ask(h.say("What does the same drug read as salt?", "How much is that by the label in salt?"), base.Unit.String(), 0.1),
				},
			}
		},
	},
}

// labelRule is how strengths on labels are reckoned (American labels).
const labelRule = "Labels go by the drug over the labelled volume of the bag."

// unusual says that a mix is stronger or weaker than is used, or that another
// drug's vials make the same numbers.
func unusual(name string, amount, bag quantity.Quantity) bool {
	most := map[string]float64{"norepinephrine": 64, "epinephrine": 40, "phenylephrine": 400, "dopamine": 3200}[name]
	each := map[string]float64{"epinephrine": 4, "norepinephrine": 10}[name] // mg that others make, too
	return each > 0 && quantity.Round(amount.Value, each) == amount.Value || outside(amount.Float("mcg")/bag.Value, 1, most)
}

func saltOf(h *hand) drug.Salt {
	d, _ := drug.Named("norepinephrine")
	return one(h, d.Salts)
}

// saltName is "bitartrate (monohydrate)".
func saltName(s drug.Salt) string {
	if s.Name == "bitartrate monohydrate" {
		return "bitartrate (monohydrate)"
	}
	return "bitartrate (anhydrous)"
}

func saltShown(q quantity.Quantity, note string) Picture {
	b := Bag{Drug: "norepinephrine", Note: note}
	if q.Unit == quantity.MustUnit("mg") {
		b.Amount = q
	} else {
		b.Concentration = q
	}
	return Picture{Bags: []Bag{b}}
}
