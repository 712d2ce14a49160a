package scenarios

import "testing"

func TestExtent(t *testing.T) {
	for _, f := range []struct {
		line, said string
		column     int
		want       string // the stretch that is marked
	}{
		{"age: 6 y", `"age" is "6 y"`, 6, "6 y"},
		{"heart-rate: 108", `the patient has no field "heart-rate"`, 1, "heart-rate"},
		{`text: "a b" # c`, "it is wrong", 7, `"a b"`},
		{`text: "a b`, "it is not closed", 7, `"a b`},
		{`when: did("fell")`, `there is no action called "fell"`, 11, `"fell"`},
		{`when: polisy.check_early <= x`, `there is no fact called "polisy.check_early"`, 7, "polisy.check_early"},
		{`when: a <= b`, "<= does not go between", 9, "<"},
		{"症: 症状 x", `"症" is wrong`, 4, "症状"},
		{"cuff on:", "it ends", 20, ""},
	} {
		c := Complaint{Said: f.said, Pos: Pos{Line: 1, Column: f.column}}
		end := Extent(c, []byte(f.line))
		runes := []rune(f.line)
		got := ""
		if f.column <= len(runes) {
			got = string(runes[f.column-1 : end-1])
		}
		if got != f.want || end <= f.column {
			t.Errorf("%s at %d: ends at %d, marks %q, want %q", f.line, f.column, end, got, f.want)
		}
	}
}
