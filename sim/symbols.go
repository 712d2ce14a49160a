package sim

import "blanch/sim/symbol"

// What acts at the line and the monitor are assumed to be like.
const (
	boreShare     = 0.7 // of a cannula's outer diameter
	bloodSound    = 0.9 // chance that blood comes back from a sound line
	bloodLeaking  = 0.5 // and from one that leaks
	bloodFrom     = 0.1 // share lost from which a line counts as leaking there
	flushS        = 20  // s that a flush by hand takes
	flushSwellsMM = 30.0
	rimML         = 0.5  // fluid around the vein that ultrasound shows
	cuffNoise     = 1.5  // mmHg, standard deviation
	checkLeast    = 0.99 // a second person lets pass what differs less from the order
	checkMost     = 1.01

	kinksAtJoint   = 0.7 // chance that a blockage is a kink
	kinksElsewhere = 0.2
	holeProximal   = 0.5 // chance that a failed puncture lies between tip and heart
)

// Symbols states every parameter of this package; those of the parts stand in
// their own tables.
func Symbols() []symbol.Symbol {
	teja := func(name string, v, low, high float64, what string) symbol.Symbol {
		return symbol.Symbol{Name: name, Unit: "1", Value: v, Low: low, High: high, Published: true, Why: what + " of central access for each placement (Teja 2024, JAMA Intern Med, doi 10.1001/jamainternmed.2023.8232, read in a summary)"}
	}
	return []symbol.Symbol{
		{Name: "usualRate", Unit: "1/min", Value: usualRate, Low: 80, High: 120, Why: "untreated heart rate of a patient whose case does not say"},
		{Name: "labelOff", Unit: "1", Value: labelOff, Low: 0.005, High: 0.05, Why: "how far a label may be from a second person's reckoning: more than rounding, less than any slip"},
		{Name: "poundsOver", Unit: "mm[Hg]", Value: poundsOver, Low: 95, High: 130, Why: "mean pressure as shown that a patient feels as a pounding head"},
		{Name: "usualPulse", Unit: "mm[Hg]", Value: usualPulse, Low: 30, High: 50, Why: "untreated pulse pressure of a patient whose case does not say"},
		{Name: "bore", Unit: "1", Value: boreShare, Low: 0.6, High: 0.85, Why: "inner over outer diameter of a cannula; a 20 gauge one holds under 0.1 mL, from memory"},
		{Name: "suddenLeaks", Unit: "1", Value: suddenLeaks, Low: 0.1, High: 0.6, Why: "share of leaks that are there at once; none was found published"},
		{Name: "leakOverLeast", Unit: "min", Value: leakOverLeast, Low: 1, High: 15, Why: "the others come on over at least this"},
		{Name: "leakOverMost", Unit: "min", Value: leakOverMost, Low: 20, High: 90, Why: "and at most this"},
		{Name: "leakShareLeast", Unit: "1", Value: leakShareLeast, Low: 0.1, High: 0.8, Why: "least share of the flow that a leak loses in the end; the most is all of it"},
		{Name: "squeeze", Unit: "s", Value: squeeze.Seconds(), Low: 15, High: 60, Why: "a cuff keeps the veins beyond it shut this long"},
		{Name: "pressML", Unit: "mL", Value: pressML, Low: 0.36, High: 0.84, Published: true, Why: "what a set takes up before the pump notices a blockage: 1.2 to 2.8 microL/mmHg at 300 mmHg (Snijder 2015, syringe pumps)"},
		{Name: "kinksAtJoint", Unit: "1", Value: kinksAtJoint, Low: 0.4, High: 0.9, Why: "chance that a blockage over a joint is a kink, which straightening undoes, and not a clot"},
		{Name: "kinksElsewhere", Unit: "1", Value: kinksElsewhere, Low: 0.05, High: 0.4, Why: "the same elsewhere"},
		{Name: "holeProximal", Unit: "1", Value: holeProximal, Low: 0.3, High: 0.7, Why: "chance that a failed puncture lies between the later tip and the heart"},
		{Name: "bloodSound", Unit: "1", Value: bloodSound, Low: 0.8, High: 0.98, Why: "chance that blood comes back from a sound line; the test is imperfect"},
		{Name: "bloodLeaking", Unit: "1", Value: bloodLeaking, Low: 0.2, High: 0.8, Why: "chance that it comes back from one that leaks"},
		{Name: "bloodFrom", Unit: "1", Value: bloodFrom, Low: 0.02, High: 0.3, Why: "share lost from which a line counts as leaking in that test"},
		{Name: "flushS", Unit: "s", Value: flushS, Low: 5, High: 60, Why: "a flush by hand takes this long (common practice)"},
		{Name: "flushSwellsMM", Unit: "mm", Value: flushSwellsMM, Low: 15, High: 50, Why: "swelling that is seen to grow under a flush"},
		{Name: "rimML", Unit: "mL", Value: rimML, Low: 0.2, High: 2, Why: "fluid around the vein that ultrasound shows"},
		{Name: "cuffNoise", Unit: "mm[Hg]", Value: cuffNoise, Low: 0, High: 5, Why: "standard deviation of a cuff's reading"},
		{Name: "checkLeast", Unit: "1", Value: checkLeast, Low: 0.95, High: 1, Why: "a second person lets pass a dose this near under the order"},
		{Name: "checkMost", Unit: "1", Value: checkMost, Low: 1, High: 1.05, Why: "and this near over it"},
		teja("centralFails", centralFails, 0.01, 0.04, "failure"),
		teja("centralArterial", centralArterial, 0.005, 0.03, "arterial puncture"),
		teja("centralPneumothorax", centralPneumothorax, 0.002, 0.01, "pneumothorax"),
	}
}
