package drug

import "blanch/sim/symbol"

var norepinephrine = Drug{
	Name: "norepinephrine",
	Role: Vasopressor,
	Base: "mcg",
	// 4 mg in 4 mL, 1 mg/mL as base; 4 mg in 1000 mL (American
	// norepinephrine label, sections 2.2 and 2.3).
	Supplied: Supply{Amount: of(4, "mg"), Volume: of(4, "mL")},
	LabelMix: Recipe{Amount: of(4, "mg"), Bag: of(1000, "mL")},
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
	Potency: Potency{Receptor: Alpha, E50: 15, TissueE50: 0.3, KLocal: 0.0077},
	stated: []symbol.Symbol{
		published("norepinephrine CL20", "L/min", 3.0, 2.7, 3.3, "clearance at SAPS II 20 (Beloeil 2005, Br J Anaesth 95:782)"),
		published("norepinephrine CL power", "1", -1.096, -1.2, -1, "CL = 3.0 (SAPS II / 20)^power, giving 0.9 L/min at 60 (Beloeil 2005)"),
		published("norepinephrine V", "L", 8.7, 7.8, 9.6, "volume that makes the half-life 2.0 min at SAPS II 20 and 6.8 min at 60 (Beloeil 2005)"),
		assumed("SAPS II lowest", "1", lowestSAPS2, 5, 20, "score under which the clearance is held; the power law has no value at 0"),
		assumed("SAPS II highest", "1", highestSAPS2, 80, 163, "score over which the clearance is held; few patients lie beyond"),
		assumed("norepinephrine E50", "mcg/L", 15, 8, 30, "chosen so that 0.05 mcg/kg/min raises the mean pressure by about 10 mmHg, from memory; no adult value was found"),
		assumed("norepinephrine tissue E50", "mcg/mL", 0.3, 0.05, 1, "half of the constriction in tissue; no human value was found"),
		assumed("norepinephrine kLocal", "1/min", 0.0077, 0.002, 0.03, "breakdown and neuronal uptake in tissue, half in about 90 min; no human rate was found"),
	},
}
