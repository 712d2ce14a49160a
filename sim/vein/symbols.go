package vein

import (
	"fmt"

	"blanch/sim/symbol"
)

// Symbols states every parameter of this package.
func Symbols() []symbol.Symbol {
	out := []symbol.Symbol{
		{Name: "ratioPer5", Unit: "1", Value: RatioPer5, Low: 0.60, High: 0.83, Published: true, Why: "hazard ratio of failure of any kind for each further 5 points of share in the vein (Pandurangadu 2018, Emerg Med J 35:550)"},
		{Name: "leastStudied", Unit: "1", Value: leastStudied, Low: 0.05, High: 0.3, Why: "share in the vein under which the hazard is held; the ratio was seen above about it"},
		{Name: "mostStudied", Unit: "1", Value: mostStudied, Low: 0.8, High: 1, Why: "share over which the hazard is held; the ratio was seen below about it"},
		{Name: "referenceShare", Unit: "1", Value: referenceShare, Low: 0.5, High: 0.8, Why: "share at which a setting's base hazards are stated; the middle of what was studied"},
		{Name: "perPuncture", Unit: "1", Value: perPuncture, Low: 1, High: 3, Why: "factor of each earlier puncture of the vein on leaking; no rate was found"},
		{Name: "proximalHole", Unit: "1", Value: proximalHole, Low: 1.2, High: 4, Why: "factor of a failed puncture between tip and heart on leaking; no rate was found"},
		{Name: "distalHole", Unit: "1", Value: distalHole, Low: 1, High: 1.5, Why: "factor of a failed puncture on the hand's side of the tip on leaking"},
		{Name: "cuffOn", Unit: "1", Value: cuffOn, Low: 1, High: 2, Why: "factor of a cuff that cycles on the same arm, on leaking and occlusion"},
		{Name: "tourniquetOn", Unit: "1", Value: tourniquetOn, Low: 1.5, High: 6, Why: "factor of a tourniquet left on, on leaking"},
		{Name: "restless", Unit: "1", Value: restless, Low: 1, High: 3, Why: "factor of restlessness on leaking and occlusion"},
		{Name: "restlessPull", Unit: "1", Value: restlessPull, Low: 1.5, High: 6, Why: "factor of restlessness on the cannula being pulled out"},

		{Name: "feelMiddle", Unit: "1", Value: feelMiddle, Low: 0.5, High: 0.7, Published: true, Why: "cannula-to-vein ratio at which half of the first sticks by feel succeed; with feelSlope through 92 % below and 65 % above 0.41, 610 patients (van Loon 2021, PLoS One)"},
		{Name: "feelSlope", Unit: "1", Value: feelSlope, Low: 6, High: 12, Published: true, Why: "how steeply that falls with the ratio (van Loon 2021, each group read at its middle: 0.32 and 0.52)"},
		{Name: "feelDepth", Unit: "mm", Value: feelDepth, Low: 3, High: 10, Why: "a deeper vein cannot be felt well"},
		{Name: "feelFade", Unit: "mm", Value: feelFade, Low: 2, High: 8, Why: "further depth over which success by feel falls by a factor e"},
		{Name: "scanMiddle", Unit: "mm", Value: scanMiddle, Low: 3.2, High: 4.5, Published: true, Why: "diameter at which half of the first sticks under ultrasound succeed in difficult access; with scanSlope through 39 % under and 63 % at or over 4 mm, 180 patients (Witting 2010, J Emerg Med)"},
		{Name: "scanSlope", Unit: "1/mm", Value: scanSlope, Low: 0.3, High: 0.8, Published: true, Why: "how steeply that rises with the diameter (Witting 2010, groups read at 3.0 and 4.8 mm)"},
		{Name: "scanEasier", Unit: "1", Value: scanEasier, Low: 0.5, High: 2, Why: "what an arm not known to be difficult gains on the logit"},
		{Name: "leastInVein", Unit: "mm", Value: leastInVeinMM, Low: 1, High: 5, Why: "a cannula with less of it in the vein does not work"},
		{Name: "backWallFrom", Unit: "deg", Value: backWallFrom, Low: 20, High: 45, Why: "angle over which a stick can go through the far wall"},
		{Name: "backWallPer", Unit: "1/deg", Value: backWallPer, Low: 0.001, High: 0.01, Why: "chance of that for each further degree in a vein as wide as backWallAt"},
		{Name: "backWallAt", Unit: "mm", Value: backWallAtMM, Low: 2, High: 4, Why: "width under a tourniquet at which that chance is stated; it falls with the width"},
		{Name: "backWallMost", Unit: "1", Value: backWallMost, Low: 0.3, High: 0.8, Why: "the most that chance can be"},
		{Name: "tourniquetGain", Unit: "1", Value: TourniquetGain, Low: 0.05, High: 0.3, Published: true, Why: "how much wider a vein is under a tourniquet: basilic about 14 % (Mahler 2011); wrist cephalic area +30 % under a 25 mmHg cuff (Mollison, Can J Anaesth)"},
	}
	for _, g := range []int{14, 16, 18, 20, 22, 24, 26} {
		d := OuterMM(g)
		out = append(out, symbol.Symbol{Name: fmt.Sprintf("outer %d gauge", g), Unit: "mm", Value: d, Low: d - 0.1, High: d + 0.1, Published: true, Why: "outer diameter, the middle of what ISO 10555-5 allows for that colour (ranges from memory)"})
	}
	const moves = "factor for movement of the part; injuries are reported mostly distally, but no rate by site is published"
	for _, site := range Sites() {
		f := bySite[site]
		for _, row := range []struct {
			what  string
			value float64
		}{{"leak", f.Leak}, {"occlusion", f.Occlusion}, {"phlebitis", f.Phlebitis}, {"dislodging", f.Dislodging}} {
			out = append(out, symbol.Symbol{Name: fmt.Sprintf("%s at %s", row.what, site), Unit: "1", Value: row.value, Low: row.value / 2, High: float64(row.value * 2), Why: moves})
		}
	}
	for _, k := range Kinds() {
		// A kind says in words where its sizes come from and whether they are assumed.
		published := k.DiameterFrom == duplex
		out = append(out,
			symbol.Symbol{Name: k.Name + " diameter", Unit: "mm", Value: k.DiameterMM, Low: k.Least, High: k.Most, Published: published, Why: k.DiameterFrom},
			symbol.Symbol{Name: k.Name + " least", Unit: "mm", Value: k.Least, Low: float64(k.Least * 0.8), High: k.DiameterMM, Published: published, Why: "narrowest that is drawn; " + k.DiameterFrom},
			symbol.Symbol{Name: k.Name + " most", Unit: "mm", Value: k.Most, Low: k.DiameterMM, High: float64(k.Most * 1.2), Published: published, Why: "widest that is drawn; " + k.DiameterFrom},
			symbol.Symbol{Name: k.Name + " diameter SD", Unit: "mm", Value: k.SD, Low: k.SD / 2, High: float64(k.SD * 1.5), Published: published, Why: k.DiameterFrom},
			symbol.Symbol{Name: k.Name + " depth", Unit: "mm", Value: k.DepthMM, Low: k.DepthMM / 2, High: float64(k.DepthMM * 2), Why: k.DepthFrom},
			symbol.Symbol{Name: k.Name + " depth SD", Unit: "mm", Value: k.DepthSD, Low: k.DepthSD / 2, High: float64(k.DepthSD * 2), Why: k.DepthFrom},
			symbol.Symbol{Name: k.Name + " straight", Unit: "mm", Value: k.Straight, Low: k.Straight / 2, High: float64(k.Straight * 1.5), Why: "usable straight length; no study was found"},
		)
	}
	for _, each := range Settings() {
		const why = "19 to 25 % of ordinary peripheral cannulae fail in some way (Ultrasound J 2019 11:27), read as within about three days"
		b := each.Base
		out = append(out,
			symbol.Symbol{Name: each.Name + " Leak", Unit: "1/h", Value: b.Leak, Low: b.Leak * 2 / 3, High: float64(b.Leak * 1.4), Published: true, Why: "base hazard of leaking at the reference share, derived from " + each.Why},
			symbol.Symbol{Name: each.Name + " Occlusion", Unit: "1/h", Value: b.Occlusion, Low: b.Occlusion / 2, High: float64(b.Occlusion * 2), Why: "base hazard of a blockage; " + why},
			symbol.Symbol{Name: each.Name + " Phlebitis", Unit: "1/h", Value: b.Phlebitis, Low: b.Phlebitis / 2, High: float64(b.Phlebitis * 2), Why: "base hazard of an inflamed vein; " + why},
			symbol.Symbol{Name: each.Name + " Dislodging", Unit: "1/h", Value: b.Dislodging, Low: b.Dislodging / 2, High: float64(b.Dislodging * 2), Why: "base hazard of slipping out; " + why},
		)
	}
	return out
}
