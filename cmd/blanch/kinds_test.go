package main

import (
	"strings"
	"testing"

	"blanch/content"
	"blanch/scenarios"
)

// The commands about kinds of file name every kind that they take, and take
// every kind that they name.
func TestEveryKindIsNamed(t *testing.T) {
	check, _ := command("help", "check")
	for _, kind := range scenarios.Kinds() {
		if !strings.Contains(check, scenarios.Called(kind)) {
			t.Errorf("check does not say that it checks a %s", scenarios.Called(kind))
		}
		for _, args := range [][]string{{"schema", kind}, {"schema", "--page", kind}, {"explain", kind}} {
			if out, code := command(args...); code != exitFine || out == "" {
				t.Errorf("%q: exit code %d: %s", args, code, out)
			}
		}
	}
	for _, args := range [][]string{{"schema", "sonnet"}, {"new", "sonnet", "x"}} {
		kinds := scenarios.Kinds()
		if args[0] == "new" {
			kinds = content.Scaffolds()
		}
		if out, code := command(args...); code != exitUsage || !strings.Contains(out, "there are "+strings.Join(kinds, ", ")) {
			t.Errorf("%q: exit code %d: %s", args, code, out)
		}
	}
	if _, err := scenarios.Schema("sonnet"); err == nil || !strings.Contains(err.Error(), strings.Join(scenarios.Kinds(), ", ")) {
		t.Errorf("got %v", err)
	}
	if _, err := content.Scaffold("cohorts", "x"); err == nil || !strings.Contains(err.Error(), strings.Join(content.Scaffolds(), ", ")) || len(content.Scaffolds()) != 5 {
		t.Errorf("got %v", err)
	}
}
