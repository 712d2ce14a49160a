package dose

import "math"

// RunOutH is the hours until volumeML has run at rateMLH.
func RunOutH(volumeML, rateMLH float64) float64 { return volumeML / rateMLH }

// DrugLastsH is the hours that amountMcg lasts at a dose in mcg/min.
func DrugLastsH(amountMcg, doseMcgMin float64) float64 { return amountMcg / doseMcgMin / 60 }

// VolumeML is what runs in some hours at rateMLH.
func VolumeML(rateMLH, hours float64) float64 { return float64(rateMLH * hours) }

// RateOver is the rate in mL/h that runs volumeML in some minutes.
func RateOver(volumeML, minutes float64) float64 { return volumeML * 60 / minutes }

// FlowMLMin is a rate in mL/h as mL/min.
func FlowMLMin(rateMLH float64) float64 { return rateMLH / 60 }

// FirstDrugMin is the minutes until drug reaches the tip of a line whose dead
// volume is filled with something else, at the total flow through it.
func FirstDrugMin(deadML, flowMLH float64) float64 { return deadML * 60 / flowMLH }

// FlushMcg is the bolus that a flush pushes in ahead of itself: what the dead
// volume holds.
func FlushMcg(deadML, concMcgML float64) float64 { return float64(deadML * concMcgML) }

// DropsMin is the drops a minute (gtt/min) of a rate in mL/h through a set
// that makes gttML drops of 1 mL. Round it to whole drops.
func DropsMin(rateMLH, gttML float64) float64 { return rateMLH * gttML / 60 }

// Vials is how many vials must be opened for an amount; both in one measure.
func Vials(amount, perVial float64) float64 {
	// A sum a hair over a whole number of vials does not open another.
	const slack = 1e-9
	return math.Ceil(amount/perVial - slack)
}
