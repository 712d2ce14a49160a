package ui

import (
	"fmt"
	"strings"

	"blanch/cmd/blanch/internal/session"
)

// head draws what stays in sight whatever is open, and returns how many rows
// it took. At the bed the pressure and the lines follow in full; elsewhere
// they are put into a few rows.
func (u *UI) head(c canvas, atBed bool) int {
	b := u.s().Board()
	if u.stands() {
		speed, _, _ := strings.Cut(b.Pace, " ")
		b.Pace = speed + " held"
	}
	u.titles(c, b)
	if c.h < 10 {
		if c.h > 3 && !atBed {
			c.text(1, 2, cut(b.Pressure+"   "+running(b), c.w-2), alertIf(b.Low))
			return 3
		}
		return min(2, c.h) // at the bed the pressure comes first anyway
	}
	y := 2
	if !atBed {
		c.text(1, y, cut(pressureRow(b), c.w-2), alertIf(b.Low))
		y++
		for _, f := range flowRows(b) {
			c.text(1, y, cut(f, c.w-2), plain)
			y++
		}
	}
	c.rule(y, wantedShort(b), alert)
	return y + 1
}

// titles are the two top rows. The time and what the clock does end at the
// right edge, so that they keep their place.
func (u *UI) titles(c canvas, b session.Board) {
	const clockWidth = 25
	if c.w < 60 {
		c.text(1, 0, cut(b.Clock+"  "+b.Pace+"  practice", c.w-2), strong)
		c.text(1, 1, cut(b.Patient+"   "+b.Order, c.w-2), plain)
		return
	}
	c.text(1, 0, cut(b.Title, c.w-clockWidth-12), strong)
	c.text(c.w-clockWidth-10, 0, "practice", plain)
	c.text(c.w-clockWidth, 0, pad(b.Clock, 10)+b.Pace, strong)
	c.text(1, 1, cut(b.Patient+"   "+b.Order, c.w-2), plain)
}

func alertIf(low bool) style {
	if low {
		return alert
	}
	return plain
}

func pressureRow(b session.Board) string {
	said := b.Pressure
	if b.Course != "" {
		said += ": " + b.Course
	}
	if b.Busy != "" {
		said += "   " + b.Busy
	}
	return said
}

// flowRows are the lines that carry something, one a row.
func flowRows(b session.Board) []string {
	var out []string
	for _, f := range b.Flows {
		if f.Runs {
			out = append(out, fmt.Sprintf("%s: %s, %s", f.Name, strings.TrimSuffix(f.Rate, ", running"), f.Felt))
		}
	}
	if len(out) == 0 {
		out = append(out, "nothing is running")
	}
	return out
}

func running(b session.Board) string {
	var out []string
	for _, f := range b.Flows {
		if f.Runs {
			out = append(out, f.Name+" "+strings.TrimSuffix(f.Rate, ", running"))
		}
	}
	if len(out) == 0 {
		return "nothing is running"
	}
	return strings.Join(out, "; ")
}

// wantedShort says who wants the learner, for a rule.
func wantedShort(b session.Board) string {
	var out []string
	for _, call := range b.Calls {
		out = append(out, fmt.Sprintf("%s (waits %s more)", call.ID, call.Left))
	}
	if len(out) == 0 {
		return ""
	}
	return "Someone needs you: " + strings.Join(out, ", ")
}
