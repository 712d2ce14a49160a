package sum

import (
	"strings"
	"testing"

	"blanch/sim/quantity"
)

func TestExpressionsAreWorkedOut(t *testing.T) {
	for text, want := range map[string]float64{
		"0.05 x 70 x 60 / 16":             13.125,
		"0.05*70*60/16":                   13.125,
		"(0.05 \u00d7 70 X 60) \u00f7 16": 13.125,
		"60/16*(0.05*70)":                 13.125,
		"250 / 12.5 - 0.5":                19.5,
		"2 + 3 x 4":                       14,
		"8/4/2":                           1,
		"((2))":                           2,
	} {
		if got, err := Evaluate(text); err != nil || got != want {
			t.Errorf("%s = %v (%v), want %v", text, got, err, want)
		}
	}
	for text, want := range map[string]string{
		"":                        "not finished",
		"0.05 x":                  "not finished",
		"0,05 x 70":               "comma",
		"0.05 mcg x 70":           "numbers only",
		"5 / 0":                   "divides by 0",
		"(5":                      "not closed",
		"5)":                      `")" cannot stand there`,
		"1.2.3":                   "more than one decimal point",
		"-5":                      "numbers only",
		strings.Repeat("(", 11):   "brackets inside each other",
		strings.Repeat("1+", 100): "characters long",
	} {
		if got, err := Evaluate(text); err == nil || !strings.Contains(err.Error(), want) {
			t.Errorf("%q = %v, %v; want it to say %q", text, got, err, want)
		}
	}
}

// Each stage is marked from what it had to start with: one slip counts once,
// and the whole sum stays wrong. A number that is ten times off is not carried
// on.
func TestStagesAreMarkedApart(t *testing.T) {
	s := rateOf(t) // 0.05 x 70 x 60 / 16 = 13.125 mL/h, set as 13.1
	type stage struct {
		verdict Verdict
		carried bool
		says    string
	}
	for _, c := range []struct {
		name    string
		attempt Attempt
		want    []stage
		met     bool
	}{
		{"all right", Attempt{"0.05 x 70 x 60 / 16", "13.125 mL/h", "13.1 mL/h"},
			[]stage{{Right, false, ""}, {Right, false, ""}, {Right, false, ""}}, true},
		{"only the device was asked", Attempt{Set: "13.1 mL/h"}, []stage{{Right, false, ""}}, true},
		{"weight misread, then right", Attempt{"0.05 x 80 x 60 / 16", "15 mL/h", "15 mL/h"},
			[]stage{{Wrong, false, ""}, {Right, true, ""}, {Right, true, ""}}, false},
		{"60 left out: not carried on", Attempt{"0.05 x 70 / 16", "0.22 mL/h", "0.2 mL/h"},
			[]stage{{Wrong, false, "0.05 x 70 / 16 comes to about 0.2188 mL/h: not right. Your number is 60 times too small: you have left out the 60"}, {Wrong, false, "0.22 mL/h follows from your set-up, and is wrong with it: 10 times or more away from what this order needs. Stop and look at such a number"}, {Wrong, false, "0.2 mL/h follows from the number before it"}}, false},
		{"miscomputed, set as computed", Attempt{"0.05 x 70 x 60 / 16", "14 mL/h", "14 mL/h"},
			[]stage{{Right, false, "comes to about 13.13 mL/h: right."}, {Wrong, false, "14 mL/h: not right. Your set-up was right: about 13.13 mL/h."}, {Right, true, "14 mL/h follows from the number before it, and is wrong with it."}}, false},
		{"set wrongly", Attempt{"0.05 x 70 x 60 / 16", "13.125 mL/h", "12 mL/h"},
			[]stage{{Right, false, ""}, {Right, false, ""}, {Wrong, false, "12 mL/h: not right. The number before it was right: about 13.13 mL/h."}}, false},
		{"cut off at the device", Attempt{"0.05 x 70 x 60 / 16", "13.125 mL/h", "13 mL/h"},
			[]stage{{Right, false, ""}, {Right, false, ""}, {Wrong, false, "You have rounded to whole numbers"}}, false},
		{"digits swapped on the pump", Attempt{"", "13.125 mL/h", "31.1 mL/h"},
			[]stage{{Right, false, ""}, {Wrong, false, "You have swapped two digits of 13.1 mL/h, in the answer."}}, false},
		{"unit left out", Attempt{"", "13.125", "13.1 mL/h"},
			[]stage{{NoUnit, false, "unit is missing"}, {Right, false, ""}}, true},
		{"unreadable", Attempt{"0.05 mcg", "13.1 mL/h", ""},
			[]stage{{Unreadable, false, "numbers only"}, {Right, false, ""}}, true},
		{"right after a wrong start", Attempt{"0.05 x 80 x 60 / 16", "13.1 mL/h", "13.1 mL/h"},
			[]stage{{Wrong, false, ""}, {Right, false, "13.1 mL/h is the right number, though your set-up does not lead to it."}, {Right, false, "13.1 mL/h: right."}}, true},
		{"put right at the device", Attempt{"0.05 x 70 x 60 / 16", "1.3 mL/h", "13.1 mL/h"},
			[]stage{{Right, false, ""}, {Wrong, false, "1.3 mL/h: not right"}, {Right, false, "13.1 mL/h is the right number, though the number before it does not lead to it."}}, true},
		{"1680 was never typed", Attempt{"0.05 x 70 x 60 x 16", "13.1 mL/h", ""},
			[]stage{{Wrong, false, "comes to 3360 mL/h: not right."}, {Right, false, "13.1 mL/h is the right number"}}, true},
		{"two slips", Attempt{"0.05 x 80 x 60 / 16", "20 mL/h", "21 mL/h"},
			[]stage{{Wrong, false, ""}, {Wrong, false, "20 mL/h: not right, and it does not follow from your set-up."}, {Wrong, false, "21 mL/h: not right, and it does not follow from the number before it."}}, false},
	} {
		got, met := s.MarkStages(c.attempt)
		if len(got) != len(c.want) || met != c.met {
			t.Errorf("%s: %+v, met %v; want %+v, met %v", c.name, got, met, c.want, c.met)
			continue
		}
		for i, g := range got {
			w := c.want[i]
			if g.Verdict != w.verdict || g.Carried != w.carried || !strings.Contains(g.Said, w.says) || g.Said == "" {
				t.Errorf("%s: %s is %+v, want %+v", c.name, g.Stage, g, w)
			}
		}
	}
}

