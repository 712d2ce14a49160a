package quiz

import (
	"strings"
	"testing"

	"blanch/scenarios"
)

// Every condition that ships, and each form that one can have, is a sentence.
func TestConditionsAreSentences(t *testing.T) {
	for condition, want := range map[[2]string]string{
		{"change bag after", "at most 6 h"}:                            "where the policy asks that the bag is changed within 6 h",
		{"change bag after", "over 6 h"}:                               "where the policy lets a bag hang for more than 6 h",
		{"sites", "has no fossa"}:                                      "where the policy does not allow the crook of the elbow (fossa)",
		{"sites", "has wrist"}:                                         "where the policy allows the wrist",
		{"withdraw first", "is true"}:                                  "where the policy asks that the drug's volume is taken out of the bag first",
		{"blood return while running", "unsaid"}:                       "where the policy says nothing about it",
		{"highest concentration", "norepinephrine at least 64 mcg/mL"}: "where the policy sets the highest concentration of norepinephrine at 64 mcg/mL or more",
		{"highest concentration", "has no vasopressin"}:                "where the policy does not set a highest concentration for vasopressin",
		{"highest dose", "norepinephrine unsaid"}:                      "where the policy says nothing about norepinephrine",
		{"gauges", "has 22"}:                                           "where the policy allows a 22 gauge cannula",
		{"rate step", "over 0.1 mL/h"}:                                 "where the policy has pumps set by steps of more than 0.1 mL/h",
		{"second checks", "has no handover"}:                           "where the policy does not ask for a second check at each handover",
		{"line shared with", "is other-vasopressor"}:                   "where the policy lets another vasopressor into the line",
		{"antidote for", "has no leak"}:                                "where the policy keeps the antidote for some signs of a leak",
		{"antidote dose", "has 15 mg"}:                                 "where the policy allows 15 mg of the antidote",
		{"longest run", "otherwise"}:                                   "under any other policy",
		{"dosing weight", "is ideal"}:                                  "where the policy goes by the ideal weight",
		{"decide by", "at most 3 h"}:                                   "where the policy gives 3 h or less to decide what comes next",
	} {
		if got := when(condition[0], condition[1]); got != want {
			t.Errorf("%q:\ngot  %s\nwant %s", condition, got, want)
		}
	}
	all, err := Questions()
	if err != nil {
		t.Fatal(err)
	}
	n := 0
	check := func(limit, condition string) {
		n++
		said := when(limit, condition)
		if strings.Contains(said, "limit for") || strings.Contains(said, `"`) || strings.Contains(said, ":") || strings.Contains(said, "DRUG") || strings.HasSuffix(said, " under "+limit) {
			t.Errorf("%s, %s: %q", limit, condition, said)
		}
	}
	for _, task := range all {
		switch {
		case task.Single != nil:
			for _, o := range task.Single.Options {
				if o.When != "" {
					check(task.Single.Decides, o.When)
				}
			}
		case task.Order != nil:
			for _, step := range task.Order.Steps {
				if step.When != "" {
					check(task.Order.Decides, step.When)
				}
			}
		}
	}
	if n < 40 {
		t.Errorf("%d conditions ship", n)
	}
	for limit, words := range map[string][]string{"dosing weight": scenarios.DosingWeights, "line shared with": scenarios.SharedLines, "blood return while running": scenarios.BloodReturns} {
		for _, w := range words {
			if choices[limit][w] == "" {
				t.Errorf("%s: %q has no words", limit, w)
			}
		}
	}
	for _, w := range scenarios.SecondCheckMoments {
		if checked[w] == "" {
			t.Errorf("a second check %q has no words", w)
		}
	}
}
