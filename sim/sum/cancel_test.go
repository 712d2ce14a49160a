package sum

import (
	"bytes"
	"encoding/json"
	"math/rand/v2"
	"os"
	"os/exec"
	"regexp"
	"strconv"
	"strings"
	"testing"
)

// operation is a line of working that multiplies or divides.
var operation = regexp.MustCompile(`^(.+) (x|/) (.+) = (.+)$`)

// codes are our units in UCUM. A unit of activity or a drop is a bare
// count there.
var codes = map[string]string{
	"mcg": "ug", "mg": "mg", "g": "g", "mL": "mL", "L": "L", "kg": "kg", "lb": "[lb_av]", "h": "h", "min": "min", "s": "s", "d": "d",
	"units": "{units}", "unit": "{units}", "gtt": "{drops}", "mEq": "meq", "mm": "mm", "cm": "cm", "%": "%",
}

// side reads "about 13.13 mcg/mL" or "(16 mcg/mL)".
func side(t *testing.T, text string) (x float64, code string) {
	t.Helper()
	text = strings.TrimPrefix(strings.Trim(text, "()"), "about ")
	number, unit, _ := strings.Cut(text, " ")
	x, err := strconv.ParseFloat(number, 64)
	if err != nil {
		t.Fatalf("%q: %v", text, err)
	}
	if unit == "" {
		return x, "1"
	}
	var parts []string
	for _, p := range strings.Split(unit, "/") {
		c, ok := codes[p]
		if !ok {
			t.Fatalf("%q: the unit %q has no code", text, p)
		}
		parts = append(parts, c)
	}
	return x, strings.Join(parts, "/")
}

// In every line of working the units cancel as they say, and the numbers come
// out: an independent implementation of UCUM, the unified code for units of
// measure, does the same line.
func TestUnitsCancelAsUCUMSays(t *testing.T) {
	const folder = "../quantity/testdata/ucum"
	without := t.Skip
	if os.Getenv("CI") == "true" {
		without = t.Fatal
	}
	if _, err := os.Stat(folder + "/node_modules"); err != nil {
		without("no UCUM implementation: npm ci in sim/quantity/testdata/ucum installs it")
	}
	node, err := exec.LookPath("node")
	if err != nil {
		without("no node (Debian: nodejs)")
	}
	type question struct {
		Value float64 `json:"value"`
		From  string  `json:"from"`
		To    string  `json:"to"`
	}
	var in bytes.Buffer
	enc := json.NewEncoder(&in)
	enc.SetEscapeHTML(false)
	var lines []string
	var want []float64
	for i, k := range kinds {
		r := rand.New(rand.NewPCG(uint64(i), 5))
		for range 40 {
			s := draw(r, k)
			for _, step := range s.steps {
				m := operation.FindStringSubmatch(step.Line)
				if m == nil || strings.Contains(step.Line, "sin(") {
					continue
				}
				a, from := side(t, m[1])
				b, by := side(t, m[3])
				c, to := side(t, m[4])
				x, join := a*b, "."
				if m[2] == "/" {
					x, join = a/b, "/"
				}
				if err := enc.Encode(question{x, "(" + from + ")" + join + "(" + by + ")", to}); err != nil {
					t.Fatal(err)
				}
				lines, want = append(lines, step.Line), append(want, c)
			}
		}
	}
	cmd := exec.Command(node, "convert.js")
	cmd.Dir, cmd.Stdin, cmd.Stderr = folder, &in, os.Stderr
	out, err := cmd.Output()
	if err != nil {
		t.Fatal(err)
	}
	n := 0
	for line := range strings.Lines(string(out)) {
		var got struct {
			Value *float64
			Error string
		}
		if err := json.Unmarshal([]byte(line), &got); err != nil {
			t.Fatal(err)
		}
		// Both sides are shown to four figures.
		if got.Value == nil || abs(*got.Value-want[n]) > 2e-3*want[n] {
			t.Errorf("%s: by UCUM %+v %s", lines[n], got.Value, got.Error)
		}
		n++
	}
	t.Logf("%d lines", n)
	if n != len(lines) || n < 1000 {
		t.Errorf("%d answers to %d lines", n, len(lines))
	}
}
