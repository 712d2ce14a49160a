package cohort

// byFeel are first sticks by landmark as in van Loon 2021 (610 patients): the
// veins that were chosen for each gauge had the published medians of 2.0, 2.6,
// 3.4, 4.3 and 4.8 mm. How many had which gauge and how much the veins varied
// is assumed. The published 92, 65 and 83 % overall mean that two in three lay
// under a ratio of 0.41; here it is nearer six in ten.
func byFeel() Preset {
	of := func(share float64, gauge int, mm, width, sd float64) Line {
		return Line{Share: share, Kind: "forearm-cephalic", Cannula: cannula(gauge, mm), AngleDeg: 25, WidthMM: width, WidthSD: sd}
	}
	p, _ := PresetNamed("routine")
	p.Mix = []Line{of(0.12, 22, 25.4, 2.0, 0.5), of(0.30, 20, 29.5, 2.6, 0.65), of(0.35, 18, 29.5, 3.4, 0.85), of(0.13, 16, 47.8, 4.3, 1.1), of(0.10, 14, 47.8, 4.8, 1.2)}
	return p
}

// byScan are first sticks under ultrasound in difficult access as in Witting
// 2010 (180 patients): 124 of the veins were 4 mm or wider, which a mean of
// 4.7 mm gives with the spread of the basilic vein, 1.4 mm.
func byScan() Preset {
	p, _ := PresetNamed("difficult-access")
	p.Mix = []Line{{Share: 1, Kind: "arm-basilic", Cannula: cannula(20, 47.8), AngleDeg: 35, Scan: true, WidthMM: 4.7, WidthSD: 1.4}}
	return p
}
