package scenarios

import (
	"os"
	"strings"
	"testing"
)

// A walk-through that is like another differs from it where it says so and
// nowhere else.
func TestVariantsOfAWalk(t *testing.T) {
	src, err := os.ReadFile("testdata/short-case.yaml")
	if err != nil {
		t.Fatal(err)
	}
	text := strings.Replace(string(src), "ends at: 4 h", `  base:
    shows: All of it.
    passes: true
    steps:
      - at 0 min: read the order
      - then: read the notes
      - at 10 min: take the pressure
      - then: read the notes
      - at 20 min: take the pressure
  other:
    shows: With changes.
    passes: true
    like: base
    but:
      - instead of: read the notes
        do: [then: read the order, then: take the pressure]
      - {from: 15 min, to: 30 min}
  third:
    shows: A change of a change.
    passes: true
    like: other
    but: [{from: 5 min, to: 11 min, do: [at 6 min: read the notes]}]
ends at: 4 h`, 1)
	c, out := LoadCase("short-case.yaml", []byte(text), Fragments{})
	if c == nil {
		t.Fatalf("%+v", out)
	}
	said := map[string]string{}
	for _, w := range c.Walks {
		for _, s := range w.Steps {
			said[w.ID] += s.Said + "; "
		}
	}
	for id, want := range map[string]string{
		"base":  "read the order; read the notes; take the pressure; read the notes; take the pressure; ",
		"other": "read the order; read the order; take the pressure; take the pressure; read the order; take the pressure; ",
		"third": "read the order; read the order; take the pressure; read the notes; ",
	} {
		if said[id] != want {
			t.Errorf("%s does\n%s, want\n%s", id, said[id], want)
		}
	}
}
