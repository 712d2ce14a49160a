package sim

import (
	"math"
)

// scan is the widest stretch in seconds over which a threshold is looked
// for by its ends only.
const scan = 60.0

// watchPressure adds the time and area under and over the target over the
// next dt seconds.
func (e *Engine) watchPressure(dt float64, in *inputs) {
	if e.out.FirstDrug == Never {
		return
	}
	mean := func(s float64) float64 { return e.untreated(e.at+s) + e.answerAfter(s, in).Rise }
	pieces := math.Ceil(dt / scan)
	from, low := 0.0, mean(0)
	for i := 1.0; i <= pieces; i++ {
		to := float64(dt*i) / pieces
		high := mean(to)
		e.outside(from, to, low, high, mean)
		from, low = to, high
	}
}

// outside splits a stretch at the target and at the ceiling and books the
// parts that lie outside.
func (e *Engine) outside(from, to, atFrom, atTo float64, mean func(float64) float64) {
	if limit := e.c.Order.TargetMmHg; atFrom < limit || atTo < limit {
		a, b := part(from, to, atFrom < limit, atTo < limit, func(s float64) bool { return mean(s) < limit })
		e.out.UnderS += b - a
		e.out.UnderArea += area(a, b, limit, mean)
	}
	if limit := e.c.Order.CeilMmHg; atFrom > limit || atTo > limit {
		a, b := part(from, to, atFrom > limit, atTo > limit, func(s float64) bool { return mean(s) > limit })
		e.out.OverS += b - a
		e.out.OverArea += area(a, b, limit, mean)
	}
}

// part is the part of a stretch in which something holds, when it holds at
// one end or both.
func part(from, to float64, first, last bool, holds func(float64) bool) (a, b float64) {
	if first == last {
		return from, to
	}
	lo, hi := from, to
	for range 40 {
		mid := (lo + hi) / 2
		if holds(mid) == first {
			lo = mid
		} else {
			hi = mid
		}
	}
	if first {
		return from, hi
	}
	return hi, to
}

// area between the mean and a limit over a stretch, in mmHg x min, by
// Simpson's rule.
func area(a, b, limit float64, mean func(float64) float64) float64 {
	off := func(s float64) float64 { return math.Abs(mean(s) - limit) }
	return float64((b-a)/6*(off(a)+float64(4*off((a+b)/2))+off(b))) / 60
}

// strain is what else weighs on the pressure at t: each strain comes on over
// its time, lasts, and goes over its time once it is treated.
func (e *Engine) strain(t float64) float64 {
	sum := 0.0
	for i, s := range e.c.Strains {
		on := ramp(t-s.At.Seconds(), s.Over.Seconds())
		if on <= 0 {
			continue
		}
		if at := e.treated[i]; at != Never {
			on = float64(on * (1 - ramp(t-at.Seconds(), s.Eases.Seconds())))
		}
		sum += float64(s.MmHg * on)
	}
	return sum
}

// ramp goes from 0 to 1 over a time.
func ramp(since, over float64) float64 {
	switch {
	case since <= 0:
		return 0
	case since >= over:
		return 1
	}
	return since / over
}
