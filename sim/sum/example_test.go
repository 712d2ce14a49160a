package sum_test

import (
	"fmt"

	"blanch/sim/quantity"
	"blanch/sim/sum"
)

// The rate for 0.1 mcg/kg/min at 70 kg from 4 mg in 250 mL, and an answer that
// is sixty times too large.
func Example() {
	k, _ := sum.Named("rate")
	s, err := k.New(map[string]quantity.Quantity{
		"dose":   quantity.Of(0.1, "mcg/kg/min"),
		"weight": quantity.Of(70, "kg"),
		"amount": quantity.Of(4, "mg"),
		"volume": quantity.Of(250, "mL"),
	}, quantity.Unit{})
	if err != nil {
		fmt.Println(err)
		return
	}
	m := s.Mark("1575 mL/h")
	fmt.Println(m.Verdict)
	fmt.Println(m.Diagnosis.Sentence())
	for _, line := range s.Working() {
		fmt.Println(line)
	}
	// Output:
	// wrong
	// Your number is 60 times too large: you have multiplied by 60 twice, in step 4 (dose in an hour).
	// 1. drug in the bag: 4 mg x 1000 mcg/mg = 4000 mcg
	// 2. concentration: 4000 mcg / 250 mL = 16 mcg/mL
	// 3. dose of the whole patient: 0.1 mcg/kg/min x 70 kg = 7 mcg/min
	// 4. dose in an hour: 7 mcg/min x 60 min/h = 420 mcg/h
	// 5. rate: 420 mcg/h / (16 mcg/mL) = 26.25 mL/h
	// 6. set the pump: 26.25 mL/h, rounded half up to 0.1: 26.3 mL/h
}
