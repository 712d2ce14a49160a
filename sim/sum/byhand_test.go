package sum_test

import (
	"testing"

	"blanch/sim/quantity"
	"blanch/sim/sum"
)

// Worked by hand: 0.5 mL at 16 mcg/mL holds 8 mcg, the label's whole starting
// dose of a minute; vials are whole, and a hair over a whole number opens none.
func TestAnswersWorkedByHand(t *testing.T) {
	type given map[string]quantity.Quantity
	vials := func(total, per float64) given {
		return given{"total": quantity.Of(total, "mg"), "per_vial": quantity.Of(per, "mg")}
	}
	for _, c := range []struct {
		kind  string
		given given
		want  string
	}{
		{"flush", given{"dead_volume": quantity.Of(0.5, "mL"), "concentration": quantity.Of(16, "mcg/mL")}, "8 mcg"},
		{"vials", vials(4, 4), "1"},
		{"vials", vials(4.1, 4), "2"},
		{"vials", vials(0.3, 0.1), "3"},
		{"vials", vials(10, 5), "2"},
		{"vials", vials(1, 4), "1"},
	} {
		k, ok := sum.Named(c.kind)
		if !ok {
			t.Fatal(c.kind)
		}
		s, err := k.New(c.given, quantity.Unit{})
		if err != nil {
			t.Fatal(c.kind, c.given, err)
		}
		if m := s.Mark(c.want); s.Answer().String() != c.want || m.Verdict != sum.Right {
			t.Errorf("%s of %v is %s, and %s is %s", c.kind, c.given, s.Answer(), c.want, m.Verdict)
		}
	}
}

// A weight in pounds comes back from kilograms, and they are what package
// quantity makes of them.
func TestPoundsGoBothWays(t *testing.T) {
	k, _ := sum.Named("weight")
	for _, lb := range []float64{90, 141, 154, 205, 220} {
		there, err := k.New(map[string]quantity.Quantity{"weight": quantity.Of(lb, "lb")}, quantity.MustUnit("kg"))
		if err != nil {
			t.Fatal(err)
		}
		back, err := k.New(map[string]quantity.Quantity{"weight": there.Key()}, quantity.MustUnit("lb"))
		if err != nil {
			t.Fatal(err)
		}
		if got := quantity.Round(back.Key().Value, 0.001); got != lb {
			t.Errorf("%v lb come back as %v", lb, got)
		}
		if want := quantity.Of(lb, "lb").Float("kg"); quantity.Round(there.Key().Value, 1e-9) != quantity.Round(want, 1e-9) {
			t.Errorf("%v lb are %s here and %v kg by quantity", lb, there.Key(), want)
		}
	}
}
