package main

import (
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"blanch/scenarios"
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
		case f.Level == scenarios.Error:
			t.Errorf("%s: %s", f.Pos.File, f.Said)
		}
	}
	if told != 1 {
		t.Errorf("the fault was told %d times", told)
	}
}

// A fragment that is found by one name and gives itself another is told of, and
// not called faulty.
func TestAFragmentOfAnotherName(t *testing.T) {
	dir := t.TempDir()
	write(t, filepath.Join(dir, "told.yaml"), scaffolded(t, "fragment", "tolled"))
	c := newChecker()
	c.add(filepath.Join(dir, "one.yaml"), []byte(strings.Replace(scaffolded(t, "case", "one"), "\nrules:\n", "\nuses: [told]\nrules:\n", 1)))
	c.check()
	var codes []string
	for _, f := range c.complaints {
		if f.Level == scenarios.Error {
			codes = append(codes, f.Code+" "+filepath.Base(f.Pos.File))
		}
	}
	if want := []string{"wrong-name told.yaml"}; !slices.Equal(codes, want) {
		t.Errorf("got %q, want %q", codes, want)
	}
}
