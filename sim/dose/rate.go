package dose

// Rate is the pump rate in mL/h that gives a dose in mcg/min from a bag of
// concentration mcg/mL.
func Rate(doseMcgMin, concMcgML float64) float64 { return doseMcgMin * 60 / concMcgML }

// RateHourly is the pump rate in mL/h for a dose in mcg/h.
func RateHourly(doseMcgH, concMcgML float64) float64 { return doseMcgH / concMcgML }

// RatePerKG is the flow in mL/kg/min that gives a dose in mcg/kg/min.
func RatePerKG(doseMcgKGMin, concMcgML float64) float64 { return doseMcgKGMin / concMcgML }

// Dose is the dose in mcg/min that a pump rate in mL/h gives.
func Dose(rateMLH, concMcgML float64) float64 { return rateMLH * concMcgML / 60 }

// DoseHourly is the dose in mcg/h that a pump rate in mL/h gives.
func DoseHourly(rateMLH, concMcgML float64) float64 { return float64(rateMLH * concMcgML) }

// PerMin is the dose in mcg/min of a dose in mcg/kg/min.
func PerMin(doseMcgKGMin, weightKG float64) float64 { return float64(doseMcgKGMin * weightKG) }

// PerKG is the dose in mcg/kg/min of a dose in mcg/min.
func PerKG(doseMcgMin, weightKG float64) float64 { return doseMcgMin / weightKG }

// Really is the dose given when the pump was told one concentration and the
// bag holds another; dose and answer in one unit.
func Really(programmed, toldConc, trueConc float64) float64 {
	return programmed * trueConc / toldConc
}

// Factor is how many times too large a value is.
func Factor(got, meant float64) float64 { return got / meant }
