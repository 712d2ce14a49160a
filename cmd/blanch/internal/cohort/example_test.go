package cohort_test

import (
	"fmt"

	"blanch/cmd/blanch/internal/cohort"
)

// A cohort is played from line to line and counted.
func Example() {
	p, known := cohort.PresetNamed("routine")
	tally := p.Infusions(1, 500)
	fmt.Println(known, tally.Patients, tally.LineHours > 0)
	// Output: true 500 true
}
