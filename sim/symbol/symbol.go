// Package symbol is how the engine states its parameters: every number of
// the model stands in a table of symbols with unit, range and reason, and
// says whether it was published or assumed for teaching. An assumed value is
// never presented as clinical truth.
package symbol

// Symbol is one parameter of the model.
type Symbol struct {
	Name      string
	Unit      string // UCUM-like text, "1/min"
	Value     float64
	Low, High float64 // the range it could reasonably have
	Published bool    // false: assumed
	Why       string  // the source, or the reason for the assumption
}
