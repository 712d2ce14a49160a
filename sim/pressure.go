package sim

import (
	"math"

	"blanch/sim/circulation"
)

// scan is the widest piece in seconds over which a threshold is looked for by
// its ends only, unless it is known to be out of reach.
const scan = 60.0

// watchPressure adds the time and area under the target and over the ceiling
// over the next dt seconds, at the end of which the drugs do what answer says.
func (e *Engine) watchPressure(dt float64, o *outlook, answer circulation.Answer) {
	if e.out.FirstDrug == Never {
		return
	}
	mean := func(s float64) float64 {
		if s == dt {
			return e.untreated(e.at+s) + answer.Rise
		}
		return e.untreated(e.at+s) + e.answerAfter(s, o).Rise
	}
	pieces := int(math.Ceil(dt / scan))
	end := func(i int) float64 { return float64(dt*float64(i)) / float64(pieces) }
	from, joined := knot{0, mean(0)}, 1
	for i := 0; i < pieces; i += joined {
		joined = e.atOnce(i, min(2*joined, pieces-i), end, o)
		s := end(i + joined)
		to := knot{s, mean(s)}
		e.outside(from, to, mean)
		from = to
	}
}

// knot is the mean pressure s seconds into a stretch, or into the case.
type knot struct{ s, mmHg float64 }

// outside splits a piece at the target and at the ceiling and books the parts
// that lie outside.
func (e *Engine) outside(from, to knot, mean func(float64) float64) {
	if limit := e.c.Order.TargetMmHg; from.mmHg < limit || to.mmHg < limit {
		a, b := part(from, to, mean, func(mmHg float64) bool { return mmHg < limit })
		e.out.UnderS += b.s - a.s
		e.out.UnderArea += area(a, b, limit, mean)
	}
	if limit := e.c.Order.CeilMmHg; from.mmHg > limit || to.mmHg > limit {
		a, b := part(from, to, mean, func(mmHg float64) bool { return mmHg > limit })
		e.out.OverS += b.s - a.s
		e.out.OverArea += area(a, b, limit, mean)
	}
}

// part is the part of a piece in which something holds, when it holds at one
// end or both.
func part(from, to knot, mean func(float64) float64, holds func(mmHg float64) bool) (a, b knot) {
	first := holds(from.mmHg)
	if first == holds(to.mmHg) {
		return from, to
	}
	lo, hi := from, to
	for range 40 {
		mid := (lo.s + hi.s) / 2
		if at := (knot{mid, mean(mid)}); holds(at.mmHg) == first {
			lo = at
		} else {
			hi = at
		}
	}
	if first {
		return from, hi
	}
	return hi, to
}

// area between the mean and a limit over a piece, in mmHg x min, by Simpson's
// rule.
func area(a, b knot, limit float64, mean func(float64) float64) float64 {
	off := func(mmHg float64) float64 { return math.Abs(mmHg - limit) }
	mid := mean((a.s + b.s) / 2)
	return float64((b.s-a.s)/6*(off(a.mmHg)+float64(4*off(mid))+off(b.mmHg))) / 60
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
