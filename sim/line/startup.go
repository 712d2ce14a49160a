package line

import "blanch/sim/symbol"

const (
	// slackML is what a syringe and its drive take up before the plunger moves
	// fluid, unless it was purged (P: first fluid after 6.8 to 57.2 min at
	// 1 mL/h; Neff 2001, Paediatr Anaesth 11:561).
	slackML = 0.5
	// purgedML is what is left of it after a purge of 2 mL (P: 0.3 to 1.1 min
	// at 1 mL/h; the same).
	purgedML = 0.0117
	// silentLeak is the share of leaks at 100 mL/h or more during which a
	// pump at its most sensitive limit never alarms (P: 6 of 20 piglet limbs;
	// Hee 2002, Paediatr Anaesth 12:780).
	silentLeak = 0.3
	// pressesMLH is the flow from which a pump can notice a leak at all (A: the
	// study ran at 100 mL/h or more, and found fewer alarms the lower the flow).
	pressesMLH = 100.0
)

// Symbols states every parameter of this package.
func Symbols() []symbol.Symbol {
	return []symbol.Symbol{
		{Name: "slack", Unit: "mL", Value: slackML, Low: 0.11, High: 0.95, Published: true, Why: "slack of a syringe line that was not purged (Neff 2001)"},
		{Name: "purged", Unit: "mL", Value: purgedML, Low: 0.005, High: 0.018, Published: true, Why: "slack left after a purge of 2 mL (Neff 2001)"},
		{Name: "silentLeak", Unit: "1", Value: silentLeak, Low: 0.15, High: 0.52, Published: true, Why: "leaks at 100 mL/h or more without an alarm: 6 of 20 piglet limbs (Hee 2002, Paediatr Anaesth 12:780)"},
		{Name: "pressesFrom", Unit: "mL/h", Value: pressesMLH, Low: 50, High: 200, Why: "flow under which a pump never notices a leak; the study ran at 100 mL/h or more"},
	}
}

// StartUpMin is how long a syringe pump at mLH runs before fluid leaves the
// line, in minutes.
func StartUpMin(mLH float64, purged bool) float64 {
	slack := slackML
	if purged {
		slack = purgedML
	}
	return float64(slack*60) / mLH
}

// LeakNoticed is the chance that a pump alarms on a leak at mLH.
func LeakNoticed(mLH float64) float64 {
	if mLH < pressesMLH {
		return 0
	}
	return 1 - silentLeak
}
