package drill_test

import (
	"fmt"

	"blanch/content/drill"
)

// A question about the end of a bag, the right answer and a wrong one.
func ExampleDrill_Draw() {
	d, _ := drill.Named("bag-end")
	q := d.Draw(7)
	for _, paragraph := range q.Stem {
		fmt.Println(paragraph)
	}
	fmt.Println(q.Sum.Mark(q.Sum.Answer().String()).Verdict)
	for _, slip := range q.Sum.Slips() {
		if slip.Name == "the rate over the volume" {
			wrong := q.Sum.Shown(slip)
			fmt.Println(wrong, "is", q.Sum.Mark(wrong.String()).Verdict)
			fmt.Println(q.Sum.Mark(wrong.String()).Diagnosis.Sentence())
		}
	}
	// Output:
	// As your shift begins 95 mL are left in the bag of norepinephrine, and the pump runs at 21.5 mL/h.
	// In how many hours is the bag empty? Answer in h, to the nearest 0.01 h; a half goes up.
	// right
	// 0.23 h is wrong
	// You have divided the rate by the volume, upside down, in step 1 (time for that volume).
}
