package sim

import (
	"testing"

	"blanch/sim/quantity"
)

// A sum is worked with another weight where a policy doses by one, and what
// has no inputs, or cannot be worked, is nothing.
func TestASumIsWorkedWithTheWeightOfThePolicy(t *testing.T) {
	a := AnswerRecord{Key: quantity.Of(13.125, "mL/h"), From: &Inputs{Kind: "rate", Given: map[string]quantity.Quantity{
		"dose": quantity.Of(0.05, "mcg/kg/min"), "weight": quantity.Of(70, "kg"), "concentration": quantity.Of(16, "mcg/mL"),
	}}}
	for kg, want := range map[float64]float64{0: 13.125, 60: 11.25} {
		if got := a.Worked(kg).Key(); got != quantity.Of(want, "mL/h") {
			t.Errorf("with %v kg: %s, want %v mL/h", kg, got, want)
		}
	}
	if a.From.Given["weight"] != quantity.Of(70, "kg") {
		t.Error("the record was changed")
	}
	stopped := AnswerRecord{Key: quantity.Of(0, "h"), From: &Inputs{Kind: "run_out", Given: map[string]quantity.Quantity{
		"volume": quantity.Of(250, "mL"), "rate": quantity.Of(0, "mL/h"),
	}}}
	if stopped.Worked(0) != nil || (AnswerRecord{}).Worked(0) != nil {
		t.Error("a sum without an answer was worked")
	}
}

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
