package drill

import (
	"fmt"
	"slices"
	"strings"

	"blanch/sim/drug"
	"blanch/sim/quantity"
)

var mixes = []Drill{
	{
		Name: "vials-to-open", Objective: "Count the vials for an amount of drug",
		Unit: "mix", Level: First, kind: "vials", least: 2, most: 12, apart: 2,
		Sources: []string{"American labels: norepinephrine 4 mg, epinephrine 1 mg, phenylephrine 10 mg, dopamine 200 mg, vasopressin 20 units a vial"},
		make: func(h *hand) draft {
			w := one(h, shiftNeeds)
			v := vialOf(w.drug)
			name, need := w.drug, of(w.value, v.Amount.Unit.String())
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
		Unit: "mix", Level: First, Critical: true, kind: "draw_up", swaps: true, least: 0.2, most: 40, apart: 2,
		Sources: []string{"American labels: phenylephrine 10 mg in 1 mL, vasopressin 20 units in 1 mL; dopamine 200 mg in 5 mL from memory"},
		make: func(h *hand) draft {
			w := one(h, bagNeeds)
			v := vialOf(w.drug)
			want := of(w.value, v.Amount.Unit.String())
			return draft{
				given: given{"order": want, "have": v.Amount, "in": v.Volume},
				unit:  "mL", step: 0.1,
				stem: []string{
					fmt.Sprintf("%s needs %s of %s. Each vial is labelled %s in %s.", h.say("The next mix", "A mix that you prepare"), want, v.Drug, v.Amount, v.Volume),
					ask(h.say("What volume do you draw up?", "How much do you draw up in all?"), "mL", 0.1),
				},
				shown: Picture{Vials: []Vial{v}},
			}
		},
	},
	{
		Name: "label-strength", Objective: "Work out the strength to write on a bag",
		Unit: "mix", Level: First, Critical: true, kind: "concentration", device: "label", least: 1, most: 4000, apart: 2,
		Sources: []string{"American labels, for the vials: norepinephrine 4 mg, epinephrine 1 mg, phenylephrine 10 mg; strengths and bags by labels, published protocols and common practice"},
		make: func(h *hand) draft {
			m := one(h, madeUp)
			return draft{
				given: given{"amount": m.amount, "volume": m.volume},
				unit:  "mcg/mL", step: 0.1,
				stem: []string{
					fmt.Sprintf("You add %s of %s to a bag labelled %s. %s", m.amount, m.drug, m.volume, labelRule),
					ask(h.say("What strength do you write on the bag?", "What is the strength for the label?"), "mcg/mL", 0.1),
				},
				shown: Picture{Bags: []Bag{m.bag()}},
			}
		},
	},
	{
		Name: "label-units", Objective: "Work out the strength of a bag in units",
		Unit: "mix", Level: First, Critical: true, kind: "concentration", device: "label", least: 0.04, most: 2, apart: 2,
		Sources: []string{"American vasopressin label: 20 units in 1 mL a vial, 0.1 to 1 unit/mL"},
		make: func(h *hand) draft {
			amount := of(one(h, []float64{10, 20, 25, 30, 40, 50, 60, 80, 100, 200}), "units")
			bag := of(one(h, []float64{50, 100, 250, 500}), "mL")
			return draft{
				given: given{"amount": amount, "volume": bag},
				unit:  "units/mL", step: 0.01,
				never: outside(amount.Value/bag.Value, 0.1, 1),
				stem: []string{
					fmt.Sprintf("%s %s of vasopressin to a bag labelled %s. %s", h.say("You add", "The mixing chart of your unit adds"), amount, bag, labelRule),
					ask("What strength do you write on the bag?", "units/mL", 0.01),
				},
				shown: Picture{Bags: []Bag{{Drug: "vasopressin", Amount: amount, Volume: bag}}},
			}
		},
	},
	{
		Name: "label-grams", Objective: "Work out the strength of a bag whose drug is given in grams",
		Unit: "mix", Level: Middle, kind: "concentration", least: 0.4, most: 4000, apart: 2,
		Sources: []string{"American dopamine label: premixed bags of 800 to 3200 mcg/mL, in 250 mL and 500 mL; other volumes, and 4 mg/mL in a syringe pump, are common practice"},
		make: func(h *hand) draft {
			amount := of(one(h, []float64{0.2, 0.4, 0.8, 1.6}), "g")
			bag := of(one(h, []float64{50, 100, 250, 500, 1000}), "mL")
			unit, step := "mcg/mL", 1.0
			if h.pick(2) == 1 {
				unit, step = "mg/mL", 0.01
			}
			return draft{
				given: given{"amount": amount, "volume": bag},
				unit:  unit, step: step,
				never: outside(amount.Float("mcg")/bag.Value, 400, 4000),
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
		Unit: "mix", Level: Middle, kind: "true_concentration", least: 0.1, most: 4000, apart: 2,
		Sources: []string{"American norepinephrine, epinephrine, phenylephrine, vasopressin and dopamine labels, for vials; labels reckon by the volume of the bag. Overfill is left out"},
		make: func(h *hand) draft {
			v := vialOf(one(h, []string{"norepinephrine", "epinephrine", "phenylephrine", "vasopressin", "dopamine"}))
			n := one(h, []float64{2, 3, 4, 5, 8, 10})
			bag := of(one(h, []float64{50, 100, 250, 500}), "mL")
			measure := v.Amount.Unit.String()
			amount, drugML := massOf(v.Amount.Value*n, measure), massOf(v.Volume.Value*n, "mL")
			unit, step := "mcg/mL", 0.1
			if measure == "units" {
				unit, step = "units/mL", 0.001
			}
			return draft{
				given: given{"amount": amount, "volume": bag, "drug_volume": drugML},
				unit:  unit, step: step,
				never: unusual(v.Drug, amount, bag),
				stem: []string{
					fmt.Sprintf("You add %s vials of %s, each %s in %s, to a bag labelled %s and take nothing out first. Leave the maker's overfill aside.",
						quantity.Number(n), v.Drug, v.Amount, v.Volume, bag),
					fmt.Sprintf("That is %s of drug in %s of fluid, on top of what is in the bag.", amount, drugML),
					ask(h.say("What is the true strength of the bag?", "How strong is the mix that really runs?"), unit, step),
				},
				shown: Picture{Vials: []Vial{{Drug: v.Drug, Amount: v.Amount, Volume: v.Volume, Number: int(n)}}, Bags: []Bag{{Volume: bag, Drug: "diluent"}}},
			}
		},
	},
	{
		Name: "label-from-vial", Objective: "Work out the strength of a syringe made up from part of a vial",
		Unit: "mix", Level: Advanced, Critical: true, kind: "concentration", device: "label", least: 0.1, most: 4000, apart: 2,
		Sources: []string{"American phenylephrine, vasopressin and norepinephrine labels, for vials; made-up volumes are common practice"},
		make: func(h *hand) draft {
			v := vialOf(one(h, []string{"phenylephrine", "vasopressin", "norepinephrine"}))
			taken := of(one(h, []float64{0.2, 0.3, 0.4, 0.5, 0.6, 0.8, 1.6, 2, 2.5, 3, 3.2}), "mL")
			total := of(one(h, []float64{10, 20, 25, 30, 40, 48, 50, 60, 100}), "mL")
			unit, step, used := "mcg/mL", 0.1, []float64{16, 20, 32, 40, 50, 60, 64, 80, 100, 120, 160, 200}
			if v.Drug == "vasopressin" {
				unit, step, used = "units/mL", 0.01, []float64{0.1, 0.2, 0.25, 0.4, 0.5, 1}
			}
			measure, _, _ := strings.Cut(unit, "/")
			strength := quantity.Round(v.Amount.Float(measure)/v.Volume.Value*taken.Value/total.Value, 0.001)
			return draft{
				given: given{"stock_amount": v.Amount, "stock_volume": v.Volume, "taken": taken, "total": total},
				unit:  unit, step: step,
				never: taken.Value >= v.Volume.Value || !slices.Contains(used, strength),
				stem: []string{
					fmt.Sprintf("A vial of %s is labelled %s in %s. You draw up %s of it and make it up with diluent to %s in all.", v.Drug, v.Amount, v.Volume, taken, total),
					ask(h.say("What strength do you write on the syringe?", "How strong is what you made?"), unit, step),
				},
				shown: Picture{Vials: []Vial{v}, Syringes: []Syringe{{Drug: v.Drug, Volume: total}}},
			}
		},
	},
	{
		Name: "stock-for-limit", Objective: "Work out how much drug makes a bag of the strength that a policy allows",
		Unit: "mix", Level: Middle, Critical: true, kind: "stock_needed", least: 0.2, most: 40, apart: 2,
		Sources: []string{
			"Norepinephrine 16, 32 and 64 mcg/mL by the arm are in published protocols (NHS Fife, Emerg Med J 10.1136/emermed-2023-213848; Yerke 2024), phenylephrine to 200 mcg/mL in an Ohio hospital system's guideline",
			"Vials by the American labels",
		},
		make: func(h *hand) draft {
			v := vialOf(one(h, []string{"norepinephrine", "phenylephrine"}))
			stock := of(v.Amount.Value/v.Volume.Value, "mg/mL")
			target := of(one(h, []float64{8, 10, 16, 20, 32, 40, 50, 64, 80, 100, 160, 200}), "mcg/mL")
			bag := of(one(h, []float64{50, 100, 250, 500, 1000}), "mL")
			return draft{
				given: given{"stock": stock, "target": target, "final_volume": bag},
				unit:  "mL", step: 0.1,
				never: v.Drug == "norepinephrine" && target.Value > 64 || v.Drug == "phenylephrine" && target.Value < 20 || target.Value*bag.Value/1000/v.Amount.Value > 6,
				stem: []string{
					fmt.Sprintf("The policy of an invented unit allows %s up to %s through the arm. You make %s of just that strength from vials of %s, and first draw out of the bag as much as the drug will add.", v.Drug, target, bag, stock),
					ask(h.say("What volume of the drug goes in?", "How much do you draw up from the vials?"), "mL", 0.1),
				},
				shown: Picture{Vials: []Vial{v}, Bags: []Bag{{Drug: "diluent", Volume: bag}}},
			}
		},
	},
	{
		Name: "salt-to-base", Objective: "Turn a label in salt into the base that doses are ordered in",
		Unit: "mix", Level: Middle, Critical: true, kind: "base", least: 0.5, most: 200, apart: 2,
		Sources: []string{"American norepinephrine label, section 11, for 1.89; 1.994 from molar masses, as the ASHP handbook's approximately 2 (SCCM and ESICM task force, Crit Care Med 2024;52:521, asks for base)"},
		make: func(h *hand) draft {
			s, salt := saltOf(h), one(h, labelled)
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
		Unit: "mix", Level: Advanced, kind: "salt", least: 1, most: 400, apart: 2,
		Sources: []string{"American norepinephrine label, section 11, for 1.89; 1.994 from molar masses"},
		make: func(h *hand) draft {
			s, base := saltOf(h), one(h, labelled)
			return draft{
				given: given{"base": base, "salt_ratio": bare(s.Ratio)},
				unit:  base.Unit.String(), step: 0.1,
				stem: []string{
					fmt.Sprintf("The mixing chart asks for norepinephrine %s as base. The stock at hand is labelled as %s, and %s mg of that salt holds 1 mg of the base.", base, saltName(s), quantity.Number(s.Ratio)),
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
	most := map[string]float64{"norepinephrine": 80, "epinephrine": 100, "phenylephrine": 400, "dopamine": 4000}[name]
	if name == "vasopressin" {
		return outside(amount.Value/bag.Value, 0.1, 1)
	}
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
