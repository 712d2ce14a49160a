package sim

import "fmt"

// Time is simulated time: whole milliseconds since the case opened.
type Time int64

// Spans of simulated time.
const (
	Second Time = 1000
	Minute      = 60 * Second
	Hour        = 60 * Minute
)

// Never is later than every moment of a case.
const Never Time = 1<<62 - 1

// Seconds is t as a real number of seconds.
func (t Time) Seconds() float64 { return float64(t) / 1000 }

// FromSeconds is the first whole millisecond not before s, so that an event
// found inside the engine is never shown before it has happened.
func FromSeconds(s float64) Time {
	t := Time(float64(s*1000)) - 1
	for t.Seconds() < s {
		t++
	}
	return t
}

// Clock writes t as hours and minutes, "1:05".
func (t Time) Clock() string {
	if t >= Never {
		return "never"
	}
	return fmt.Sprintf("%d:%02d", t/Hour, t%Hour/Minute)
}

// Exact writes t as hours, minutes and seconds, "1:05:09".
func (t Time) Exact() string {
	if t >= Never {
		return "never"
	}
	return fmt.Sprintf("%s:%02d", t.Clock(), t%Minute/Second)
}
