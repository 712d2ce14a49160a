package scenarios

import (
	"os"
	"reflect"
	"strings"
	"testing"

	"blanch/sim"
	"blanch/sim/quantity"
	"blanch/sim/vein"
)

func goodCase(t *testing.T) *Case {
	t.Helper()
	src, err := os.ReadFile("testdata/good-case.yaml")
	if err != nil {
		t.Fatal(err)
	}
	c, out := LoadCase("good-case.yaml", src, Fragments{})
	if c == nil {
		t.Fatal(out)
	}
	return c
}

// What stands in the file is what the engine gets. The weight is 141 lb at
// the 2.2 lb to the kg of teaching (OpenStax Pharmacology for Nurses).
func TestCaseValues(t *testing.T) {
	c := goodCase(t)
	if c.Patient.WeightKG < 64.0909 || c.Patient.WeightKG > 64.0910 {
		t.Errorf("weight %v kg, want 141 / 2.2", c.Patient.WeightKG)
	}
	for _, f := range []struct {
		what      string
		got, want any
	}{
		{"minutes", c.Minutes, 20.0},
		{"severity", c.Patient.SAPS2, 46.0},
		{"course", c.Patient.Untreated, []sim.Point{{At: 0, MmHg: 52}, {At: 90 * sim.Minute, MmHg: 55}, {At: 4 * sim.Hour, MmHg: 50}}},
		{"tells", c.Patient.Tells, true},
		{"says after", c.Patient.SaysAfter, 10 * sim.Minute},
		{"arms", c.Patient.Arms, map[sim.Side]string{sim.Right: "A plaster over two failed punctures on the back of the hand."}},
		{"start", c.Order.Start, quantity.Of(0.05, "mcg/kg/min")},
		{"target", c.Order.TargetMmHg, 65.0},
		{"ceiling", c.Order.CeilMmHg, 80.0},
		{"first vein", c.Veins[0].ID, "left-cephalic-forearm"},
		{"second vein", c.Veins[1].Vein, vein.Vein{Site: vein.Hand, DiameterMM: 2.1, DepthMM: 2, StraightMM: 25, Punctures: 2}},
		{"line in place", c.InPlace, []sim.InPlace{{Vein: "right-dorsal-hand", Cannula: vein.Cannula{Gauge: 22, LengthMM: 25.4}, AngleDeg: 20}}},
		{"away", c.Away, []sim.Absence{{Person: "doctor", Until: 30 * sim.Minute, Heard: "In the emergency room; back at half past."}}},
		{"relief", c.Relief, 3 * sim.Hour},
		{"cuff", c.CuffArm, sim.Right},
		{"leak", c.Leak, sim.Fate{Kind: sim.Placed, Begins: 75 * sim.Minute, Over: 20 * sim.Minute, Fraction: 0.6}},
		{"call", c.Calls[0].Patience, 5 * sim.Minute},
		{"happening", c.Planned[2], sim.Happening{At: 2 * sim.Hour, Text: "She pulls her sleeve down.", Does: sim.Covers, Line: "left-cephalic-forearm"}},
		{"unit by default", c.Ask[0].Point, "mL/h"},
		{"unit as given", c.Ask[1].Point, "min"},
		{"points", c.Rules[1].Points, 2.5},
		{"critical", c.Rules[2].Critical, true},
		{"pass mark", c.PassPoints, 0.8},
		{"seed", c.Walks[0].Seed, uint64(7)},
		{"seed by default", c.Walks[1].Seed, uint64(1)},
		{"policy by default", c.Walks[1].Policy, "alder-court"},
		{"loses", c.Walks[2].Loses, []string{"two-thirds"}},
		{"ends", c.Ends, 4 * sim.Hour},
	} {
		if !reflect.DeepEqual(f.got, f.want) {
			t.Errorf("%s: got %v, want %v", f.what, f.got, f.want)
		}
	}
}

