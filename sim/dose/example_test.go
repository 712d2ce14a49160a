package dose_test

import (
	"fmt"

	"blanch/sim/dose"
	"blanch/sim/quantity"
)

// The rate for 0.1 mcg/kg/min at 70 kg from 4 mg in 250 mL, on a pump that
// takes tenths, and what the arm gets when the 4 mL were added on top.
func Example() {
	m := dose.Mix{AmountMcg: 4000, DrugML: 4, BagML: 250}
	rate := quantity.Round(dose.Rate(dose.PerMin(0.1, 70), m.Nominal()), 0.1)
	given := quantity.Round(dose.Dose(rate, m.True())/70, 0.0001)
	fmt.Println(quantity.Of(rate, "mL/h"))
	fmt.Println(quantity.Of(given, "mcg/kg/min"))
	// Output:
	// 26.3 mL/h
	// 0.0986 mcg/kg/min
}
