package sum

import (
	"regexp"
	"strings"
	"testing"

	"blanch/sim/quantity"
)

// Every kind has a name of its own, inputs that are told apart, ways that name
// inputs it has, and units that can be read.
func TestKindsAreSound(t *testing.T) {
	name := regexp.MustCompile(`^[a-z]+(_[a-z]+)*$`)
	seen := map[string]bool{}
	for _, k := range Kinds() {
		if seen[k.Name] || !name.MatchString(k.Name) {
			t.Errorf("%s stands twice, or is no name", k.Name)
		}
		seen[k.Name] = true
		if k.Says == "" || strings.HasSuffix(k.Says, ".") || unsafeIn(k.Says) != nil {
			t.Errorf("%s says %q", k.Name, k.Says)
		}
		for _, u := range k.Units {
			quantity.MustUnit(u)
		}
		used := map[string]bool{}
		for _, way := range k.Ways {
			for _, n := range way {
				if _, ok := k.Input(n); !ok {
					t.Errorf("%s needs %s, which is no input of it", k.Name, n)
				}
				used[n] = true
			}
		}
		inputs := map[string]bool{}
		for _, in := range k.Inputs {
			if inputs[in.Name] || !name.MatchString(in.Name) || in.Says == "" || unsafeIn(in.Says) != nil {
				t.Errorf("%s: the input %s stands twice, or says nothing", k.Name, in.Name)
			}
			inputs[in.Name] = true
			if !in.Extra && !used[in.Name] {
				t.Errorf("%s: no way uses %s", k.Name, in.Name)
			}
			for _, u := range in.Units {
				quantity.MustUnit(u)
			}
		}
		if _, ok := Named(k.Name); !ok {
			t.Errorf("%s is not found by its name", k.Name)
		}
	}
	if _, ok := Named("no such kind"); ok || len(seen) < 25 {
		t.Errorf("%d kinds", len(seen))
	}
}

// Salt and base: 2 mg of norepinephrine bitartrate are about 1 mg of base
// (American norepinephrine label). Whoever reckons the base as the salt makes
// half, and the reverse twice as much.
func TestSaltForBaseIsFound(t *testing.T) {
	k, _ := Named("concentration")
	s, err := k.New(map[string]quantity.Quantity{
		"amount": quantity.Of(4, "mg"), "volume": quantity.Of(250, "mL"), "drug_volume": quantity.Of(4, "mL"),
		"salt_ratio": {Value: 2}, "other_concentration": quantity.Of(64, "mcg/mL"),
	}, quantity.Unit{})
	if err != nil {
		t.Fatal(err)
	}
	for answer, want := range map[string]string{
		"8 mcg/mL":    "salt for base",
		"32 mcg/mL":   "base for salt",
		"64 mcg/mL":   "wrong bag",
		"1000 mcg/mL": "stock volume for final volume",
		"15.7 mcg/mL": "drug volume counted",                 // 4000 / 254, as is really in the bag
		"62.5 mcg/mL": "the volume over the labelled amount", // 250 / 4
		"61 mcg/mL":   "digits of the answer swapped to 61",
	} {
		d := s.Mark(answer).Diagnosis
		if len(d.Slips) != 1 || d.Slips[0].Name != want {
			t.Errorf("%s: %s, want %s", answer, d.Sentence(), want)
		}
	}
}

// The share of a cannula in the vein: 47.8 mm at 40 degrees to a vein 6 mm
// deep (6 / sin 40 = 9.33 mm on the way, worked by hand).
func TestAShareInTheVein(t *testing.T) {
	k, _ := Named("vein_share")
	s, err := k.New(map[string]quantity.Quantity{"length": quantity.Of(47.8, "mm"), "depth": quantity.Of(6, "mm"), "angle": quantity.Of(40, "degrees")}, quantity.Unit{})
	if err != nil || s.Answer() != quantity.Of(80, "%") {
		t.Errorf("%v, %v", s.Answer(), err)
	}
	if d := s.Mark("87 %").Diagnosis; len(d.Slips) == 0 || d.Slips[0].Name != "angle forgotten" {
		t.Errorf("87 %%: %s", d.Sentence())
	}
}
