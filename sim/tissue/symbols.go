package tissue

import "blanch/sim/symbol"

const (
	kOut       = 0.046 / 60  // 1/s
	floor      = 0.15        // share of kOut that is left without any blood flow
	kLocal     = 0.0077 / 60 // 1/s
	kV         = 0.0023 / 60 // 1/s
	elevation  = 1.5
	v0         = 2.0         // mL
	w          = 1.0         // mL/mL
	ec50       = 0.3         // mcg/mL
	antagonist = 5.0         // mcg/mL
	kAnt       = 0.0173 / 60 // 1/s
	pressFrom  = 60.0        // mL
	pressSpan  = 60.0        // mL
	heightMM   = 5.0
	spentMcg   = 1e-9
	spentML    = 1e-3

	// IschaemicUnder is the share of normal blood flow under which the core
	// of a depot is counted as short of blood.
	IschaemicUnder = 0.3
)

// Symbols states every parameter of this package.
func Symbols() []symbol.Symbol {
	return []symbol.Symbol{
		{Name: "kOut", Unit: "1/min", Value: kOut * 60, Low: 0.02, High: 0.1, Why: "uptake of drug into the blood at full blood flow, half in about 15 min; no human rate was found"},
		{Name: "floor", Unit: "1", Value: floor, Low: 0.05, High: 0.3, Why: "share of that uptake left without blood flow (diffusion, lymph); without a floor a leak would be a cliff"},
		{Name: "kLocal", Unit: "1/min", Value: kLocal * 60, Low: 0.002, High: 0.03, Why: "breakdown and neuronal uptake in the tissue, half in about 90 min; no human rate was found"},
		{Name: "kV", Unit: "1/min", Value: kV * 60, Low: 0.0005, High: 0.006, Why: "uptake of fluid, half in about 5 h; mild swelling clears in 24 to 48 h"},
		{Name: "elevation", Unit: "1", Value: elevation, Low: 1, High: 2, Why: "factor on the uptake of fluid while the limb is raised"},
		{Name: "V0", Unit: "mL", Value: v0, Low: 0.5, High: 5, Why: "tissue fluid that the first drops mix with"},
		{Name: "w", Unit: "mL/mL", Value: w, Low: 0, High: 3, Why: "tissue fluid that each further mL mixes with"},
		{Name: "EC50", Unit: "mcg/mL", Value: ec50, Low: 0.05, High: 1, Why: "norepinephrine in tissue at which half of the constriction is reached; no human value was found"},
		{Name: "K", Unit: "mcg/mL", Value: antagonist, Low: 0.5, High: 20, Why: "phentolamine in tissue that doubles the concentration needed"},
		{Name: "kAnt", Unit: "1/min", Value: kAnt * 60, Low: 0.01, High: 0.035, Why: "phentolamine leaving the tissue, half in about 40 min; an intramuscular dose lasts 30 to 45 min (monograph, second-hand)"},
		{Name: "pressFrom", Unit: "mL", Value: pressFrom, Low: 30, High: 120, Why: "fluid from which tissue pressure begins to limit blood flow"},
		{Name: "pressSpan", Unit: "mL", Value: pressSpan, Low: 30, High: 120, Why: "further fluid at which it halves it"},
		{Name: "h", Unit: "mm", Value: heightMM, Low: 3, High: 10, Why: "height of the swelling"},
		{Name: "ischaemicUnder", Unit: "1", Value: IschaemicUnder, Low: 0.1, High: 0.5, Why: "share of normal blood flow counted as short of blood; a teaching threshold"},
		{Name: "drawnShare", Unit: "1", Value: drawnShare, Low: 0, High: 0.5, Why: "share of a depot that can be drawn back at once"},
		{Name: "drawnFade", Unit: "min", Value: drawnFade / 60, Low: 3, High: 30, Why: "time in which that share falls by a factor e"},
	}
}
