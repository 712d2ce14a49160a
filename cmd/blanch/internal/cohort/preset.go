package cohort

import (
	"math"

	"blanch/scenarios"
	"blanch/sim/portable"
	"blanch/sim/vein"
)

// Line is one sort of line in a mix.
type Line = scenarios.CohortLine

// Run is how long infusions last.
type Run = scenarios.CohortRun

// Preset is a population: the setting's hazards, its lines, its hours.
type Preset struct {
	vein.Setting
	Mix []Line
	Run Run
}

// Presets are the populations of the published cohorts.
//
// Lines. The papers name rules, not counts, so every mix is assumed within
// the rules of its cohort:
//
//   - routine (Tian 2020, seven studies in emergency and intensive care):
//     whatever drip was there, hand to elbow, placed by feel.
//   - protocol (Yerke 2024): 18 to 22 gauge, above the wrist and below the
//     fossa, tip and flush seen under ultrasound.
//   - strict (Cardenas-Garcia 2015): a vein of more than 4 mm under
//     ultrasound, upper arm, 18 or 20 gauge, no hand, wrist or fossa.
//   - difficult-access (Pandurangadu 2018): ultrasound in the upper arm. Its
//     groups are about 18, 34 and 34 of 86 by length in the vein: with 29
//     failures, all, 32.4 % and none of them, 11 of 34 is the only count near
//     a third that fits.
//
// Hours. Protocol: median 5.8 h; a sigma of 1.71 gives the published 20 % over
// 24 h, (ln 24 - ln 5.8) / 0.842 = 1.69; cut at 120 h the mean is 17.5 h, as
// 462 line-days in 635 patients say. Routine: the same shape with the
// published mean of 22 h (8 to 36), cut at 120 h, which a median of 8 h gives.
// Strict: mean 49 h, SD 22 h. Difficult access: each line watched for 48 h
// (assumed; with the base it fixes how many fail).
func Presets() []Preset {
	short, usual, long, longest := cannula(22, 25.4), cannula(20, 29.5), cannula(20, 47.8), cannula(20, 63.5)
	of := func(name string, run Run, mix ...Line) Preset {
		s, _ := vein.SettingNamed(name)
		return Preset{s, mix, run}
	}
	return []Preset{
		of("routine", Run{MedianH: 8, Sigma: 1.71, MostH: 120},
			Line{Share: 0.25, Kind: "dorsal-hand", Cannula: short, AngleDeg: 20},
			Line{Share: 0.10, Kind: "wrist-cephalic", Cannula: short, AngleDeg: 20},
			Line{Share: 0.35, Kind: "forearm-cephalic", Cannula: usual, AngleDeg: 25},
			Line{Share: 0.30, Kind: "median-cubital", Cannula: cannula(18, 29.5), AngleDeg: 25}),
		of("protocol", Run{MedianH: 5.8, Sigma: 1.71, MostH: 120},
			Line{Share: 0.55, Kind: "forearm-cephalic", Cannula: usual, AngleDeg: 30, Scan: true, LeastMM: 2},
			Line{Share: 0.20, Kind: "forearm-basilic", Cannula: usual, AngleDeg: 30, Scan: true, LeastMM: 2},
			Line{Share: 0.25, Kind: "forearm-cephalic", Cannula: long, AngleDeg: 30, Scan: true, LeastMM: 2}),
		of("strict", Run{MeanH: 49, SDH: 22},
			Line{Share: 0.60, Kind: "arm-basilic", Cannula: longest, AngleDeg: 45, Scan: true, LeastMM: 4, DeepestMM: 16},
			Line{Share: 0.40, Kind: "arm-cephalic", Cannula: long, AngleDeg: 40, Scan: true, LeastMM: 4}),
		of("difficult-access", Run{MeanH: 48, SDH: 0},
			Line{Share: 0.22, Kind: "arm-basilic", Cannula: short, AngleDeg: 45, Scan: true},
			Line{Share: 0.42, Kind: "arm-basilic", Cannula: long, AngleDeg: 35, Scan: true},
			Line{Share: 0.36, Kind: "arm-cephalic", Cannula: longest, AngleDeg: 45, Scan: true}),
	}
}

func cannula(gauge int, mm float64) vein.Cannula { return vein.Cannula{Gauge: gauge, LengthMM: mm} }

// PresetNamed is the preset of that name.
func PresetNamed(name string) (Preset, bool) {
	for _, p := range Presets() {
		if p.Name == name {
			return p, true
		}
	}
	return Preset{}, false
}

// hours is the length of an infusion from a standard normal draw.
func hours(d Run, z float64) float64 {
	median, sigma := d.MedianH, d.Sigma
	if d.MeanH > 0 {
		spread := portable.Log(1 + d.SDH*d.SDH/(d.MeanH*d.MeanH))
		sigma = math.Sqrt(spread)
		median = d.MeanH * portable.Exp(-spread/2)
	}
	h := median * portable.Exp(sigma*z)
	if d.MostH > 0 {
		h = min(h, d.MostH)
	}
	return h
}
