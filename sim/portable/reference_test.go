package portable_test

import (
	"math"
	"math/big"
)

// The reference is computed here from the defining series, with 240 bits,
// and shares nothing with the package under test.

const bits = 240

func num(x float64) *big.Float { return new(big.Float).SetPrec(bits).SetFloat64(x) }

func op() *big.Float { return new(big.Float).SetPrec(bits) }

// bigExp is e^x: halve until small, sum the series, square back.
func bigExp(x *big.Float) *big.Float {
	halved := 0
	r := op().Set(x)
	for r.Sign() != 0 && r.MantExp(nil) > -8 {
		r.Quo(r, num(2))
		halved++
	}
	sum, term := num(1), num(1)
	for n := 1; n < 60; n++ {
		term.Mul(term, r)
		term.Quo(term, num(float64(n)))
		sum.Add(sum, term)
	}
	for ; halved > 0; halved-- {
		sum.Mul(sum, sum)
	}
	return sum
}

// bigExpm1 is e^x - 1, by the series without its first term when x is small.
func bigExpm1(x *big.Float) *big.Float {
	if x.Sign() == 0 || x.MantExp(nil) > -8 {
		return op().Sub(bigExp(x), num(1))
	}
	sum, term := num(0), num(1)
	for n := 1; n < 40; n++ {
		term.Mul(term, x)
		term.Quo(term, num(float64(n)))
		sum.Add(sum, term)
	}
	return sum
}

// bigLog is ln x by Newton's method on e^y = x, from the library's guess.
func bigLog(x float64) *big.Float {
	return bigLogOf(num(x))
}

func bigLogOf(x *big.Float) *big.Float {
	mantissa := op()
	k := x.MantExp(mantissa)
	m, _ := mantissa.Float64()
	y := num(math.Log(m))
	for i := 0; i < 4; i++ { // y += 2 (x - e^y) / (x + e^y), cubic
		e := bigExp(y)
		step := op().Quo(op().Sub(mantissa, e), op().Add(mantissa, e))
		y.Add(y, step.Mul(step, num(2)))
	}
	if k == 0 {
		return y
	}
	ln2 := op().Neg(bigLogOf(num(0.5)))
	if m == 0.5 && k == 1 {
		return num(0)
	}
	return y.Add(y, ln2.Mul(ln2, num(float64(k))))
}

// bigPi is Machin's 16 arctan(1/5) - 4 arctan(1/239).
func bigPi() *big.Float {
	arctan := func(n float64) *big.Float {
		x := op().Quo(num(1), num(n))
		square := op().Mul(x, x)
		sum, power := op().Set(x), op().Set(x)
		for k := 1; k < 120; k++ {
			power.Neg(power.Mul(power, square))
			sum.Add(sum, op().Quo(power, num(float64(2*k+1))))
		}
		return sum
	}
	a := op().Mul(num(16), arctan(5))
	return a.Sub(a, op().Mul(num(4), arctan(239)))
}

var pi = bigPi()

// bigSin sums the series after taking off whole half turns.
func bigSin(x float64) *big.Float {
	turns := math.Round(x / math.Pi)
	r := op().Sub(num(x), op().Mul(pi, num(turns)))
	sin, term := num(0), num(1)
	for n := 0; n < 80; n++ {
		part := op().Set(term)
		if n%4 >= 2 {
			part.Neg(part)
		}
		if n%2 == 1 {
			sin.Add(sin, part)
		}
		term.Mul(term, r)
		term.Quo(term, num(float64(n+1)))
	}
	if math.Mod(turns, 2) != 0 {
		sin.Neg(sin)
	}
	return sin
}

// ulps is how far got lies from want in units of want's last place.
func ulps(got float64, want *big.Float) float64 {
	w, _ := want.Float64()
	if math.IsInf(w, 0) || math.IsInf(got, 0) {
		if w == got {
			return 0
		}
		return math.Inf(1)
	}
	size := math.Abs(w)
	last := math.Nextafter(size, math.Inf(1)) - size
	if size >= math.MaxFloat64/2 {
		last = size - math.Nextafter(size, 0)
	}
	d, _ := op().Quo(op().Sub(num(got), want), num(last)).Float64()
	return math.Abs(d)
}
