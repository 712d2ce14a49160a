package content

import (
	"regexp"
	"strings"
	"testing"

	"blanch/sim/dose"
	"blanch/sim/quantity"
)

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
	number := regexp.MustCompile(`^[0-9.,]+`)
	for _, f := range shippedItems(t) {
		for _, s := range f.Singles {
			want, ok := wanted[s.ID]
			if !ok {
				continue
			}
			delete(wanted, s.ID)
			options := make([]float64, len(s.Options))
			for i, o := range s.Options {
				q, err := quantity.Parse(strings.ReplaceAll(number.FindString(o.Says), ",", "") + " mg") // the number alone
				if err != nil {
					t.Fatalf("%s: %q: %v", s.ID, o.Says, err)
				}
				options[i] = q.Value
			}
			got := options[s.Key(nil)]
			if diff := got/want - 1; diff < -0.04 || diff > 0.04 {
				t.Errorf("%s: the key is %v, and the sum gives %v", s.ID, got, want)
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
