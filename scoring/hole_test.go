package scoring

import (
	"testing"
)

func TestHolesAreFilledFromTheRun(t *testing.T) {
	for source, want := range map[string]string{
		"{main_line.share_in_vein} of the cannula lay in the vein.":                            "81 % of the cannula lay in the vein.",
		"Found {found(\"leak\") - visible(\"leak\")} after it could be, at {found(\"leak\")}.": "Found 25 min after it could be, at 1:40.",
		"Pulled: {first(\"pull\")}.":       "Pulled: never.",
		"{{braces}} and {count(\"feel\")}": "{braces} and 2",
		"{drug_free}{policy.check_early}":  "1 min 30 s15 min",
		"over {\n  drug_free\n} lines":     "over 1 min 30 s lines",
		"no holes":                         "no holes",
		"":                                 "",
		"Ischaemic for {outcome.ischaemic_time}.": "Ischaemic for 40 min.",
	} {
		p, faults := compileProse(referenceCase(), testPolicy(), exactText(source))
		if len(faults) > 0 {
			t.Errorf("%q: %s", source, faults[0].Said)
			continue
		}
		if got := p.of(&record{Result: testRun(), policy: testPolicy()}).write(); got != want {
			t.Errorf("%q is written %q, want %q", source, got, want)
		}
	}
}

func TestFaultsInHoles(t *testing.T) {
	for _, tc := range []struct {
		source       string
		code         string
		line, column int
	}{
		{"{stert} is when", "unknown-fact", 7, 12},
		{"The dose: {highest_dos}", "unknown-fact", 7, 22},
		{"Größe → {highest_dos}", "unknown-fact", 7, 20}, // columns count characters
		{"one line\nand {did(\"fell\")}", "unknown-name", 8, 20},
		{"one line\nand {\n  stert}", "unknown-fact", 9, 13},
		{"{start} and {start + start}", "unlike-kinds", 7, 30},
		{"{}", "empty-expression", 7, 12},
		{"an { open brace", "brace", 7, 14},
		{"a } closing one", "brace", 7, 13},
		{"{ {start} }", "operator-refused", 7, 13},
	} {
		_, faults := compileProse(referenceCase(), testPolicy(), exactText(tc.source))
		if len(faults) == 0 {
			t.Errorf("%q passed", tc.source)
			continue
		}
		f := faults[0]
		if f.Code != tc.code || f.Pos.Line != tc.line || f.Pos.Column != tc.column {
			t.Errorf("%q: %s at %d:%d (%s), want %s at %d:%d", tc.source, f.Code, f.Pos.Line, f.Pos.Column, f.Said, tc.code, tc.line, tc.column)
		}
	}
}