// An unquoted step is a group of one field to YAML; both ways give the same
// step, and both know where the sentence begins.
func TestStepsQuotedOrNot(t *testing.T) {
	steps := goodCase(t).Walks[0].Steps
	lines := strings.Split(string(goodCase(t).Source), "\n")
	want := []Step{
		{When: AtTime, Said: "read the order"},
		{When: Then, Said: "choose left-cephalic-forearm with 20 gauge 48 mm at 40 degrees"},
		{When: Then, Said: "insert the cannula under ultrasound"},
		{When: After, At: 5 * sim.Minute, Said: "feel around left-cephalic-forearm"},
		{When: AtTime, At: 20 * sim.Minute, Said: "ask second-nurse to feel around left-cephalic-forearm"},
		{When: After, At: 30 * sim.Second},
		{When: AtTime, At: 51 * sim.Minute, Said: "answer bed-4"},
		{When: AtTime, At: 80 * sim.Minute, Said: "write in the notes: arm cool above the site"},
	}
	if len(steps) != len(want) {
		t.Fatalf("%d steps, want %d", len(steps), len(want))
	}
	for i, s := range steps {
		if s.When != want[i].When || s.At != want[i].At || s.Said != want[i].Said {
			t.Errorf("step %d: got %+v, want %+v", i, s, want[i])
		}
		if s.Said != "" && !strings.HasPrefix(lines[s.SaidAt.Line-1][s.SaidAt.Column-1:], s.Said) {
			t.Errorf("step %d: its sentence is not at %s", i, s.SaidAt)
		}
	}
}

// A character of a rule is found in the file at the place that At gives, in
// each style that keeps its place.
func TestTextPlaces(t *testing.T) {
	src, err := os.ReadFile("testdata/short-case.yaml")
	if err != nil {
		t.Fatal(err)
	}
	for name, f := range map[string]struct {
		written      string
		line, column int // in the rule
		lines        int // below that of "when"
		want         int // column in the file
	}{
		"plain":               {"a >= b", 1, 5, 0, 16},
		"single quotes":       {"'a >= b'", 1, 5, 0, 17},
		"double quotes":       {`"a >= b"`, 1, 5, 0, 17},
		"wide character":      {`"'症' >= b"`, 1, 7, 0, 19},
		"literal":             {"|\n      a\n        >= b", 2, 5, 2, 12},
		"literal, more space": {"|2\n        a >= b", 1, 7, 1, 14},
	} {
		text := strings.Replace(string(src), "line.share_in_vein >= policy.least_share", f.written, 1)
		c, out := LoadCase("f.yaml", []byte(text), Fragments{})
		if c == nil {
			t.Errorf("%s: %v", name, out)
			continue
		}
		at := c.Rules[0].When.At(f.line, f.column)
		line := []rune(strings.Split(text, "\n")[at.Line-1])
		if at.Line != 41+f.lines || at.Column != f.want || line[at.Column-1] != 'b' {
			t.Errorf("%s: at %s, where %q stands; want line %d column %d", name, at, string(line[at.Column-1:]), 41+f.lines, f.want)
		}
	}
}

func TestLimits(t *testing.T) {
	head := "format: 1\ncase: x\n"
	for name, f := range map[string]struct{ src, code string }{
		"bytes":              {strings.Repeat("#", MaxBytes+1), "too-large"},
		"values":             {head + "sources: [" + strings.Repeat("a,", maxNodes) + "a]\n", "too-many-values"},
		"depth":              {head + "sources: " + strings.Repeat("[", maxDepth+1) + strings.Repeat("]", maxDepth+1) + "\n", "too-deep"},
		"depth of library":   {head + "sources: " + strings.Repeat("[", 20_000), "too-deep"},
		"complaints":         {head + strings.Repeat("\x07", 1000), "too-many"},
		"not UTF-8":          {head + "title: \xff\n", "not-utf8"},
		"line end of a kind": {head + "title: a\u2028b\n", "control-character"},
		"lone return":        {head + "title: a\rb\n", "control-character"},
	} {
		c, out := LoadCase("f.yaml", []byte(f.src), Fragments{})
		found := false
		for _, complaint := range out {
			found = found || complaint.Code == f.code
		}
		if c != nil || !found || len(out) > maxComplaints+1 {
			t.Errorf("%s: %d complaints, want %s among them", name, len(out), f.code)
		}
	}
}

