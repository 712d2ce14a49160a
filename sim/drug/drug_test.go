package drug_test

import (
	"math"
	"slices"
	"testing"

	"blanch/sim/drug"
	"blanch/sim/quantity"
)

func mustName(t *testing.T, name string) drug.Drug {
	t.Helper()
	d, ok := drug.Named(name)
	if !ok {
		t.Fatalf("%s is not in the table", name)
	}
	return d
}

// Beloeil 2005, Br J Anaesth 95:782, abstract: clearance and half-life at
// SAPS II 20 and 60, each with the range that rounding in print leaves.
func TestNorepinephrineIsClearedAsPublished(t *testing.T) {
	d := mustName(t, "norepinephrine")
	for _, c := range []struct {
		what      string
		got       float64
		low, high float64
	}{
		{"half-life at SAPS II 20, min", d.HalfLifeMin(20, 70), 1.8, 2.2},
		{"half-life at SAPS II 60, min", d.HalfLifeMin(60, 70), 6.1, 7.5},
		{"clearance at SAPS II 20, L/min", d.ClearanceLMin(20, 70), 2.7, 3.3},
		{"clearance at SAPS II 60, L/min", d.ClearanceLMin(60, 70), 0.81, 0.99},
	} {
		if c.got < c.low || c.got > c.high {
			t.Errorf("%s is %v, want %v to %v", c.what, c.got, c.low, c.high)
		}
	}
	// The printed values themselves, to their last printed digit.
	if got := quantity.Round(d.ClearanceLMin(60, 70), 0.1); got != 0.9 {
		t.Errorf("clearance at SAPS II 60 prints as %v, want 0.9 L/min", got)
	}
	if got := quantity.Round(d.HalfLifeMin(20, 70), 0.1); got != 2 {
		t.Errorf("half-life at SAPS II 20 prints as %v, want 2.0 min", got)
	}
}

func TestSickerPatientsClearLessAtEveryScore(t *testing.T) {
	d := mustName(t, "norepinephrine")
	for s := 0.0; s <= 163; s++ { // SAPS II runs from 0 to 163
		here, next := d.ClearanceLMin(s, 70), d.ClearanceLMin(s+1, 70)
		if !(here > 0) || math.IsInf(here, 0) || next > here {
			t.Errorf("clearance goes from %v at %v to %v", here, s, next)
		}
	}
}

// American label, section 11: 1 mg of base is 1.89 mg of anhydrous bitartrate.
func TestNorepinephrineIsSuppliedAsBase(t *testing.T) {
	d := mustName(t, "norepinephrine")
	if got := d.Supplied.Amount.Float("mg") / d.Supplied.Volume.Float("mL"); got != 1 {
		t.Errorf("supplied at %v mg/mL, want 1", got)
	}
	// Label 2.3: 4 mg in 1000 mL is 4 mcg/mL.
	if got := d.LabelMix.Amount.Float("mcg") / d.LabelMix.Bag.Float("mL"); got != 4 {
		t.Errorf("label mix is %v mcg/mL, want 4", got)
	}
	for name, want := range map[string]float64{"bitartrate anhydrous": 1.89, "bitartrate monohydrate": 1.994} {
		if s, ok := d.SaltNamed(name); !ok || s.Ratio != want {
			t.Errorf("%s is %v, want %v", name, s.Ratio, want)
		}
	}
	if _, ok := d.SaltNamed("hydrochloride"); ok {
		t.Error("norepinephrine hydrochloride is in the table")
	}
}

// Vasopressor labels: 5 to 10 mg in 10 to 15 mL; phentolamine: 5 mg a vial.
func TestPhentolamineIsUsedAsTheLabelsSay(t *testing.T) {
	d := mustName(t, "phentolamine")
	u := d.Treatment
	got := []string{d.Supplied.Amount.String(), u.Least.String(), u.Most.String(), u.InLeast.String(), u.InMost.String()}
	if want := []string{"5 mg", "5 mg", "10 mg", "10 mL", "15 mL"}; !slices.Equal(got, want) {
		t.Errorf("got %v, want %v", got, want)
	}
	// Intravenous half-life 19 min (monograph, medicine.com, second-hand).
	if got := d.HalfLifeMin(20, 70); got < 18 || got > 20 {
		t.Errorf("half-life %v min, published 19", got)
	}
	if d := mustName(t, "terbutaline"); d.ClearanceLMin(20, 70) != 0 || d.HalfLifeMin(20, 70) != 0 {
		t.Error("terbutaline has kinetics that nothing uses")
	}
}

