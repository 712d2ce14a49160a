package drug

import (
	"blanch/sim/quantity"
	"blanch/sim/symbol"
)

// table is every drug known, vasopressors first.
var table = []Drug{
	{
		Name: "norepinephrine",
		Role: Vasopressor,
		// 4 mg in 4 mL, 1 mg/mL as base; 4 mg in 1000 mL (American
		// norepinephrine label, sections 2.2 and 2.3).
		Supplied: Supply{Amount: quantity.Of(4, "mg"), Volume: quantity.Of(4, "mL")},
		LabelMix: Recipe{Amount: quantity.Of(4, "mg"), Bag: quantity.Of(1000, "mL")},
		// The American label orders mcg/min, guidelines mcg/kg/min.
		DoseUnits: []string{"mcg/min", "mcg/kg/min"},
		Salts: []Salt{
			// Label section 11: drugcentral.org/label/cc9ecec5-3bd7-4132-9745-7666bac8ceac.
			{Name: "bitartrate anhydrous", Ratio: 1.89},
			// 337.3 / 169.18, molar masses of the label and from memory; the
			// ASHP handbook (25th ed.) calls it approximately 2.
			{Name: "bitartrate monohydrate", Ratio: 1.994},
		},
		VolumeL: 8.7,
		cleared: clearance{lMin: 3.0, saps2: 20, power: -1.096},
		stated: []symbol.Symbol{
			{Name: "norepinephrine CL20", Unit: "L/min", Value: 3.0, Low: 2.7, High: 3.3, Published: true, Why: "clearance at SAPS II 20 (Beloeil 2005, Br J Anaesth 95:782)"},
			{Name: "norepinephrine CL power", Unit: "1", Value: -1.096, Low: -1.2, High: -1, Published: true, Why: "CL = 3.0 (SAPS II / 20)^power, giving 0.9 L/min at 60 (Beloeil 2005)"},
			{Name: "norepinephrine V", Unit: "L", Value: 8.7, Low: 7.8, High: 9.6, Published: true, Why: "volume that makes the half-life 2.0 min at SAPS II 20 and 6.8 min at 60 (Beloeil 2005)"},
			{Name: "SAPS II lowest", Unit: "1", Value: lowestSAPS2, Low: 5, High: 20, Why: "score under which the clearance is held; the power law has no value at 0"},
			{Name: "SAPS II highest", Unit: "1", Value: highestSAPS2, Low: 80, High: 163, Why: "score over which the clearance is held; few patients lie beyond"},
		},
	},
	{
		Name: "phentolamine",
		Role: Antidote,
		// 5 mg a vial, a powder (American phentolamine label, and
		// mims.com on phentolamine).
		Supplied:  Supply{Amount: quantity.Of(5, "mg")},
		DoseUnits: []string{"mg"},
		// 5 to 10 mg in 10 to 15 mL of saline (American norepinephrine label,
		// on extravasation). The phentolamine label itself says 10 mL.
		Treatment: Treatment{
			Least: quantity.Of(5, "mg"), Most: quantity.Of(10, "mg"),
			InLeast: quantity.Of(10, "mL"), InMost: quantity.Of(15, "mL"),
		},
	},
}
