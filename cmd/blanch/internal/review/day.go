package review

import "time"

// A day is 24 h counted from an instant, and not a date: dates change with the
// time zone and are no use to somebody who learns after a night shift. A day
// that lacks up to Leeway counts as whole, so that an evening which comes a
// little earlier than the last one, or an hour earlier by daylight saving, is
// the next day. The length of the leeway is our own choice: it is longer than
// an early start, and 20 h have a night in them.
const (
	day    = 24 * time.Hour
	Leeway = 4 * time.Hour
)

// Days is the number of whole days from one instant to another, never below 0.
// It knows no time zone, so travel and daylight saving change nothing.
func Days(from, to time.Time) int {
	// By the wall clock: the monotonic one stands still while a laptop sleeps.
	ms := to.UnixMilli() - from.UnixMilli() + Leeway.Milliseconds()
	return int(max(0, ms) / day.Milliseconds())
}

// setBack reports that now is a day or more before an instant that has been:
// the clock was set, and how much time has passed is not known.
func setBack(past, now time.Time) bool { return Days(now, past) >= 1 }
