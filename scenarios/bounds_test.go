package scenarios

import (
	"os"
	"strings"
	"testing"

	"blanch/sim/quantity"
)

// What no unit has, and what would stop or freeze the engine, is refused with
// the bounds; what lies at the bounds is not.
func TestBounds(t *testing.T) {
	for _, c := range []struct {
		file, sound string
		refused     []string
		taken       []string
		says        string // part of what is allowed
	}{
		{"../content/places/tern-ward.yaml", "cuff every: 5 min", []string{"0 min", "0.001 s", "29.9 s", "121 min"}, []string{"30 s", "2 h"}, "from 30 s to 2 h"},
		{"../content/places/tern-ward.yaml", "  walk: 2 min", []string{"169 h"}, []string{"0 s", "168 h"}, "from 0 s to 168 h"},
		{"../content/policies/alder-court.yaml", "check early: 30 min", []string{"0 min", "59 s"}, []string{"1 min"}, "from 1 min to 336 h"},
		{"../content/policies/alder-court.yaml", "check later: 1 h", []string{"0 min", "337 h"}, []string{"336 h"}, "from 1 min to 336 h"},
		{"testdata/good-case.yaml", "  says so after: 10 min", []string{"0 min"}, []string{"1 s"}, "from 1 s to 168 h"},
		{"testdata/good-case.yaml", "takes about: 20 min", []string{"0 min", "25 h"}, []string{"1 min"}, "from 1 min to 24 h"},
		{"testdata/good-case.yaml", "ends at: 4 h", []string{"0 min", "169 h"}, []string{"4 h"}, "from 1 min to 168 h"},
		{"testdata/good-case.yaml", "  start: 0.05 mcg/kg/min", []string{"0 mcg/kg/min", "0.0000001 mcg/kg/min", "10000000 mcg/kg/min"}, []string{"1000000 mcg/kg/min"}, "from 0.000001 to 1,000,000"},
	} {
		src, err := os.ReadFile(c.file)
		if err != nil {
			t.Fatal(err)
		}
		if strings.Count(string(src), "\n"+c.sound+"\n") != 1 {
			t.Fatalf("%s has no line %q", c.file, c.sound)
		}
		key, _, _ := strings.Cut(c.sound, ": ")
		faults := func(value string) (out []Complaint) {
			text := strings.Replace(string(src), "\n"+c.sound+"\n", "\n"+key+": "+value+"\n", 1)
			_, all := loadAny(Kind(src), []byte(text))
			for _, f := range all {
				if f.Code == "out-of-range" {
					out = append(out, f)
				}
			}
			return out
		}
		for _, value := range c.refused {
			if out := faults(value); len(out) != 1 || !strings.Contains(out[0].Allowed, c.says) {
				t.Errorf("%s: %s: %v, want one that says %q", strings.TrimSpace(key), value, out, c.says)
			}
		}
		for _, value := range c.taken {
			if out := faults(value); len(out) != 0 {
				t.Errorf("%s: %s: %v", strings.TrimSpace(key), value, out)
			}
		}
	}
}

// So is an amount of drug that no bag holds.
func TestBoundsOfAmounts(t *testing.T) {
	for value, want := range map[string]bool{"0 mg": false, "0.0001 mg": false, "20000 mg": false, "20000 units": false, "0.001 mg": true, "10 g": true, "10000 units": true} {
		r := newReader(nil)
		r.src, _ = newSource("f.yaml", []byte(value), r.complain)
		got := drugAmount.read(r, "amount", &node{kind: scalar, text: value, is: "str", line: 1, column: 1}, new(quantity.Quantity))
		if got != want || !want && (len(r.complaints) != 1 || r.complaints[0].Code != "out-of-range") {
			t.Errorf("%s: read is %v, %v", value, got, r.complaints)
		}
	}
}
