package session

import (
	"slices"
	"testing"
)

func TestBegun(t *testing.T) {
	const set, mix = "set {pump} to {rate}", "mix {amount} of {drug} in {diluent}, {adding}"
	for _, test := range []struct {
		said, typed string
		whole       []string
		part        string
	}{
		{set, "set pump-1 to 19", []string{"pump-1"}, "19"},
		{set, "Set pump-1 to 19 mL/h", []string{"pump-1", "19 mL/h"}, ""},
		{set, "set pump-1 t", []string{"pump-1"}, ""},
		{set, "set pump-1", []string{"pump-1"}, ""},
		{set, "set pump 1 to 19 mL/h", nil, "pump 1"},
		{set, "set", nil, ""},
		{set, "rate 19", nil, ""},
		{mix, "mix 4 mg of nor", []string{"4 mg", "nor"}, ""},
		{mix, "mix 4 of norepinephrine in 250 mL", nil, "4"},
		{"write in the notes: {text}", "write in the notes: Site looked at, sound", nil, "Site looked at, sound"},
	} {
		if whole, part := Begun(test.said, test.typed); !slices.Equal(whole, test.whole) || part != test.part {
			t.Errorf("%q begun with %q: %q and %q, want %q and %q", test.said, test.typed, whole, part, test.whole, test.part)
		}
	}
}
