package content

import (
	"math"
	"regexp"
	"strings"
	"testing"

	"blanch/sim/dose"
	"blanch/sim/quantity"
)

var number = regexp.MustCompile(`^[0-9.,]+`)

// numberOf is the number that an option begins with, and what its last digit
// stands for.
func numberOf(t *testing.T, says string) (value, digit float64) {
	t.Helper()
	written := strings.ReplaceAll(number.FindString(says), ",", "")
	q, err := quantity.Parse(written + " mg") // the number alone
	if err != nil {
		t.Fatalf("%q: %v", says, err)
	}
	_, decimals, _ := strings.Cut(written, ".")
	return q.Value, math.Pow10(-len(decimals))
}

// comesOut says that an option is what a sum gives, to its last digit.
func comesOut(t *testing.T, says string, want float64) bool {
	t.Helper()
	value, digit := numberOf(t, says)
	return quantity.Round(want, digit) == quantity.Round(value, digit)
}

func TestASumComesOutToTheLastDigit(t *testing.T) {
	for says, want := range map[string]bool{"15 mL/h": true, "15.2 mL/h": false, "14.5 mL/h": false, "15.04 mL/h": true, "15.05 mL/h": false, "16 mL/h": false, "1,500 mL/h": false} {
		if got := comesOut(t, says, 15.04); got != want {
			t.Errorf("%s for 15.04: %v", says, got)
		}
	}
}

// Keys that come from a sum are what the sum gives: rates by sim/dose, whose
// own tests hold it to published worked examples, and the rest by arithmetic
// written out here.
func TestKeysThatAreSums(t *testing.T) {
	wanted := map[string]float64{
		"way-at-45":              8 * 1.4, // 1.4 x depth at 45 degrees: Ultrasound J 2019, 11:27, table 1
		"vial-of-norepinephrine": 4.0 / 4,
		"base-and-salt":          8 * 169.18 / 337.3, // molecular weights of the base, and of the label's salt with its water
		"sixteen-per-ml":         4000.0 / 250,
		"epinephrine-ratio":      1000.0 / 10000 * 10, // mg: 1 g in 10,000 mL, a syringe of 10 mL
		"phenylephrine-infusion": 200 * 250 / 1000.0,
		"vasopressin-bag":        2.5 * 20 / 500,
		"rate-of-fifteen":        dose.Rate(0.05*80, 16),
		"lb-to-kg":               110 / 2.2,
		"sixteen-trick":          30.0 / 60 * 16,
		"double-strength":        24.0 * 16 / 32,
		"vasopressin-rate":       dose.Rate(0.03, 0.2),
		"dose-from-rate":         12 * 64 / 60.0 / 80,
		"mg-per-hour":            2 * 1000 / 60.0,
		"round-at-the-end":       dose.Rate(0.03*83, 16) - dose.Rate(2, 16),
		"coarse-pump":            64 / 60.0,
		"dopamine-weight":        dose.Rate(5*176/2.2, 1600), // OpenStax, Pharmacology for Nurses, section 2.4: 15 mL/h
		"flush-is-a-dose":        64.0 / 8,
		"slow-to-arrive":         dose.FirstDrugMin(1, 3.75),
		"how-much-leaked":        15.0 * 40 / 60 * 16,
		"half-never":             100 * 311 / 603.0, // Yerke 2024
	}
	for _, f := range shippedItems(t) {
		for _, s := range f.Singles {
			want, ok := wanted[s.ID]
			if !ok {
				continue
			}
			delete(wanted, s.ID)
			options := make([]float64, len(s.Options))
			for i, o := range s.Options {
				options[i], _ = numberOf(t, o.Says)
			}
			if key := s.Options[s.Key(nil)].Says; !comesOut(t, key, want) {
				t.Errorf("%s: the key is %q, and the sum gives %v", s.ID, key, want)
			}
			for i, o := range options {
				if near := o/want - 1; i != s.Key(nil) && near > -0.1 && near < 0.1 {
					t.Errorf("%s: %v is as near to the sum, %v, as the key", s.ID, o, want)
				}
			}
		}
	}
	for id := range wanted {
		t.Errorf("there is no item %q", id)
	}
}
