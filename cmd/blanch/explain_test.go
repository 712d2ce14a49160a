package main

import (
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"blanch/cmd/blanch/internal/trial"
	"blanch/content"
	"blanch/scenarios"
	"blanch/scoring"
	"blanch/sim"
)

// codesOf checks a file and gives the codes of the complaints, each once. A
// place lies beside a sound case that is played in it.
func codesOf(t *testing.T, kind, text string) map[string]scenarios.Level {
	t.Helper()
	c := newChecker()
	if kind == "place" {
		dir := t.TempDir()
		write(t, filepath.Join(dir, "tern-ward.yaml"), text)
		c.add(filepath.Join(dir, "beside.yaml"), []byte(readingCase(t)))
	} else if kind == "fragment" {
		c.add("leak-told.yaml", []byte(text))
		c.add("using.yaml", []byte(strings.Replace(scaffolded(t, "case", "using"), "\nrules:\n", "\nuses: [leak-told]\nrules:\n", 1)))
	} else {
		c.add("example.yaml", []byte(text))
	}
	c.check()
	codes := map[string]scenarios.Level{}
	for _, f := range c.complaints {
		codes[f.Code] = f.Level
	}
	return codes
}

// readingCase is a sound case in which nothing is done but reading, so that
// it can be played in a place that has nothing.
func readingCase(t *testing.T) string {
	t.Helper()
	before, rest, cut := strings.Cut(scaffolded(t, "case", "example"), "walk-throughs:\n")
	_, after, cutToo := strings.Cut(rest, "ends at:")
	if !cut || !cutToo {
		t.Fatal("the scaffold has changed")
	}
	return before + "walk-throughs:\n" +
		"  reads: {shows: One reads., passes: false, loses: [dose-within-order, watched], steps: [at 0 min: read the order]}\n" +
		"  waits: {shows: One waits., passes: false, loses: [dose-within-order, watched, order-first], steps: [at 0 min: read the notes]}\n" +
		"ends at:" + after
}

// everyNew are the notes that a file just begun has.
var everyNew = map[string]bool{"draft": true, "not-written-over": true}

// The failing example of each code brings that code and no other, at the
// level the table states; the mended one does not bring it, and unless it is
// a whole file in small it brings nothing but the notes of a file just begun.
func TestExamplesOfCodes(t *testing.T) {
	for _, code := range scenarios.Codes() {
		t.Run(code.Name, func(t *testing.T) {
			sound, err := content.Scaffold(code.In, map[string]string{"case": "new-case", "place": "tern-ward", "policy": "alder-court", "fragment": "leak-told", "items": "new-items"}[code.In])
			if code.In == "cohorts" { // nobody begins one of these from a scaffold
				var src []byte
				src, err = content.Calibration("cohorts.yaml")
				sound = string(src)
			}
			if err != nil {
				t.Fatal(err)
			}
			failing, ok := code.Apply(sound, code.Fails)
			if !ok {
				t.Fatal("the example fits no place, or several, of the sound file")
			}
			got := codesOf(t, code.In, failing)
			if code.Name == "wrong-file" { // only when a file is asked for by its kind
				_, out := scenarios.LoadCase("example.yaml", []byte(failing), scenarios.Fragments{})
				got = map[string]scenarios.Level{out[0].Code: out[0].Level}
			}
			if got[code.Name] != code.Level {
				t.Errorf("failing: got %v, want %s at level %s", got, code.Name, code.Level)
			}
			for other := range got {
				if other != code.Name && !everyNew[other] && !slices.Contains(code.With, other) {
					t.Errorf("failing: %s comes too", other)
				}
			}
			mended, _ := code.Apply(sound, code.Mended)
			after := codesOf(t, code.In, mended)
			if _, still := after[code.Name]; still {
				t.Errorf("mended: still %s", code.Name)
			}
			for other := range after {
				if !code.Whole && !everyNew[other] && !(slices.Contains(code.With, other) && code.In == "place") {
					t.Errorf("mended: %s", other)
				}
			}
		})
	}
}

func TestExplainEverything(t *testing.T) {
	var asked []string
	for _, c := range scenarios.Codes() {
		asked = append(asked, c.Name)
	}
	for _, kind := range scenarios.Kinds() {
		asked = append(asked, kind)
		for _, e := range scenarios.Entries(kind) {
			asked = append(asked, kind+"."+e.Path, kind+"."+strings.ReplaceAll(e.Path, "NAME", "left-arm"), kind+"."+strings.ReplaceAll(e.Path, ".NAME", ""))
		}
	}
	for _, f := range scoring.Facts() {
		asked = append(asked, "fact "+f.Name)
	}
	for _, s := range sim.Actions() {
		asked = append(asked, "action "+s.Name)
	}
	for _, c := range trial.Codes() {
		asked = append(asked, c.Name)
	}
	for _, role := range scoring.LineRoles() {
		asked = append(asked, role.Name)
	}
	asked = append(asked, "", "fact", "action", "skin", "gauges")
	for _, about := range asked {
		text, err := explain(about)
		if err != nil || strings.TrimSpace(text) == "" {
			t.Errorf("%q: %v", about, err)
		}
		for _, line := range strings.Split(text, "\n") {
			if strings.HasSuffix(line, " ") {
				t.Errorf("%q: a line ends in a space: %q", about, line)
			}
		}
		for _, r := range text {
			if r < ' ' && r != '\n' || r == 0x7f || r >= 0x202a && r <= 0x202e {
				t.Errorf("%q: %U could disturb a terminal", about, r)
			}
		}
	}
}

// A fact or an action is found by its name alone; what several things are
// called names them all.
func TestExplainWithoutTheWord(t *testing.T) {
	for about, want := range map[string]string{
		"insert":       `did("insert")`,
		"first_on":     `"second line"`,
		"second line":  "besides the first pressor line",
		"never-taken":  "What to do: ",
		"told":         "several things",
		"antidote_mg":  "antidote_mg -> mass",
		"leaking line": "found or not",
	} {
		if text, err := explain(about); err != nil || !strings.Contains(text, want) {
			t.Errorf("%q: %v, want %s in\n%s", about, err, want, text)
		}
	}
}

// A miss names what was likely meant.
func TestExplainMisses(t *testing.T) {
	for about, want := range map[string]string{
		"out-of-rnage":        `"out-of-range"`,
		"case.patient.wieght": `"patient.weight"`,
		"policy.check erly":   `"check early"`,
		"case.veins.depht":    `"veins.depth"`,
		"fact vissible":       `"visible"`,
		"action fel":          `"feel"`,
		"xyzzyplugh":          "lists what can be explained",
	} {
		if _, err := explain(about); err == nil || !strings.Contains(err.Error(), want) {
			t.Errorf("%q: got %v, want %s", about, err, want)
		}
	}
}
