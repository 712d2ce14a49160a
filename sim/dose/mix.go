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

// ImpliedConcentration is the mcg/mL at which a dose in mcg/min and a flow in
// mL/min are one and the same.
func ImpliedConcentration(doseMcgMin, flowMLMin float64) float64 { return doseMcgMin / flowMLMin }

// Added is the concentration after stockML of a stock has been added to
// diluentML of fluid, in the stock's own measure.
func Added(stock, stockML, diluentML float64) float64 {
	return stock * stockML / (stockML + diluentML)
}

// StockML is how many mL of a stock make finalML at the target concentration,
// both in one measure.
func StockML(stock, target, finalML float64) float64 { return target * finalML / stock }

// HoldingML is the mL that hold a wanted amount, where have lies in haveML;
// both amounts in one measure (mg, mcg, units, mEq).
func HoldingML(wanted, have, haveML float64) float64 { return wanted * haveML / have }

// SaltFromBase is the mass of salt that holds a mass of base, where ratio is
// the mass of salt to 1 of base.
func SaltFromBase(base, ratio float64) float64 { return float64(base * ratio) }

// BaseFromSalt is the mass of base in a mass of salt.
func BaseFromSalt(salt, ratio float64) float64 { return salt / ratio }
