package quantity_test

import (
	"bytes"
	"encoding/json"
	"math"
	"math/rand/v2"
	"os"
	"os/exec"
	"strings"
	"testing"

	"blanch/sim/quantity"
)

// ucum asks a general implementation of UCUM, the unified code for units of
// measure, to convert values: the npm package @lhncbc/ucum-lhc.
func ucum(t *testing.T, asked []conversion) []converted {
	t.Helper()
	const folder = "testdata/ucum"
	if _, err := os.Stat(folder + "/node_modules"); err != nil {
		without(t, "no UCUM implementation: npm ci in sim/quantity/"+folder+" installs it")
	}
	node, err := exec.LookPath("node")
	if err != nil {
		without(t, "no node (Debian: nodejs)")
	}
	var in bytes.Buffer
	enc := json.NewEncoder(&in)
	enc.SetEscapeHTML(false)
	for _, c := range asked {
		if err := enc.Encode(c); err != nil {
			t.Fatal(err)
		}
	}
	cmd := exec.Command(node, "convert.js")
	cmd.Dir, cmd.Stdin, cmd.Stderr = folder, &in, os.Stderr
	out, err := cmd.Output()
	if err != nil {
		t.Fatal(err)
	}
	var got []converted
	for line := range strings.Lines(string(out)) {
		var c converted
		if err := json.Unmarshal([]byte(line), &c); err != nil {
			t.Fatalf("%v: %s", err, line)
		}
		got = append(got, c)
	}
	if len(got) != len(asked) {
		t.Fatalf("%d answers to %d questions", len(got), len(asked))
	}
	return got
}

func without(t *testing.T, why string) {
	t.Helper()
	if os.Getenv("CI") == "true" {
		t.Fatal(why + "; CI has to have it")
	}
	t.Skip(why)
}

type conversion struct {
	Value float64 `json:"value"`
	From  string  `json:"from"`
	To    string  `json:"to"`
}

type converted struct {
	Value *float64 `json:"value"`
	Error string   `json:"error"`
}

// measures is our units of each measure with their UCUM codes. Units of
// activity, drops and the like are pure counts there: UCUM converts no
// arbitrary units, and its drop has a volume. Pounds are in a test of their
// own.
var measures = [][][2]string{
	{{"mcg", "ug"}, {"mg", "mg"}, {"g", "g"}},
	{{"mL", "mL"}, {"L", "L"}},
	{{"mm", "mm"}, {"cm", "cm"}, {"m", "m"}},
	{{"s", "s"}, {"min", "min"}, {"h", "h"}, {"d", "d"}},
	{{"units", "{units}"}},
	{{"kg", "kg"}},
	{{"mEq", "meq"}},
	{{"mmHg", "mm[Hg]"}},
	{{"gtt", "{drops}"}},
	{{"degrees", "deg"}},
	{{"%", "%"}},
}

// Conversions agree with an independent implementation.
func TestUnitsConvertAsUCUMSays(t *testing.T) {
	r := rand.New(rand.NewPCG(7, 7))
	var asked []conversion
	var ours []quantity.Quantity
	var into []quantity.Unit
	for len(asked) < 1500 {
		kinds := r.Perm(len(measures))[:1+r.IntN(3)]
		var from, to, fromCode, toCode []string
		for i, k := range kinds {
			a, b := measures[k][r.IntN(len(measures[k]))], measures[k][r.IntN(len(measures[k]))]
			// What stands under the line is written in the singular.
			if i > 0 {
				a[0], b[0] = strings.TrimSuffix(a[0], "units")+one(a[0]), strings.TrimSuffix(b[0], "units")+one(b[0])
			}
			from, to, fromCode, toCode = append(from, a[0]), append(to, b[0]), append(fromCode, a[1]), append(toCode, b[1])
		}
		x := quantity.Round(math.Pow(10, r.Float64()*8-3), 0.00001)
		q, err := quantity.Parse(quantity.Number(x) + " " + strings.Join(from, "/"))
		if err != nil {
			t.Fatal(err)
		}
		u, err := quantity.ParseUnit(strings.Join(to, "/"))
		if err != nil {
			t.Fatal(err)
		}
		asked = append(asked, conversion{x, strings.Join(fromCode, "/"), strings.Join(toCode, "/")})
		ours, into = append(ours, q), append(into, u)
	}
	changed := 0
	for i, c := range ucum(t, asked) {
		if c.Value == nil {
			t.Errorf("%+v: %s", asked[i], c.Error)
			continue
		}
		got, err := ours[i].In(into[i])
		if err != nil || math.Abs(got-*c.Value) > 1e-12*math.Abs(*c.Value) {
			t.Errorf("%s is %v %s here (%v) and %v by UCUM", ours[i], got, into[i], err, *c.Value)
		}
		if got != ours[i].Value {
			changed++
		}
	}
	t.Logf("%d conversions, of which %d change the number", len(asked), changed)
	if changed < 500 {
		t.Errorf("only %d conversions change the number", changed)
	}
}

func one(unit string) string {
	if unit == "units" {
		return "unit"
	}
	return ""
}

// What measures different things converts neither here nor there. Counts are
// left out: to UCUM they are all bare numbers.
func TestUCUMKeepsTheSameMeasuresApart(t *testing.T) {
	var asked []conversion
	for i, a := range measures[:8] {
		for j, b := range measures[:8] {
			if i == 4 || j == 4 || i == j || a[0][0] == "kg" && b[0][0] == "mcg" || a[0][0] == "mcg" && b[0][0] == "kg" {
				continue // drug and body are both mass to UCUM, and are kept apart here
			}
			asked = append(asked, conversion{1, a[0][1], b[0][1]})
			if _, err := quantity.Of(1, a[0][0]).In(quantity.MustUnit(b[0][0])); err == nil {
				t.Errorf("%s converts to %s here", a[0][0], b[0][0])
			}
		}
	}
	for i, c := range ucum(t, asked) {
		if c.Value != nil {
			t.Errorf("%+v converts to %v by UCUM", asked[i], *c.Value)
		}
	}
}

// A pound here is 1/2.2 kg, as it is taught; by UCUM it is 0.45359237 kg,
// which is 2.20462 to the kg.
func TestThePoundIsTheTaughtOne(t *testing.T) {
	got := ucum(t, []conversion{{220.462, "[lb_av]", "kg"}})
	if got[0].Value == nil || math.Abs(*got[0].Value-100) > 1e-3 {
		t.Fatalf("220.462 lb by UCUM: %+v", got[0])
	}
	if kg := quantity.Of(220, "lb").Float("kg"); kg != 100 {
		t.Errorf("220 lb are %v kg", kg)
	}
	if apart := *got[0].Value * 220 / 220.462; math.Abs(apart-99.79) > 0.01 {
		t.Errorf("220 lb are %v kg by UCUM, want 99.79", apart)
	}
}
