package drug

import "blanch/sim/symbol"

var epinephrine = Drug{
	Name: "epinephrine",
	Role: Vasopressor,
	Base: "mcg",
	// 1 mg/mL vial; 1 mg in 1000 mL (American epinephrine label, dosage and
	// administration).
	Supplied:  Supply{Amount: of(1, "mg"), Volume: of(1, "mL")},
	LabelMix:  Recipe{Amount: of(1, "mg"), Bag: of(1000, "mL")},
	DoseUnits: []string{"mcg/kg/min", "mcg/min"},
	// 127 (BW/70)^0.60 (SAPS II/50)^-0.67 L/h (Abboud 2009, Crit Care).
	VolumeL: 10.7,
	cleared: clearance{lMin: 127.0 / 60, saps2: 50, power: -0.67, kg: 70, kgPower: 0.60},
	Potency: Potency{Receptor: Alpha, E50: 15, BetaE50: 3, TissueE50: 0.3, KLocal: 0.0077},
	stated: []symbol.Symbol{
		published("epinephrine CL", "L/h", 127, 120.7, 133.4, "clearance at 70 kg and SAPS II 50 (Abboud 2009, Crit Care)"),
		published("epinephrine CL power of SAPS II", "1", -0.67, -0.8, -0.5, "Abboud 2009, Crit Care"),
		published("epinephrine CL power of weight", "1", 0.60, 0.4, 0.8, "Abboud 2009, Crit Care"),
		published("epinephrine V", "L", 10.7, 9, 12, "volume that makes the half-life 3.5 min (Abboud 2009, Crit Care)"),
		assumed("epinephrine E50", "mcg/L", 15, 8, 30, "taken as for norepinephrine; no adult value was found"),
		assumed("epinephrine beta E50", "mcg/L", 3, 1, 10, "half of the effect on the heart, at lower concentrations than on vessels"),
		assumed("epinephrine tissue E50", "mcg/mL", 0.3, 0.05, 1, "taken as for norepinephrine"),
		assumed("epinephrine kLocal", "1/min", 0.0077, 0.002, 0.03, "taken as for norepinephrine"),
	},
}

var dopamine = Drug{
	Name: "dopamine",
	Role: Vasopressor,
	Base: "mcg",
	// Premixed 400 mg in 250 mL (1.6 mg/mL), ordered as the hydrochloride
	// (American dopamine label). A vial of 40 mg/mL, 5 mL, from memory.
	Supplied:  Supply{Amount: of(200, "mg"), Volume: of(5, "mL")},
	LabelMix:  Recipe{Amount: of(400, "mg"), Bag: of(250, "mL")},
	DoseUnits: []string{"mcg/kg/min"},
	Salts: []Salt{
		// 80 mg of the hydrochloride are 64.6 mg of base (American dopamine
		// label); doses are ordered as the hydrochloride.
		{Name: "hydrochloride", Ratio: 80 / 64.6},
	},
	VolumeL: 12,
	cleared: clearance{lMin: 4.2},
	Potency: Potency{Receptor: Alpha, E50: 750, BetaE50: 100, TissueE50: 30, KLocal: 0.0077},
	stated: []symbol.Symbol{
		assumed("dopamine CL", "L/min", 4.2, 2.5, 6, "about 60 mL/kg/min, from memory"),
		assumed("dopamine V", "L", 12, 8, 18, "makes the half-life about 2 min, from memory"),
		assumed("dopamine E50", "mcg/L", 750, 400, 1500, "chosen so that 10 mcg/kg/min raises the mean pressure by about 15 mmHg"),
		assumed("dopamine beta E50", "mcg/L", 100, 40, 250, "beta effects come before alpha effects (label: 5 to 10 against over 10 mcg/kg/min)"),
		assumed("dopamine tissue E50", "mcg/mL", 30, 5, 100, "about a hundred times that of norepinephrine, as doses are"),
		assumed("dopamine kLocal", "1/min", 0.0077, 0.002, 0.03, "taken as for norepinephrine"),
	},
}

var phenylephrine = Drug{
	Name: "phenylephrine",
	Role: Vasopressor,
	Base: "mcg",
	// 10 mg/mL vial; 10 mg in 500 mL (American phenylephrine label, 2.2 and 2.3).
	Supplied:  Supply{Amount: of(10, "mg"), Volume: of(1, "mL")},
	LabelMix:  Recipe{Amount: of(10, "mg"), Bag: of(500, "mL")},
	DoseUnits: []string{"mcg/kg/min", "mcg/min"},
	VolumeL:   15,
	cleared:   clearance{lMin: 2.1},
	Potency:   Potency{Receptor: Alpha, E50: 150, TissueE50: 3, KLocal: 0.004},
	stated: []symbol.Symbol{
		assumed("phenylephrine CL", "L/min", 2.1, 1.5, 3, "about 2 L/min (Hengstmann 1982 read with its volume and half-life; label, from memory)"),
		assumed("phenylephrine V", "L", 15, 8, 25, "makes the effective half-life about 5 min (label, from memory)"),
		assumed("phenylephrine E50", "mcg/L", 150, 75, 300, "chosen so that 1 mcg/kg/min raises the mean pressure by about 15 mmHg"),
		assumed("phenylephrine tissue E50", "mcg/mL", 3, 0.5, 10, "about a tenth as potent as norepinephrine, as doses are"),
		assumed("phenylephrine kLocal", "1/min", 0.004, 0.001, 0.015, "not taken up by nerve endings nor broken down by catechol-O-methyltransferase, so slower"),
	},
}
