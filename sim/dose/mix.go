package dose

// Mix is drug added to a bag.
type Mix struct {
	AmountMcg float64 // drug added
	DrugML    float64 // volume the drug came in
	BagML     float64 // labelled volume of the bag
	Withdrawn bool    // DrugML was first taken out of the bag
}

// Nominal is the concentration written on the label, mcg/mL: the drug over
// the labelled volume of the bag, as drug labels themselves reckon.
func (m Mix) Nominal() float64 { return Concentration(m.AmountMcg, m.BagML) }

// True is the concentration the arm gets, mcg/mL: over all the fluid that is
// in the bag. Overfill by the maker is left out.
func (m Mix) True() float64 { return Concentration(m.AmountMcg, m.VolumeML()) }

// VolumeML is all the fluid in the bag.
func (m Mix) VolumeML() float64 {
	if m.Withdrawn {
		return m.BagML
	}
	return m.BagML + m.DrugML
}

// Concentration is mcg/mL of an amount in mcg in a volume in mL.
func Concentration(amountMcg, volumeML float64) float64 { return amountMcg / volumeML }
