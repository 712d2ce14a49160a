package main

import (
	"strings"
	"testing"
)

// A rule of a fragment is compiled with each case that uses it, and its fault
// is told once, in the fragment's own file.
func TestAFragmentsFaultIsToldOnce(t *testing.T) {
	c := newChecker()
	c.add("told.yaml", []byte(strings.Replace(scaffolded(t, "fragment", "told"), "recognised.known", "recognized.known", 1)))
	for _, id := range []string{"one", "two"} {
		c.add(id+".yaml", []byte(strings.Replace(scaffolded(t, "case", id), "\nrules:\n", "\nuses: [told]\nrules:\n", 1)))
	}
	c.check()
	told := 0
	for _, f := range c.complaints {
		switch {
		case f.Code == "unknown-fact" && f.Pos.File == "told.yaml" && f.Meant == "recognised":
			told++
		case f.Level == 1:
			t.Errorf("%s: %s", f.Pos.File, f.Said)
		}
	}
	if told != 1 {
		t.Errorf("the fault was told %d times", told)
	}
}