func TestLineEndsAndByteOrderMark(t *testing.T) {
	src, err := os.ReadFile("testdata/short-case.yaml")
	if err != nil {
		t.Fatal(err)
	}
	text := "\ufeff" + strings.ReplaceAll(string(src), "\n", "\r\n")
	if c, out := LoadCase("f.yaml", []byte(text), Fragments{}); c == nil || c.Rules[0].When.Source != "line.share_in_vein >= policy.least_share" {
		t.Error(out)
	}
	_, out := LoadCase("f.yaml", []byte(strings.Replace(text, "skin: brown", "skin: bronw", 1)), Fragments{})
	if len(out) != 1 || out[0].Pos.Line != 25 || out[0].Pos.Column != 9 {
		t.Error(out)
	}
}

func TestKind(t *testing.T) {
	for src, want := range map[string]string{
		"format: 1\ncase: x\nplace: y\n":       "case",
		"# note\n\nformat: 1\r\nplace: y\r\n":  "place",
		"---\npolicy: y":                       "policy",
		"format: 1\ntitle: x\ncase: x\n":       "",
		"":                                     "",
		"  case: x\n":                          "",
		"case":                                 "",
		"\ufeffformat: 1\npolicy: alder-court": "policy",
	} {
		if got := Kind([]byte(src)); got != want {
			t.Errorf("Kind(%q) is %q, want %q", src, got, want)
		}
	}
}

func TestCheckPlace(t *testing.T) {
	c := goodCase(t)
	place := &sim.Place{
		Name: "Tern Ward", People: []sim.Person{{ID: "second-nurse"}, {ID: "doctor"}},
		Cannulae: []vein.Cannula{{Gauge: 20, LengthMM: 47.8}, {Gauge: 22, LengthMM: 25.4}},
	}
	if out := CheckPlace(c, place); len(out) != 0 {
		t.Errorf("a place that has everything: %v", out)
	}
	place.People = []sim.Person{{ID: "third-nurse"}}
	place.Cannulae = place.Cannulae[1:]
	out := CheckPlace(c, place)
	want := []struct {
		code string
		pos  Pos
	}{
		{"not-in-stock", Pos{"good-case.yaml", 138, 49}},
		{"unknown-person", Pos{"good-case.yaml", 141, 25}},
		{"unknown-person", Pos{"good-case.yaml", 158, 3}},
	}
	if len(out) != len(want) {
		t.Fatalf("got %v", out)
	}
	for i, w := range want {
		if out[i].Code != w.code || out[i].Pos != w.pos {
			t.Errorf("got %s at %s, want %s at %s", out[i].Code, out[i].Pos, w.code, w.pos)
		}
	}
}

// A drug that is kept in units is asked about in units, unless the case says
// otherwise.
func TestUnitsByDefault(t *testing.T) {
	src, err := os.ReadFile("testdata/faults/case-ask-units-in-mcg.yaml")
	if err != nil {
		t.Fatal(err)
	}
	plain := strings.Replace(string(src), ", unit: mcg/mL", "", 1)
	c, out := LoadCase("asked.yaml", []byte(plain), Fragments{})
	if c == nil || len(c.Ask) != 1 || c.Ask[0].Point != "units/mL" {
		t.Errorf("got %+v, %v; want a concentration in units/mL", c, out)
	}
}

// A drug that only comes premixed is in stock.
func TestPremixedIsInStock(t *testing.T) {
	c := goodCase(t)
	c.Walks = []Walk{{Steps: []Step{{Said: "take a premixed bag of 20 units of vasopressin in 100 mL"}}}}
	place := &sim.Place{Name: "Tern Ward", People: []sim.Person{{ID: "doctor"}}}
	if out := CheckPlace(c, place); len(out) != 1 || out[0].Code != "unknown-drug" {
		t.Errorf("without it: %v", out)
	}
	place.Premixed = []sim.Premixed{{Drug: "vasopressin", MG: 20, ML: 100, Number: 1}}
	if out := CheckPlace(c, place); len(out) != 0 {
		t.Errorf("with it: %v", out)
	}
}
