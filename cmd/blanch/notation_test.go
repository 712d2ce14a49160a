package main

import (
	"bytes"
	"io/fs"
	"os"
	"path/filepath"
	"regexp"
	"strings"
	"testing"

	"blanch/content"
	"blanch/scenarios"
	"blanch/scoring"
	"blanch/sim"
	"blanch/sim/quantity"
)

// noAmount is what holds digits and is no amount: what an amount is written
// like in a place where nobody can take it for a dose.
var noAmount = regexp.MustCompile(`^10\.[0-9]{4,}/` + // the identifier of an article
	`|^x[0-9]` + // the speed of a clock
	`|^u$` + // a key
	`|^[A-Z]+[0-9]+[a-z]?(-|$)` + // the row of a table, such as K10a
	`|^[0-9]+(st|nd|rd|th)$` +
	`|^[0-9]{2,}x[0-9]{2,}$`) // a size of screen

// unsafeIn gives the words of a text that could be misread at a bedside.
func unsafeIn(text string) []string {
	var found []string
	for _, word := range strings.Fields(text) {
		bare := strings.TrimRight(strings.Trim(word, "`,;:?!()[]{}'\"|*_<>"), ".")
		if noAmount.MatchString(bare) {
			continue
		}
		if why := quantity.Unsafe(bare); why != nil {
			found = append(found, word+": "+why[0])
		}
	}
	return found
}

// Nothing that the program can show uses notation that has harmed (Institute
// for Safe Medication Practices, list of error-prone abbreviations, symbols
// and dose designations): the text of every command, every explanation, every
// case with all that it can say, and every screen, sheet and other hour that a
// test holds. What the quiz and the sums print is scanned beside them.
func TestNothingShownIsUnsafe(t *testing.T) {
	scan := func(from, text string) {
		for _, word := range unsafeIn(text) {
			t.Errorf("%s shows %s", from, word)
		}
	}
	shown := func(args ...string) {
		var out, errs bytes.Buffer
		run(args, strings.NewReader(""), &out, &errs)
		if out.Len() == 0 {
			t.Errorf("%v shows nothing: %s", args, errs.String())
		}
		scan(strings.Join(args, " "), out.String())
	}
	for _, args := range [][]string{
		{"actions"}, {"cases"}, {"policies"}, {"policy", "diff", "alder-court", "quarry-lane"}, {"policy", "diff", "gannet-street", "saltmere"},
		{"policy", "diff", "marl-hill", "quarry-lane"}, {"sums"}, {"assumptions"}, {"calibration"}, {"explain"}, {"schema", "--page"}, {"help"}, {"help", "exit-codes"},
	} {
		shown(args...)
	}
	for _, cmd := range (&program{}).root().Commands() {
		shown("help", cmd.Name())
	}
	for _, id := range content.Cases() {
		shown("preview", id)
	}
	for _, f := range scoring.Facts() {
		text, _ := explain("fact " + f.Name)
		scan("explain fact "+f.Name, text)
	}
	for _, a := range sim.Actions() {
		text, _ := explain("action " + a.Name)
		scan("explain action "+a.Name, text)
	}
	for _, kind := range scenarios.Kinds() {
		for _, e := range scenarios.Entries(kind) {
			text, _ := explain(kind + "." + e.Path)
			scan("explain "+kind+"."+e.Path, text)
		}
	}
	files := 0
	for _, dir := range []string{"testdata/marks", "testdata/otherhours", "internal/ui/testdata/screens", "internal/picture/testdata"} {
		err := filepath.WalkDir(dir, func(path string, d fs.DirEntry, err error) error {
			if err != nil || d.IsDir() {
				return err
			}
			text, err := os.ReadFile(path)
			scan(path, string(text))
			files++
			return err
		})
		if err != nil {
			t.Error(err)
		}
	}
	if files < 150 {
		t.Errorf("only %d files were read", files)
	}
}

func TestUnsafeIsFound(t *testing.T) {
	for text, want := range map[string]int{
		"give 5.0 mg or .5 mg": 2, "16mcg/mL": 1, "20 U": 1, "5 \u03bcg": 1, "0.5 mg in 250 mL, at 2:30 and x60": 0,
		"Emerg Med J 10.1136/emermed-2023-213848": 0, "K10a": 0,
	} {
		if got := unsafeIn(text); len(got) != want {
			t.Errorf("%q: found %q, want %d", text, got, want)
		}
	}
}