// No stage tells anyone to set a wrong number, or says "not right" of the right
// one, whatever was typed before it.
func TestNoStageTellsAnyoneToSetAWrongNumber(t *testing.T) {
	s := rateOf(t)
	setUps := []string{"", "0.05 x 70 x 60 / 16", "0.05 x 80 x 60 / 16", "0.05 x 70 / 16", "3 x 3"}
	numbers := []string{"", "13.125 mL/h", "13.1 mL/h", "1.3 mL/h", "15 mL/h", "0.22 mL/h", "9 mL/h"}
	for _, up := range setUps {
		for _, computed := range numbers {
			for _, set := range numbers[1:] {
				stages, met := s.MarkStages(Attempt{up, computed, set})
				right := s.Mark(set).Verdict == Right
				if met != right {
					t.Errorf("%q, %q, %q: met is %v", up, computed, set, met)
				}
				for _, m := range stages {
					typed := map[Stage]string{SetUp: up, Compute: computed, SetDevice: set}[m.Stage]
					if !strings.HasPrefix(m.Said, typed) || strings.Contains(m.Said, "is set as") {
						t.Errorf("%q, %q, %q: %s says %q", up, computed, set, m.Stage, m.Said)
					}
					if m.Stage != SetUp && s.Mark(typed).Verdict == Right && strings.Contains(m.Said, "not right") {
						t.Errorf("%q, %q, %q: of the right number: %q", up, computed, set, m.Said)
					}
				}
			}
		}
	}
}

// The thousand that was forgotten in a sum as typed is told.
func TestSetUpIsDiagnosed(t *testing.T) {
	k, _ := Named("concentration")
	s, err := k.New(map[string]quantity.Quantity{"amount": quantity.Of(2, "mg"), "volume": quantity.Of(150, "mL")}, quantity.Unit{})
	if err != nil {
		t.Fatal(err)
	}
	stages, _ := s.MarkStages(Attempt{SetUp: "2/150"})
	if got := stages[0].Said; !strings.Contains(got, "1000 times too small: you have left out the 1000 mcg in 1 mg") {
		t.Error(got)
	}
}
