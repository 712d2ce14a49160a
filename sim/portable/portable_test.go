package portable_test

import (
	"math"
	"math/big"
	"math/rand/v2"
	"testing"

	"blanch/sim/portable"
)

const points = 600

// spread gives numbers between lo and hi, and both ends.
func spread(lo, hi float64) []float64 {
	source := rand.New(rand.NewPCG(7, 11))
	xs := []float64{lo, hi}
	for range points {
		xs = append(xs, lo+(hi-lo)*source.Float64())
	}
	return xs
}

// sizes gives numbers with evenly spread exponents, of both signs.
func sizes(lo, hi int) []float64 {
	source := rand.New(rand.NewPCG(3, 5))
	var xs []float64
	for range points {
		x := math.Ldexp(1+source.Float64(), lo+source.IntN(hi-lo))
		xs = append(xs, x, -x)
	}
	return xs
}

func join(lists ...[]float64) []float64 {
	var all []float64
	for _, l := range lists {
		all = append(all, l...)
	}
	return all
}

// hold checks got against want at every x and shows the worst.
func hold(t *testing.T, name string, most float64, xs []float64, got func(float64) float64, want func(float64) *big.Float) {
	t.Helper()
	worst, where := 0.0, 0.0
	for _, x := range xs {
		if d := ulps(got(x), want(x)); d > worst {
			worst, where = d, x
		}
	}
	t.Logf("%s: worst %.3f units in the last place, at %v, of %d", name, worst, where, len(xs))
	if worst > most {
		t.Errorf("%s(%v) = %v is %.3f units in the last place off, want at most %v", name, where, got(where), worst, most)
	}
}

func TestExpIsWithinOneUnitOfTheSeries(t *testing.T) {
	xs := join(spread(-745, 709.7), spread(-1, 1), sizes(-60, 3), []float64{0, 709.782712893384, -708.4, -745.13, math.Ln2, math.Ln2 / 2, -math.Ln2 / 2})
	hold(t, "Exp", 1, xs, portable.Exp, func(x float64) *big.Float { return bigExp(num(x)) })
}

func TestExpm1IsWithinOneUnitOfTheSeries(t *testing.T) {
	xs := join(spread(-60, 60), spread(-2, 2), sizes(-60, 3), spread(30, 709), []float64{1e-300, math.Ln2, 3 * math.Ln2 / 2, 37.5, 53 * math.Ln2})
	hold(t, "Expm1", 1, xs, portable.Expm1, func(x float64) *big.Float {
		return bigExpm1(num(x))
	})
}

func TestLogIsWithinOneUnitOfTheSeries(t *testing.T) {
	xs := join(spread(0.5, 2), spread(0.999, 1.001), spread(1e-9, 1e6), []float64{5e-324, 1e-310, math.SmallestNonzeroFloat64 * 3, math.MaxFloat64, 2, 0.5, math.Sqrt2, math.Sqrt2 / 2})
	for _, x := range sizes(-1060, 1000) {
		if x > 0 {
			xs = append(xs, x)
		}
	}
	hold(t, "Log", 1, xs, portable.Log, bigLog)
	if portable.Log(1) != 0 {
		t.Errorf("Log(1) = %v, want 0", portable.Log(1))
	}
}

func TestSinIsWithinOneUnitOfTheSeries(t *testing.T) {
	xs := join(spread(-8, 8), spread(-1024, 1024), sizes(-40, 3), []float64{math.Pi, math.Pi / 2, math.Pi / 4, math.Pi / 6, 355, 710, 11})
	hold(t, "Sin", 1, xs, portable.Sin, bigSin)
}

func TestPowIsWithinOneUnitOfTheSeries(t *testing.T) {
	source := rand.New(rand.NewPCG(13, 17))
	worst, wx, wy := 0.0, 0.0, 0.0
	for i := range 3 * points {
		var x, y float64
		switch i % 3 {
		case 0: // the model's own range
			x, y = 0.01+20*source.Float64(), -6+12*source.Float64()
		case 1: // everything a float64 holds, kept within overflow
			x = math.Ldexp(1+source.Float64(), source.IntN(2000)-1000)
			y = (1480*source.Float64() - 745) / math.Log(x)
		case 2: // near one, large powers
			x = 1 + (source.Float64()-0.5)*1e-6
			y = (source.Float64() - 0.5) * 1e9
		}
		want := bigExp(op().Mul(num(y), bigLog(x)))
		if d := ulps(portable.Pow(x, y), want); d > worst {
			worst, wx, wy = d, x, y
		}
	}
	t.Logf("Pow: worst %.3f units in the last place, at %v, %v", worst, wx, wy)
	if worst > 1 {
		t.Errorf("Pow(%v, %v) = %v is %.3f units in the last place off", wx, wy, portable.Pow(wx, wy), worst)
	}
}

func TestOneMinusExpOverIsContinuousAtNought(t *testing.T) {
	xs := join(spread(-20, 40), sizes(-60, 3), []float64{1e-300, -1e-300, 5e-324, 700})
	hold(t, "OneMinusExpOver", 2, xs, portable.OneMinusExpOver, func(x float64) *big.Float {
		return op().Quo(op().Neg(bigExpm1(num(-x))), num(x))
	})
	if got := portable.OneMinusExpOver(0); got != 1 {
		t.Errorf("OneMinusExpOver(0) = %v, want 1", got)
	}
}

// The values are those that IEEE 754-2019, 9.2.1, requires of exp, expm1,
// log and pow, and the standard library's math agrees with.
func TestSpecialValues(t *testing.T) {
	inf, nan := math.Inf(1), math.NaN()
	odd := []float64{0, math.Copysign(0, -1), 1, -1, 2, -2, 0.5, -0.5, 3, -3, 2.5, -2.5, inf, -inf, nan, 1e300, -1e300, 1 << 53}
	same := func(a, b float64) bool {
		if math.IsNaN(a) || math.IsNaN(b) {
			return math.IsNaN(a) && math.IsNaN(b)
		}
		return math.Float64bits(a) == math.Float64bits(b) || math.Abs(a-b) <= 1e-15*math.Abs(b)
	}
	for _, x := range odd {
		if got, want := portable.Exp(x), math.Exp(x); !same(got, want) {
			t.Errorf("Exp(%v) = %v, want %v", x, got, want)
		}
		if got, want := portable.Expm1(x), math.Expm1(x); !same(got, want) {
			t.Errorf("Expm1(%v) = %v, want %v", x, got, want)
		}
		if got, want := portable.Log(x), math.Log(x); !same(got, want) {
			t.Errorf("Log(%v) = %v, want %v", x, got, want)
		}
		for _, y := range odd {
			if got, want := portable.Pow(x, y), math.Pow(x, y); !same(got, want) {
				t.Errorf("Pow(%v, %v) = %v, want %v", x, y, got, want)
			}
		}
	}
	for _, x := range []float64{inf, -inf, nan, 1025, -1e9} {
		if s := portable.Sin(x); !math.IsNaN(s) {
			t.Errorf("Sin(%v) = %v, want NaN", x, s)
		}
	}
	if got := portable.OneMinusExpOver(inf); got != 0 {
		t.Errorf("OneMinusExpOver(+Inf) = %v, want 0", got)
	}
	if got := portable.OneMinusExpOver(-inf); got != inf {
		t.Errorf("OneMinusExpOver(-Inf) = %v, want +Inf", got)
	}
}
