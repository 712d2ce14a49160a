package dose

// RunOutH is the hours until volumeML has run at rateMLH.
func RunOutH(volumeML, rateMLH float64) float64 { return volumeML / rateMLH }

// FirstDrugMin is the minutes until drug reaches the tip of a line whose dead
// volume is filled with something else, at the total flow through it.
func FirstDrugMin(deadML, flowMLH float64) float64 { return deadML * 60 / flowMLH }
