package dose_test

import (
	"math"
	"testing"

	"blanch/sim/dose"
	"blanch/sim/quantity"
)

// The notes beside the labels' nominal answers: 4000/1004 = 3.98 for
// norepinephrine, 10000/501 = 19.96 for phenylephrine, 1000/1010 = 0.990 for
// epinephrine, 50/502.5 = 0.0995 for vasopressin (units/mL), and 4.8 % less
// than 1 unit/mL for 5 mL of 20 units/mL in 100 mL.
func TestTrueConcentrationCountsTheDrugsOwnVolume(t *testing.T) {
	for _, c := range []struct {
		mix           dose.Mix
		nominal, real float64
		step          float64
	}{
		{dose.Mix{AmountMcg: 4000, DrugML: 4, BagML: 1000}, 4, 3.98, 0.01},
		{dose.Mix{AmountMcg: 10000, DrugML: 1, BagML: 500}, 20, 19.96, 0.01},
		{dose.Mix{AmountMcg: 1000, DrugML: 10, BagML: 1000}, 1, 0.99, 0.001},
		{dose.Mix{AmountMcg: 50, DrugML: 2.5, BagML: 500}, 0.1, 0.0995, 0.0001},
		{dose.Mix{AmountMcg: 100, DrugML: 5, BagML: 100}, 1, 0.952, 0.001},
		{dose.Mix{AmountMcg: 4000, DrugML: 4, BagML: 250}, 16, 15.75, 0.01},
		{dose.Mix{AmountMcg: 4000, DrugML: 4, BagML: 250, Withdrawn: true}, 16, 16, 0.01},
	} {
		if got := c.mix.Nominal(); got != c.nominal {
			t.Errorf("%+v is %v nominal, want %v", c.mix, got, c.nominal)
		}
		if got := quantity.Round(c.mix.True(), c.step); got != c.real {
			t.Errorf("%+v is %v true, want %v", c.mix, got, c.real)
		}
	}
}

// Arithmetic: 1 mL at 3.75 mL/h takes 16 min.
func TestFirstDrugIsLateInASlowLine(t *testing.T) {
	if got := dose.FirstDrugMin(1, 3.75); got != 16 {
		t.Errorf("first drug after %v min, want 16", got)
	}
	if got := dose.FirstDrugMin(1, 0); !math.IsInf(got, 1) {
		t.Errorf("first drug through a stopped line after %v min, want never", got)
	}
}

// 0.03 units/min at 0.2, 0.4 and 1 unit/mL is 9, 4.5 and 1.8 mL/h; 0.1
// mcg/kg/min at 70 kg from 16 mcg/mL is 26.25 mL/h (worked by hand).
func TestRatesWorkedByHand(t *testing.T) {
	for _, c := range []struct{ dose, conc, want float64 }{
		{0.03, 0.2, 9}, {0.03, 0.4, 4.5}, {0.03, 1, 1.8}, {dose.PerMin(0.1, 70), 16, 26.25},
	} {
		if got := dose.Rate(c.dose, c.conc); math.Abs(got-c.want) > 1e-12*c.want {
			t.Errorf("Rate(%v, %v) = %v, want %v", c.dose, c.conc, got, c.want)
		}
	}
}

func TestRateAndDoseUndoEachOther(t *testing.T) {
	for _, conc := range []float64{4, 16, 15.75, 64, 128} {
		for _, rate := range []float64{0.1, 3.7, 13.1, 50, 999} {
			if got := dose.Rate(dose.Dose(rate, conc), conc); math.Abs(got-rate) > 1e-14*rate {
				t.Errorf("%v mL/h at %v mcg/mL comes back as %v", rate, conc, got)
			}
		}
	}
}

func TestNothingRunsFromAStoppedPump(t *testing.T) {
	if got := dose.RunOutH(250, 0); !math.IsInf(got, 1) {
		t.Errorf("a stopped bag runs out in %v h, want never", got)
	}
	if got := dose.Rate(8, 0); !math.IsInf(got, 1) {
		t.Errorf("no drug in the bag needs %v mL/h, want +Inf", got)
	}
}
