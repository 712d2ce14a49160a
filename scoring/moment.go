package scoring

import (
	"blanch/scenarios"
	"blanch/sim"
)

// Moment is an instant of simulated time, or never. The zero value is never.
type Moment struct {
	Known bool `expr:"known"`
	at    sim.Time
}

// Span is a length of simulated time, or one that is never over. The zero
// value is never over.
type Span struct {
	Known bool `expr:"known"`
	long  sim.Time
	unset bool // a limit that the policy leaves out: never over
}

// farthest bounds the arithmetic of times, so that no sum can wrap.
const farthest = sim.Time(1) << 50

func clamp(t sim.Time) sim.Time { return max(-farthest, min(farthest, t)) }

func momentAt(t sim.Time) Moment {
	if t >= sim.Never {
		return Moment{}
	}
	return Moment{Known: true, at: clamp(t)}
}

func spanOf(t sim.Time) Span {
	if t >= sim.Never {
		return Span{}
	}
	return Span{Known: true, long: clamp(t)}
}

func spanOfSeconds(s float64) Span {
	if !(s < farthest.Seconds()) {
		return Span{Known: true, long: farthest}
	}
	if s < -farthest.Seconds() {
		return Span{Known: true, long: -farthest}
	}
	return Span{Known: true, long: sim.FromSeconds(s)}
}

// time is the moment for the engine's arithmetic; sim.Never when never.
func (m Moment) time() sim.Time {
	if !m.Known {
		return sim.Never
	}
	return m.at
}

func (m Moment) since(from Moment) Span {
	if !m.Known || !from.Known {
		return Span{}
	}
	return spanOf(m.at - from.at)
}

func (m Moment) plus(s Span) Moment {
	if !m.Known || !s.Known {
		return Moment{}
	}
	return momentAt(clamp(m.at + s.long))
}

func (m Moment) minus(s Span) Moment {
	return m.plus(Span{Known: s.Known, long: -s.long})
}

func (s Span) plus(o Span) Span {
	if !s.Known || !o.Known {
		return Span{}
	}
	return spanOf(clamp(s.long + o.long))
}

func (s Span) minus(o Span) Span {
	return s.plus(Span{Known: o.Known, long: -o.long})
}

func (s Span) times(n float64) Span {
	if !s.Known {
		return Span{}
	}
	return spanOfSeconds(s.long.Seconds() * n)
}

// before says m < other, or m <= other.
func (m Moment) before(other Moment, orEqual bool) bool {
	return sooner(m.Known, m.at, other.Known, other.at, orEqual)
}

// shorter says s < other, or s <= other.
func (s Span) shorter(other Span, orEqual bool) bool {
	return sooner(s.Known, s.long, other.Known, other.long, orEqual)
}

// sooner orders times in which never is later than everything, another never
// included: "less" and "at most" fail when the left side is never.
func sooner(leftKnown bool, left sim.Time, rightKnown bool, right sim.Time, orEqual bool) bool {
	switch {
	case !leftKnown:
		return false
	case !rightKnown:
		return true
	case orEqual:
		return left <= right
	}
	return left < right
}

// String is the clock time since the case opened, "1:05", or "never".
func (m Moment) String() string {
	if !m.Known {
		return "never"
	}
	return m.at.Clock()
}

// String is the span in words, "45 s", "12 min", "1 h 5 min", or "never". What
// is no whole second is told to the tenth and never as a whole one, so that a
// span just over a limit, or just under it, does not read as the limit.
func (s Span) String() string {
	switch {
	case s.unset:
		return "no set time"
	case !s.Known:
		return "never"
	case s.long < 0:
		return "minus " + Span{Known: true, long: -s.long}.String()
	}
	whole, rest := s.long-s.long%sim.Second, s.long%sim.Second
	if rest > 0 {
		const tenth = sim.Second / 10
		rest = max(tenth, min(9*tenth, (rest+tenth/2)/tenth*tenth))
	}
	return scenarios.TimeWords(whole + rest)
}

// orNever is a span as it is told after a colon, where "0 s" would sound as if
// something had been.
func orNever(s Span) Words {
	switch {
	case !s.Known:
		return Words{"not known"}
	case s.long == 0:
		return Words{"never"}
	}
	return Words{s.String()}
}
