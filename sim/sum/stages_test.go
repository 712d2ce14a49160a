package sum

import (
	"strings"
	"testing"
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
			[]stage{{Wrong, false, "left out the 60"}, {Wrong, true, "stop and look"}, {Wrong, true, "stop and look"}}, false},
		{"miscomputed, set as computed", Attempt{"0.05 x 70 x 60 / 16", "14 mL/h", "14 mL/h"},
			[]stage{{Right, false, ""}, {Wrong, false, ""}, {Right, true, ""}}, false},
		{"set wrongly", Attempt{"0.05 x 70 x 60 / 16", "13.125 mL/h", "13 mL/h"},
			[]stage{{Right, false, ""}, {Right, false, ""}, {Wrong, false, "13.13 mL/h is set as 13.1 mL/h"}}, false},
		{"digits swapped on the pump", Attempt{"", "13.125 mL/h", "31.1 mL/h"},
			[]stage{{Right, false, ""}, {Wrong, false, "is set as 13.1 mL/h"}}, false},
		{"unit left out", Attempt{"", "13.125", "13.1 mL/h"},
			[]stage{{NoUnit, false, "unit is missing"}, {Right, false, ""}}, true},
		{"unreadable", Attempt{"0.05 mcg", "13.1 mL/h", ""},
			[]stage{{Unreadable, false, "numbers only"}, {Right, false, ""}}, true},
		{"right after a wrong start", Attempt{"0.05 x 80 x 60 / 16", "13.1 mL/h", "13.1 mL/h"},
			[]stage{{Wrong, false, ""}, {Wrong, true, "comes to 15 mL/h"}, {Right, false, ""}}, true},
	} {
		got, met := s.MarkStages(c.attempt)
		if len(got) != len(c.want) || met != c.met {
			t.Errorf("%s: %+v, met %v; want %+v, met %v", c.name, got, met, c.want, c.met)
			continue
		}
		for i, g := range got {
			w := c.want[i]
			if g.Verdict != w.verdict || g.Carried != w.carried || !strings.Contains(g.Said, w.says) || g.Verdict == Right && g.Said != "" {
				t.Errorf("%s: %s is %+v, want %+v", c.name, g.Stage, g, w)
			}
		}
	}
}
