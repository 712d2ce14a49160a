package sim

import "testing"

// What is reckoned for a learner is the key by which the answer is judged.
func TestReckonedIsTheKey(t *testing.T) {
	c := testCase()
	c.Ask = []Question{{ID: "rate", When: "hang", What: SumRate, Point: "mL/h"}, {ID: "conc", When: "mix", What: SumConcentration, Point: "mcg/mL"}}
	e := newEngine(t, c, luckySeed(t, 1))
	if _, ok := e.Reckoned("rate"); ok {
		t.Error("a sum that was not asked is reckoned")
	}
	follow(t, e, setUp)
	answers := e.Result().Answers
	if len(answers) != 2 {
		t.Fatalf("%d sums asked", len(answers))
	}
	for _, a := range answers {
		if got, ok := e.Reckoned(a.ID); !ok || got != a.Key {
			t.Errorf("%s: %s, want %s", a.ID, got, a.Key)
		}
	}
}
