package picture

// Describe says in sentences what Section draws, for those who hear the screen
// or have no room for the drawing.
func Describe(s Section) []string {
	mm := func(x float64) string { return number(x, 1) + " mm" }
	lies := "The vein lies " + mm(s.DepthMM) + " under the skin."
	at := "At " + number(s.AngleDeg, 0) + " degrees the "
	across := "The vein is " + mm(s.DiameterMM) + " across."
	if s.OuterMM > 0 && s.DiameterMM > 0 {
		across = "The vein is " + mm(s.DiameterMM) + " across and the cannula " + mm(s.OuterMM) +
			", " + number(s.OuterMM/s.DiameterMM, 2) + " of it."
	}
	if !(s.InVeinMM > 0) {
		return []string{
			lies,
			at + "way to it is " + mm(s.PathMM) + "; the cannula is " + mm(s.LengthMM) + " long and ends in tissue.",
			across,
		}
	}
	sentences := []string{
		lies,
		at + "cannula passes " + mm(s.PathMM) + " of tissue; " + mm(s.InVeinMM) + " of its " + mm(s.LengthMM) +
			" lie in the vein, " + s.percent() + ".",
		across,
	}
	if s.bends() {
		sentences = append(sentences, "The vein is straight for "+mm(s.StraightMM)+
			" from the puncture, and no more of the cannula can lie in it.")
	}
	return sentences
}
