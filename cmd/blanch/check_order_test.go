package main

import (
	"slices"
	"strings"
	"testing"
)

// A refused step is told before the marks that it cost, and both name the
// luck that the run was played under.
func TestRefusedStepStandsBeforeItsMarks(t *testing.T) {
	text := strings.Replace(scaffolded(t, "case", "example"), "      - then: start pump-1\n", "      - then: start pump-2\n", 1)
	c := newChecker()
	c.add("example.yaml", []byte(text))
	c.check()
	var codes []string
	for _, f := range c.complaints {
		codes = append(codes, f.Code)
		if !everyNew[f.Code] && !strings.Contains(f.Said, "(seed 1)") {
			t.Errorf("no luck is named: %s", f.Said)
		}
	}
	refused, differs := slices.Index(codes, "step-refused"), slices.Index(codes, "walk-through-differs")
	if refused < 0 || differs < refused {
		t.Errorf("in this order: %q", codes)
	}
}

func TestCheckOfNoFile(t *testing.T) {
	out, code := command("check", "alder-court")
	if code != exitUnreadable || !strings.Contains(out, "no file or folder of that name") || strings.Contains(out, "lstat") {
		t.Errorf("exit code %d: %s", code, out)
	}
}
