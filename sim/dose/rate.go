package dose

// Rate is the pump rate in mL/h that gives a dose in mcg/min from a bag of
// concentration mcg/mL.
func Rate(doseMcgMin, concMcgML float64) float64 { return doseMcgMin * 60 / concMcgML }

// Dose is the dose in mcg/min that a pump rate in mL/h gives.
func Dose(rateMLH, concMcgML float64) float64 { return rateMLH * concMcgML / 60 }

// PerMin is the dose in mcg/min of a dose in mcg/kg/min.
func PerMin(doseMcgKGMin, weightKG float64) float64 { return float64(doseMcgKGMin * weightKG) }
