package scenarios

import (
	"fmt"
	"slices"
	"strings"
	"testing"
)

// What is unsafe is on the Joint Commission's official list of abbreviations
// that are not to be used, or on ISMP's list of error-prone ones; the safe
// forms are those that the same lists ask for. Years, ratios, section numbers
// and versions are not doses.
func TestUnsafeNotation(t *testing.T) {
	for text, bad := range map[string]bool{
		"give 5.0 mg": true, "give 5.0": true, "5.10 mg": true, "give 5.0.": true,
		"give 5 mg": false, "0.05 mcg/kg/min": false, "10 mL": false, "1.05 mg": false, "100 mg": false,
		"give .5 mg": true, ".5 mg": true, "over .25": true,
		"give 0.5 mg": false, "a full stop.Then": false, "e.g. 5 mg": false,
		"5 \u00b5g": true, "5 \u03bcg/min": true, "5 mcg": false,
		"20 U": true, "20U": true, "20 IU": true, "20 u": true, "20 units": false, "20 units/mL": false, "20 US wards": false,
		"5 ug": true, "5 cc": true,
		"5mg": true, "10mL": true, "30min": true, "4 mg": false, "4h": true,
		"1000 mL": true, "10000 units": true, "1,000 mL": false, "in 2015 a study": false,
		"S0736-4679": false, "Emerg Med J 10.1136/emermed-2023-213848": false, "35:550": false,
	} {
		r := newReader(nil)
		r.src, _ = newSource("x", []byte("x"), r.complain)
		r.where["item/stem"] = r.src.pos(1, 1)
		r.lintNotation("item", []placed{{"stem", text}})
		if got := len(r.complaints) > 0; got != bad {
			t.Errorf("%q: refused is %v, want %v: %+v", text, got, bad, r.complaints)
		}
	}
}

// Wordings that item-writing guides give as flaws, and the mended ones
// (National Board of Medical Examiners; Haladyna, Downing and Rodriguez 2002).
// The sentences are ours.
func TestWordingLint(t *testing.T) {
	option := func(texts ...string) []Option {
		var out []Option
		for i, s := range texts {
			out = append(out, Option{Says: s, Key: i == 0})
		}
		return out
	}
	for _, c := range []struct {
		stem, leadIn string
		options      []Option
		code         string // empty: nothing to warn of
	}{
		{"A line leaks.", "What comes first?", option("Stop the pump", "Call the doctor", "Warm the arm"), ""},
		{"A line leaks.", "All but one of these are done. Which is it", option("Ice", "Heat", "Rest"), "no-question"},
		{"A line leaks.", "Which is done, except in children?", option("Ice", "Heat", "Rest"), "negative-lead-in"},
		{"A line leaks.", "Which is the least likely cause?", option("Ice", "Heat", "Rest"), "negative-lead-in"},
		{"A line leaks.", "Which of the following statements is correct?", option("Ice helps", "Heat helps", "Rest helps"), "unfocused-lead-in"},
		{"A line leaks.", "Which correct dose is drawn up?", option("5 mg", "10 mg", "20 mg"), ""},
		{"A line leaks.", "What helps?", option("Ice", "Heat", "All of these"), "sum-of-options"},
		{"A line leaks.", "What helps?", option("Ice", "Heat", "None of the above"), "sum-of-options"},
		{"A line leaks.", "What helps?", option("Ice", "Heat", "Stopping all of the pumps"), ""},
		{"A line leaks.", "What helps?", option("Ice", "Heat", "It never stops"), "absolute-option"},
		{"A line leaks.", "What helps?", option("Ice", "Heat", "It frequently stops"), "vague-option"},
		{"A line leaks.", "What helps?", option("Ice on the arm, renewed every hour", "Heat", "Rest"), "long-key"},
		{"A line leaks.", "What helps?", option("Heat", "Ice on the arm, renewed every hour", "Rest"), ""}, // not the key
		{"A fistula is in the left arm.", "What is avoided?", option("The fistula", "The hand", "The elbow"), "word-only-in-key"},
		{"A fistula is in the left arm.", "What is avoided?", option("The fistula", "The hand", "The fistula's arm"), ""},
		{"A line leaks.", "How much?", option("5 mg", "20 mg", "10 mg"), "unordered-numbers"},
		{"A line leaks.", "How much?", option("20 mg", "10 mg", "5 mg"), ""},
		{"A line leaks.", "How much?", option("1,000 mL", "1,500 mL", "20,000 mL"), ""},
		{"A line leaks.", "How much?", option("5 mg", "20 mL", "10 mg"), ""}, // not of one unit
		{"A line leaks.", "Is the drug an?", option("Alpha blocker", "Opener", "Beta blocker"), "article-mismatch"},
		{"A line leaks.", "What helps?", option("The ice", "The heat", "The rest", "A splint"), "odd-beginning"},
		{"A line leaks.", "What helps?", option("The ice", "The heat", "The rest", "The splint"), ""},
		{"A line leaks.", "What helps?", option("Ice", "Heat.", "Rest"), "mixed-full-stops"},
	} {
		r := newReader(nil)
		r.src, _ = newSource("x", []byte("x"), r.complain)
		for _, path := range []string{"item/options", "item/lead-in"} {
			r.where[path] = r.src.pos(1, 1)
		}
		r.lintSingle("item", &SingleBest{Stem: c.stem, LeadIn: c.leadIn, Options: c.options})
		var got []string
		for _, said := range r.complaints {
			got = append(got, said.Code)
		}
		if c.code == "" && len(got) > 0 || c.code != "" && (len(got) != 1 || got[0] != c.code) {
			t.Errorf("%q, %+v: got %v, want %q", c.leadIn, c.options, got, c.code)
		}
	}
}

// Items as large as a file can hold are judged without going through every
// pair of their words or values.
func TestLargeItems(t *testing.T) {
	head := "format: 1\nitems: x\nunit: line\ntitle: X\nsingle best answer:\n  a:\n    objective: Choose\n    level: first\n    critical: false\n    sources: [Common practice]\n"
	words := strings.Repeat("saline pressor cannula ", 2500)
	long := head + "    stem: " + words + "\n    lead-in: " + words + "?\n    options:\n" +
		"      - {option: " + words + ", key: true, because: x}\n      - {option: Ice, because: x}\n      - {option: Heat, because: x}\n"
	many := head + "    policy decides: antidote volume\n    views: [{holds: x, by: x}, {holds: y, by: y}]\n    stem: x\n    lead-in: Which?\n    options:\n"
	for i := range 2500 {
		many += fmt.Sprintf("      - {option: a%d, right when: has %d mL, because: x}\n", i, i)
	}
	for text, code := range map[string]string{long: "word-only-in-key", many: "option-count"} {
		_, out := LoadItems("x.yaml", []byte(text))
		if !slices.ContainsFunc(out, func(c Complaint) bool { return c.Code == code }) {
			t.Errorf("%d bytes: %s is not said: %v", len(text), code, out)
		}
	}
}
