package quantity_test

import (
	"math"
	"math/rand/v2"
	"testing"

	"blanch/sim/quantity"
)

func TestConversionIsExactWhereDecimalsAre(t *testing.T) {
	for _, c := range []struct {
		value    float64
		from, to string
		want     float64
	}{
		{4, "mg", "mcg", 4000},
		{0.1, "mg", "mcg", 100},
		{0.3, "mg", "mcg", 300},
		{4000, "mcg", "mg", 4},
		{1.5, "g", "mg", 1500},
		{90, "min", "h", 1.5},
		{1, "h", "min", 60},
		{20, "s", "min", 20.0 / 60},
		{2, "mL/min", "mL/h", 120},
		{13, "mL/h", "L/h", 0.013},
		{176, "lb", "kg", 80}, // OpenStax, Pharmacology for Nurses, 2.4
		{110, "lb", "kg", 50},
		{64, "kg", "lb", 140.8},
		{0.05, "mcg/kg/min", "mcg/kg/h", 3},
		{0.05, "mg/kg/min", "mcg/kg/min", 50},
		{1, "mcg/lb/min", "mcg/kg/min", 2.2},
		{48, "mm", "cm", 4.8},
		{0.6, "units/h", "units/min", 0.01},
		{2, "d", "h", 48},
		{16, "mg/L", "mcg/mL", 16},
	} {
		got, err := quantity.Of(c.value, c.from).In(quantity.MustUnit(c.to))
		if err != nil || got != c.want {
			t.Errorf("%v %s in %s = %v, %v; want %v", c.value, c.from, c.to, got, err, c.want)
		}
	}
}

// Body weight is no drug mass, units are no mass, a year is no hour: nothing
// that would let a dose per kg cancel against the drug.
func TestDimensionsAreKeptApart(t *testing.T) {
	all := []string{"mcg", "units", "mL", "h", "kg", "mm", "mmHg", "degrees", "%", "y", "gtt", "mEq", "beats",
		"mcg/mL", "mcg/min", "mcg/kg/min", "mcg/kg", "mL/h", "mL/kg/min", "units/min", "units/mL", "mmHg x min", "gtt/mL"}
	for _, a := range all {
		for _, b := range all {
			_, err := quantity.Of(1, a).In(quantity.MustUnit(b))
			if (err == nil) != (a == b) {
				t.Errorf("%s in %s: %v", a, b, err)
			}
			if same := quantity.MustUnit(a).Same(quantity.MustUnit(b)); same != (a == b) {
				t.Errorf("%s and %s the same: %v", a, b, same)
			}
		}
	}
	if _, err := (quantity.Quantity{Value: 3}).In(quantity.MustUnit("mL")); err == nil {
		t.Error("a bare number was given in mL")
	}
}

func TestSpellingsAreOneUnit(t *testing.T) {
	for a, b := range map[string]string{"ml/hr": "mL/h", "mcg/min/kg": "mcg/kg/min", "U/minute": "units/min", "mL per h": "mL/h", "pounds": "lb"} {
		if quantity.MustUnit(a) != quantity.MustUnit(b) {
			t.Errorf("%s and %s are two units", a, b)
		}
	}
	if quantity.MustUnit("mg") == quantity.MustUnit("mcg") {
		t.Error("mg and mcg are one unit")
	}
}

func TestConstantsInCodeMustBeRight(t *testing.T) {
	for name, wrong := range map[string]func(){
		"Of":        func() { quantity.Of(1, "furlong") },
		"MustUnit":  func() { quantity.MustUnit("") },
		"Float":     func() { quantity.Of(1, "mL").Float("mg") },
		"Round":     func() { quantity.Round(1, 0) },
		"Round NaN": func() { quantity.Round(1, math.NaN()) },
	} {
		func() {
			defer func() {
				if recover() == nil {
					t.Errorf("%s let a mistake pass", name)
				}
			}()
			wrong()
		}()
	}
}

func TestRoundGoesHalfUp(t *testing.T) {
	for _, c := range []struct{ x, step, want float64 }{
		{18.75, 0.1, 18.8}, // printed answers of the published examples
		{12.5, 1, 13},
		{9.675, 0.01, 9.68},
		{60.4545, 0.01, 60.45},
		{1.243, 0.1, 1.2},
		{1.005, 0.01, 1.01},
		{0.25, 0.1, 0.3},
		{0.15, 0.1, 0.2},
		{2.5, 1, 3},
		{-2.5, 1, -3},
		{0.049, 0.1, 0},
		{-0.049, 0.1, 0},
		{0.5, 1, 1},
		{0.4999, 1, 0},
		{7.5, 5, 10},
		{7.4, 5, 5},
		{0.7, 0.25, 0.75},
		{1.05, 0.3, 1.2},
		{13.125, 0.01, 13.13},
		{26.25, 0.5, 26.5},
		{0.1 + 0.2, 0.01, 0.3},
		{1e12 + 0.5, 1, 1e12 + 1},
		{1e300, 0.1, 1e300},
		{0, 0.1, 0},
	} {
		if got := quantity.Round(c.x, c.step); got != c.want || math.Signbit(got) != math.Signbit(c.want) {
			t.Errorf("Round(%v, %v) = %v, want %v", c.x, c.step, got, c.want)
		}
	}
	if got := quantity.Round(math.Inf(1), 1); !math.IsInf(got, 1) {
		t.Errorf("Round(+Inf) = %v", got)
	}
	if got := quantity.Round(math.NaN(), 1); !math.IsNaN(got) {
		t.Errorf("Round(NaN) = %v", got)
	}
}

// A rounded value must be within half a step, on the step, and print with no
// more decimals than the step has.
func TestRoundIsNearAndClean(t *testing.T) {
	source := rand.New(rand.NewPCG(1, 2))
	for _, step := range []struct {
		step     float64
		decimals int
	}{{10, 0}, {5, 0}, {1, 0}, {0.5, 1}, {0.1, 1}, {0.01, 2}, {0.05, 2}, {0.25, 2}, {0.001, 3}, {0.0001, 4}, {0.3, 1}} {
		for range 2000 {
			x := (source.Float64() - 0.5) * 2000
			r := quantity.Round(x, step.step)
			if math.Abs(r-x) > step.step*(0.5+1e-6) {
				t.Fatalf("Round(%v, %v) = %v", x, step.step, r)
			}
			text := quantity.Number(r)
			for i := range text {
				if text[i] == '.' && len(text)-i-1 > step.decimals {
					t.Fatalf("Round(%v, %v) prints %s", x, step.step, text)
				}
			}
			if again := quantity.Round(r, step.step); again != r {
				t.Fatalf("Round(%v, %v) is %v, and rounded again %v", x, step.step, r, again)
			}
		}
	}
}

func TestNumberIsPlain(t *testing.T) {
	for _, c := range []struct {
		x    float64
		want string
	}{
		{0, "0"}, {math.Copysign(0, -1), "0"}, {5, "5"}, {0.5, "0.5"}, {-0.5, "-0.5"},
		{1e21, "1000000000000000000000"}, {1e-7, "0.0000001"}, {13.10, "13.1"}, {1234567.5, "1234567.5"},
		{math.NaN(), "no number"}, {math.Inf(-1), "no number"},
	} {
		if got := quantity.Number(c.x); got != c.want {
			t.Errorf("Number(%v) = %q, want %q", c.x, got, c.want)
		}
	}
}
