package fold

import (
	"slices"
	"testing"
)

func TestRows(t *testing.T) {
	for _, test := range []struct {
		lead, hang, text string
		width            int
		want             []string
	}{
		{"", "", "feel the arm", 20, []string{"feel the arm"}},
		{"", "", "feel  the\n arm", 8, []string{"feel the", "arm"}},
		{"- ", "  ", "feel the arm", 10, []string{"- feel the", "  arm"}},
		{"- ", "  ", "left-cephalic-forearm is felt", 10, []string{"- left-cephalic-forearm", "  is felt"}},
		{"  ", "  ", "feel left-cephalic-forearm", 10, []string{"  feel", "  left-cephalic-forearm"}},
		{"Why  ", "     ", "", 10, []string{"Why  "}},
		// Two columns each: four of them and a space are nine.
		{"", "", "手背 前腕", 9, []string{"手背 前腕"}},
		{"", "", "手背 前腕", 8, []string{"手背", "前腕"}},
		{"腕 ", "   ", "手背 前腕", 11, []string{"腕 手背", "   前腕"}},
		// A letter and its accent are one column.
		{"", "", "e\u0301te\u0301 u", 5, []string{"e\u0301te\u0301 u"}},
	} {
		if got := Rows(test.lead, test.hang, test.text, test.width); !slices.Equal(got, test.want) {
			t.Errorf("%q behind %q to %d: %q, want %q", test.text, test.lead, test.width, got, test.want)
		}
	}
}

func TestWordsAreKeptWhole(t *testing.T) {
	if got, want := Words("", "", []string{"set", "12 mL/h", "now"}, 9), []string{"set", "12 mL/h", "now"}; !slices.Equal(got, want) {
		t.Errorf("%q, want %q", got, want)
	}
	if got := Under("腕: "); got != "    " {
		t.Errorf("%q is not as wide as the lead", got)
	}
}
