package scenarios

import (
	"strings"
	"testing"

	"github.com/rivo/uniseg"
)

func TestRender(t *testing.T) {
	also := Pos{"c.yaml", 1, 1}
	for _, f := range []struct {
		name string
		c    Complaint
		src  string
		want string
	}{
		{
			"everything",
			Complaint{Error, "duplicate-key", Pos{"c.yaml", 2, 1}, `"a" is given twice`, "each once", "b", &also, Pos{}},
			"a: 1\na: 2\n",
			"c.yaml:2:1: error: \"a\" is given twice [duplicate-key]\n    a: 2\n    ^\n  did you mean \"b\"?\n  allowed: each once\n  the first stands at c.yaml:1:1",
		},
		{
			"a tab is four cells",
			Complaint{Level: Warning, Code: "x", Pos: Pos{"c.yaml", 1, 3}, Said: "s"},
			"a\tb",
			"c.yaml:1:3: warning: s [x]\n    a    b\n         ^",
		},
		{
			"a wide character is two",
			Complaint{Level: Note, Code: "x", Pos: Pos{"c.yaml", 1, 4}, Said: "s"},
			"a症例b",
			"c.yaml:1:4: note: s [x]\n    a症例b\n         ^",
		},
		{
			"a letter and its accent are one",
			Complaint{Level: Note, Code: "x", Pos: Pos{"c.yaml", 1, 4}, Said: "s"},
			"ae\u0301b",
			"c.yaml:1:4: note: s [x]\n    ae\u0301b\n      ^",
		},
		{
			"nothing that moves the cursor",
			Complaint{Level: Error, Code: "x", Pos: Pos{"c.yaml", 1, 2}, Said: "s"},
			"a\x1b[2J\u202eb",
			"c.yaml:1:2: error: s [x]\n    a?[2J?b\n     ^",
		},
		{
			"no such line",
			Complaint{Level: Error, Code: "x", Pos: Pos{"c.yaml", 9, 2}, Said: "s"},
			"a",
			"c.yaml:9:2: error: s [x]",
		},
	} {
		if got := Render(f.c, []byte(f.src)); got != f.want {
			t.Errorf("%s: got\n%s\nwant\n%s", f.name, got, f.want)
		}
	}
}

// The caret stays under its character when a long line is cut.
func TestRenderLongLine(t *testing.T) {
	src := strings.Repeat("症a", 400) + "X" + strings.Repeat("b", 400)
	got := strings.Split(Render(Complaint{Level: Error, Code: "x", Pos: Pos{"c", 1, 801}, Said: "s"}, []byte(src)), "\n")
	before, _, found := strings.Cut(got[1], "X")
	if !found || uniseg.StringWidth(before) != strings.Index(got[2], "^") || uniseg.StringWidth(got[1]) > 2*widest {
		t.Errorf("got\n%s\n%s", got[1], got[2])
	}
}

func TestNearest(t *testing.T) {
	fields := []string{"not met", "met", "can say it hurts", "diameter", "depth", "walk-throughs"}
	for word, want := range map[string]string{
		"not_met":          "not met",
		"Diametre":         "diameter",
		"walkthroughs":     "walk-throughs",
		"can say it hurst": "can say it hurts",
		"dept":             "depth",
		"colour":           "",
		"":                 "",
		"x":                "",
	} {
		if got := Nearest(word, fields); got != want {
			t.Errorf("Nearest(%q) is %q, want %q", word, got, want)
		}
	}
}
