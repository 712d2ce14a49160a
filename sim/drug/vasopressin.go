package drug

import "blanch/sim/symbol"

var vasopressin = Drug{
	Name: "vasopressin",
	Role: Vasopressor,
	Base: "units",
	// 20 units/mL; 50 units in 500 mL, 0.1 units/mL (American vasopressin
	// label, Table 1). Dosed in units/min, never per kg.
	Supplied:  Supply{Amount: of(20, "units"), Volume: of(1, "mL")},
	LabelMix:  Recipe{Amount: of(50, "units"), Bag: of(500, "mL")},
	DoseUnits: []string{"units/min"},
	VolumeL:   10,
	cleared:   clearance{lMin: 0.87},
	// Its direct contractile effect is not antagonised by adrenergic blockers
	// (American vasopressin label, older text, drugs-library.com).
	Potency: Potency{Receptor: V1, E50: 0.25, TissueE50: 0.02, KLocal: 0.004},
	stated: []symbol.Symbol{
		assumed("vasopressin CL", "L/min", 0.87, 0.6, 1.7, "makes the half-life about 8 min; the current label says 10 min or less, from memory"),
		assumed("vasopressin V", "L", 10, 7, 14, "about 140 mL/kg, from memory"),
		assumed("vasopressin E50", "units/L", 0.25, 0.12, 0.5, "chosen so that 0.03 units/min raises the mean pressure by about 10 mmHg"),
		assumed("vasopressin tissue E50", "units/mL", 0.02, 0.005, 0.1, "half of the constriction in tissue; no human value was found"),
		assumed("vasopressin kLocal", "1/min", 0.004, 0.001, 0.015, "peptidases in tissue; no human rate was found"),
	},
}
