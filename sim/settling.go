package sim

import (
	"math"

	"blanch/sim/circulation"
)

// roughly is how far in mmHg x s the area of a joined piece may be off by
// Simpson's rule, as it is over the first pieces after a change.
const roughly = 0.1

// simpson divides the error term of Simpson's rule, width^5 times the fourth derivative over 2880.
const simpson = 2880

// atOnce is how many pieces from the i-th on, at most so many, can be looked at
// as one: nothing else bends the course there, no threshold is within reach,
// and what the drugs still do is slow enough for the area.
func (e *Engine) atOnce(i, most int, end func(int) float64, o *outlook) int {
	if most == 1 {
		return 1
	}
	from := end(i)
	low, high, fastest, steady := e.settling(from, o)
	if !steady {
		return 1
	}
	begin, bend := e.untreated(e.at+from), e.nextBend(e.at+from)
	n := most
	for ; n > 1; n /= 2 {
		s := end(i + n)
		if e.at+s > bend {
			continue
		}
		wide := s - from
		turns := float64(wide * fastest)
		if float64(float64(wide*(high-low))*float64(float64(turns*turns)*float64(turns*turns)))/simpson > roughly {
			continue
		}
		then := e.untreated(e.at + s)
		lowest, highest := min(begin, then)+low, max(begin, then)+high
		if apart(lowest, highest, e.c.Order.TargetMmHg) && apart(lowest, highest, e.c.Order.CeilMmHg) {
			break
		}
	}
	return n
}

// apart says that a limit lies outside a range.
func apart(lowest, highest, limit float64) bool { return limit < lowest || highest < limit }

// settling is what the rise stays within from s seconds into a stretch on, and
// the fastest rate in it. It is not steady while what reaches the blood changes.
func (e *Engine) settling(s float64, o *outlook) (low, high, fastest float64, steady bool) {
	var least, most [maxAgents]float64
	for i := 1; i < len(e.agents); i++ {
		if !o.moves[i] {
			continue
		}
		c, a := &o.courses[i], &e.agents[i]
		if !c.Steady() {
			return 0, 0, 0, false
		}
		least[i], most[i] = c.BandAt(e.pace(i, s))
		if a.Blocks > 0 { // the more of it, the smaller the rise
			least[i], most[i] = most[i], least[i]
		}
		fastest = max(fastest, c.Fastest())
	}
	n := len(e.agents)
	low = circulation.Answered(e.agents, least[:n]).Rise
	high = circulation.Answered(e.agents, most[:n]).Rise
	return low, high, fastest, true
}

// nextBend is the first time not before t at which the course without a
// vasopressor bends or jumps.
func (e *Engine) nextBend(t float64) float64 {
	next := math.Inf(1)
	bend := func(at float64) {
		if at >= t && at < next {
			next = at
		}
	}
	for _, p := range e.without {
		bend(p.s)
	}
	for i, s := range e.c.Strains {
		bend(s.At.Seconds())
		bend(s.At.Seconds() + s.Over.Seconds())
		if at := e.treated[i]; at != Never {
			bend(at.Seconds())
			bend(at.Seconds() + s.Eases.Seconds())
		}
	}
	return next
}
