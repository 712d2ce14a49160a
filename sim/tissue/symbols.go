package tissue

import "blanch/sim/symbol"

const (
	kOut      = 0.046 / 60  // 1/s
	floor     = 0.15        // share of kOut that is left without any blood flow
	kV        = 0.0023 / 60 // 1/s
	elevation = 1.5
	v0        = 2.0         // mL
	w         = 1.0         // mL/mL
	blocker   = 5.0         // mcg/mL
	relaxant  = 20.0        // mcg/mL
	kAnt      = 0.0173 / 60 // 1/s
	nitrate   = 3.0
	warmth    = 0.5
	tauN      = 15.0 * 60 // s
	pressFrom = 60.0      // mL
	pressSpan = 60.0      // mL
	heightMM  = 5.0
	spentDrug = 1e-9
	spentML   = 1e-3

	// IschaemicUnder is the share of normal blood flow under which the core
	// of a depot is counted as short of blood.
	IschaemicUnder = 0.3
)

// Symbols states every parameter of this package.
func Symbols() []symbol.Symbol {
	return []symbol.Symbol{
		{Name: "kOut", Unit: "1/min", Value: kOut * 60, Low: 0.02, High: 0.1, Why: "uptake of drug into the blood at full blood flow, half in about 15 min; no human rate was found"},
		{Name: "floor", Unit: "1", Value: floor, Low: 0.05, High: 0.3, Why: "share of that uptake left without blood flow (diffusion, lymph); without a floor a leak would be a cliff"},
		{Name: "kV", Unit: "1/min", Value: kV * 60, Low: 0.0005, High: 0.006, Why: "uptake of fluid, half in about 5 h; mild swelling clears in 24 to 48 h"},
		{Name: "elevation", Unit: "1", Value: elevation, Low: 1, High: 2, Why: "factor on the uptake of fluid while the limb is raised"},
		{Name: "V0", Unit: "mL", Value: v0, Low: 0.5, High: 5, Why: "tissue fluid that the first drops mix with"},
		{Name: "w", Unit: "mL/mL", Value: w, Low: 0, High: 3, Why: "tissue fluid that each further mL mixes with"},
		{Name: "Ka", Unit: "mcg/mL", Value: blocker, Low: 0.5, High: 20, Why: "phentolamine in tissue that doubles what an alpha agonist needs there"},
		{Name: "Kb", Unit: "mcg/mL", Value: relaxant, Low: 2, High: 80, Why: "terbutaline in tissue that halves the drive of any constrictor; case reports only"},
		{Name: "kAnt", Unit: "1/min", Value: kAnt * 60, Low: 0.01, High: 0.035, Why: "antidote leaving the tissue, half in about 40 min; an intramuscular dose of phentolamine lasts 30 to 45 min (monograph, second-hand)"},
		{Name: "nitrate", Unit: "1", Value: nitrate, Low: 0.5, High: 6, Why: "what nitrate ointment adds to the divisor of the drive; seven case reports (Plum 2017, summarised)"},
		{Name: "warmth", Unit: "1", Value: warmth, Low: 0.1, High: 1, Why: "what a warm pack adds to it; sources disagree on warmth"},
		{Name: "tauN", Unit: "min", Value: tauN / 60, Low: 5, High: 40, Why: "time in which nitrate and warmth come to act through the skin"},
		{Name: "pressFrom", Unit: "mL", Value: pressFrom, Low: 30, High: 120, Why: "fluid from which tissue pressure begins to limit blood flow"},
		{Name: "pressSpan", Unit: "mL", Value: pressSpan, Low: 30, High: 120, Why: "further fluid at which it halves it"},
		{Name: "h", Unit: "mm", Value: heightMM, Low: 3, High: 10, Why: "height of the swelling"},
		{Name: "ischaemicUnder", Unit: "1", Value: IschaemicUnder, Low: 0.1, High: 0.5, Why: "share of normal blood flow counted as short of blood; a teaching threshold"},
		{Name: "drawnShare", Unit: "1", Value: drawnShare, Low: 0, High: 0.5, Why: "share of a depot that can be drawn back at once"},
		{Name: "drawnFade", Unit: "min", Value: drawnFade / 60, Low: 3, High: 30, Why: "time in which that share falls by a factor e"},
		{Name: "feltMM", Unit: "mm", Value: feltMM, Low: 8, High: 25, Why: "least swelling that fingers find"},
		{Name: "seenMM", Unit: "mm", Value: seenMM, Low: 15, High: 50, Why: "least swelling that a glance sees"},
		{Name: "tightMM", Unit: "mm", Value: tightMM, Low: 25, High: 70, Why: "swelling that feels tight"},
		{Name: "deepTightML", Unit: "mL", Value: deepTightML, Low: 2, High: 10, Why: "a deep leak feels tense from here, before it looks wide"},
		{Name: "soreML", Unit: "mL", Value: soreML, Low: 0.3, High: 3, Why: "fluid that is felt as sore"},
		{Name: "paleUnder", Unit: "1", Value: paleUnder, Low: 0.5, High: 0.85, Why: "share of blood flow under which light skin looks pale"},
		{Name: "coolUnder", Unit: "1", Value: coolUnder, Low: 0.4, High: 0.8, Why: "share under which skin feels cool"},
		{Name: "burnsUnder", Unit: "1", Value: burnsUnder, Low: 0.3, High: 0.7, Why: "share under which it stings"},
		{Name: "burnsFromML", Unit: "mL", Value: burnsFromML, Low: 0.05, High: 0.5, Why: "a smaller leak does not sting, however short of blood"},
		{Name: "slowUnder", Unit: "1", Value: slowUnder, Low: 0.5, High: 0.85, Why: "share under which refill is slow"},
		{Name: "reach", Unit: "1", Value: reach, Low: 1, High: 2.5, Why: "skin signs show once the spread is this many depths wide to each side"},
		{Name: "paleGain", Unit: "1", Value: paleGain, Low: 1, High: 2, Why: "how much wider than the swelling the pale skin is"},
		{Name: "paleEdge", Unit: "mm", Value: paleEdgeMM, Low: 0, High: 15, Why: "what is added to that"},
		{Name: "burnAfter", Unit: "min", Value: burnAfter / 60, Low: 5, High: 40, Why: "a hot pack on skin short of blood burns it in this time"},
		{Name: "flapHalf", Unit: "h", Value: FlapHalfH, Low: 8, High: 10, Published: true, Why: "warm ischaemia at which half of pig skin flaps are lost (\"Critical ischemia times and survival patterns of experimental pig flaps\", abstract); a teaching scale"},
		{Name: "flapPower", Unit: "1", Value: flapPower, Low: 4, High: 12, Why: "how steep that curve is; the surviving area is seen to fall after 6 h, which is read as 5 % lost"},
	}
}
