package drug

import (
	"blanch/sim/quantity"
	"blanch/sim/symbol"
)

var phentolamine = Drug{
	Name: "phentolamine",
	Role: Antidote,
	Base: "mcg",
	// 5 mg a vial, a powder (American phentolamine label, and mims.com on
	// phentolamine).
	Supplied:  Supply{Amount: of(5, "mg")},
	DoseUnits: []string{"mg"},
	// 5 to 10 mg in 10 to 15 mL of saline (American norepinephrine label, on
	// extravasation). The phentolamine label itself says 10 mL.
	Treatment: Treatment{
		Least: of(5, "mg"), Most: of(10, "mg"),
		InLeast: of(10, "mL"), InMost: of(15, "mL"),
	},
	VolumeL: 50,
	cleared: clearance{lMin: 1.82},
	Potency: Potency{Blocks: 300},
	stated: []symbol.Symbol{
		assumed("phentolamine V", "L", 50, 25, 100, "no volume was found"),
		assumed("phentolamine CL", "L/min", 1.82, 1.4, 2.3, "makes the half-life 19 min with that V, the published intravenous one (monograph, medicine.com, second-hand)"),
		assumed("phentolamine blocks", "mcg/L", 300, 100, 1000, "concentration in the blood that doubles what an alpha agonist needs; a dose in the skin costs a few mmHg, an intravenous one more"),
	},
}

var terbutaline = Drug{
	Name: "terbutaline",
	Role: Antidote,
	Base: "mcg",
	// 1 mg/mL (from memory); 1 mg in 10 mL for a large site (pharmacyjoe.com
	// episodes 6 and 923; anesthesiaconsiderations.com). Case reports only.
	Supplied:  Supply{Amount: of(1, "mg"), Volume: of(1, "mL")},
	DoseUnits: []string{"mg"},
	Treatment: Treatment{
		Least: of(0.5, "mg"), Most: of(1, "mg"),
		InLeast: quantity.Of(1, "mL"), InMost: of(10, "mL"),
	},
}