// Epinephrine clearance 127 (BW/70)^0.60 (SAPS II/50)^-0.67 L/h, half-life
// 3.5 min (Abboud 2009, Crit Care).
func TestEpinephrineClearance(t *testing.T) {
	d := mustName(t, "epinephrine")
	if got := 60 * d.ClearanceLMin(50, 70); got < 120.7 || got > 133.4 {
		t.Errorf("clearance %v L/h, published 127", got)
	}
	if got := d.HalfLifeMin(50, 70); got < 3.3 || got > 3.7 {
		t.Errorf("half-life %v min, published 3.5", got)
	}
	if d.ClearanceLMin(50, 100) <= d.ClearanceLMin(50, 60) || d.ClearanceLMin(70, 70) >= d.ClearanceLMin(40, 70) {
		t.Error("weight or severity moves the clearance the wrong way")
	}
}

// Supplied strengths and label dilutions, from the American labels:
// epinephrine 1 mg/mL and 1 mg in 1000 mL; phenylephrine 10 mg/mL and 10 mg
// in 500 mL; vasopressin 20 units/mL and 50 units in 500 mL; dopamine 400 mg
// in 250 mL, of which 80 mg are 64.6 mg of base.
func TestLabelsOfTheOthers(t *testing.T) {
	for _, c := range []struct {
		name, unit     string
		strength, made float64
	}{
		{"epinephrine", "mcg", 1000, 1},
		{"phenylephrine", "mcg", 10000, 20},
		{"dopamine", "mcg", 40000, 1600},
		{"vasopressin", "units", 20, 0.1},
	} {
		d := mustName(t, c.name)
		if d.Base != c.unit {
			t.Errorf("%s is kept in %s", c.name, d.Base)
		}
		if got := d.Supplied.Amount.Float(c.unit) / d.Supplied.Volume.Float("mL"); got != c.strength {
			t.Errorf("%s is supplied at %v, want %v", c.name, got, c.strength)
		}
		if got := d.LabelMix.Amount.Float(c.unit) / d.LabelMix.Bag.Float("mL"); got != c.made {
			t.Errorf("the label makes %s %v, want %v", c.name, got, c.made)
		}
	}
	salt, _ := mustName(t, "dopamine").SaltNamed("hydrochloride")
	if got := 80 / salt.Ratio; got < 64.55 || got > 64.65 {
		t.Errorf("80 mg of dopamine hydrochloride are %v mg of base, label 64.6", got)
	}
	if v := mustName(t, "vasopressin"); v.Potency.Receptor != drug.V1 || !slices.Equal(v.DoseUnits, []string{"units/min"}) {
		t.Error("vasopressin is dosed per kg or acts on alpha receptors")
	}
}

func TestRowsAreWhole(t *testing.T) {
	for _, name := range drug.Names() {
		d := mustName(t, name)
		if d.Role != drug.Vasopressor && d.Role != drug.Antidote {
			t.Errorf("%s has no role", name)
		}
		if d.Supplied.Amount.Value <= 0 {
			t.Errorf("%s has no supply", name)
		}
		for _, u := range d.DoseUnits {
			if got := quantity.MustUnit(u).String(); got != u {
				t.Errorf("%s is dosed in %s, which prints as %s", name, u, got)
			}
		}
		if d.Role == drug.Vasopressor && (d.VolumeL <= 0 || len(d.Symbols()) == 0) {
			t.Errorf("%s has no kinetics", name)
		}
		for _, s := range d.Symbols() {
			if s.Why == "" || s.Unit == "" || s.Value < s.Low || s.Value > s.High {
				t.Errorf("%s: symbol %s is not stated whole", name, s.Name)
			}
		}
	}
	if _, ok := drug.Named("water"); ok {
		t.Error("water is in the table")
	}
}

func TestTheTableCannotBeChanged(t *testing.T) {
	d := mustName(t, "norepinephrine")
	d.DoseUnits[0], d.Salts[0].Ratio = "mL", 0
	if e := mustName(t, "norepinephrine"); e.DoseUnits[0] == "mL" || e.Salts[0].Ratio == 0 {
		t.Error("a caller changed the table")
	}
}
