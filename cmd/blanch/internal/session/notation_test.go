package session

import (
	"strings"
	"testing"
)

// TestUnsafeNotationIsTold before an act is done and, where it is typed whole,
// with it; what is safe goes without a word.
func TestUnsafeNotationIsTold(t *testing.T) {
	for typed, want := range map[string]string{
		"set pump-1 to 15 mL/h":                                     "",
		"set pump-1 to 15.0 mL/h":                                   "taken as 15 mL/h",
		"set pump-1 to .5 mL/h":                                     "taken as 0.5 mL/h",
		"set pump-1 to 5 cc/h":                                      "taken as 5 mL/h",
		"set pump-1 to 15.55 mL/h":                                  "steps of 0.1 mL/h: it will stand at 15.6 mL/h, not at 15.55 mL/h",
		"mix 4.0 mg of norepinephrine in 250 mL, adding to the bag": "taken as 4 mg",
	} {
		s := ward(t, 0)
		notes := strings.Join(s.Preview(typed).Notes, " ")
		if (notes != "") != (want != "") || !strings.Contains(notes, want) {
			t.Errorf("%q: %q, want %q", typed, notes, want)
		}
		if out := say(s, 0, typed); !strings.Contains(out, want) || want == "" && strings.Contains(out, "On notation") {
			t.Errorf("%q says\n%s", typed, out)
		}
	}
}

// TestAPumpRefusesNothing: what gives nothing is stopped.
func TestAPumpRefusesNothing(t *testing.T) {
	for _, rate := range []string{"0 mL/h", "0.04 mL/h"} {
		if why := ward(t, 0).Preview("set pump-1 to " + rate).Why; !strings.Contains(why, "stop pump-1") {
			t.Errorf("%s: %q", rate, why)
		}
	}
}
