package quiz

import (
	"fmt"
	"time"

	"blanch/cmd/blanch/internal/review"
)

// comesAgain says when a question comes again.
func comesAgain(c review.Card, now time.Time) string {
	if c.Grade == review.Again {
		return "It comes again today."
	}
	return fmt.Sprintf("It comes again %s.", in(now, c.Due))
}

// in says when something comes, to the nearest day.
func in(now, due time.Time) string { return days(until(now, due)) }

func until(now, due time.Time) int {
	const day = 24 * time.Hour
	return int(max(0, due.Sub(now)+day/2) / day)
}

func days(n int) string {
	switch n {
	case 0:
		return "later today"
	case 1:
		return "in a day"
	}
	return fmt.Sprintf("in %d days", n)
}
