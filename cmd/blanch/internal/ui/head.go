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
			c.text(1, 2, fit(c.w-2, b.Pressure+"   "+running(b), "mean "+b.Mean+"   "+running(b), running(b)), alertIf(b.Low))
			return 3
		}
		return min(2, c.h) // at the bed the pressure comes first anyway
	}
	y := 2
	if !atBed {
		c.text(1, y, pressureRow(b, c.w-2), alertIf(b.Low))
		y++
		for _, f := range flowRows(b) {
			c.text(1, y, cut(f, c.w-2), plain)
			y++
		}
	}
	said := wantedShort(b)
	if lost := u.s().NotSavedShort(); lost != "" {
		said = strings.TrimSuffix(lost+". "+said, " ")
	}
	c.rule(y, said, alert)
	return y + 1
}

// tiny is a width at which only the time and the pressure stay in the head.
const tiny = 30

// titles are the two top rows. The time and what the clock does end at the
// right edge, so that they keep their place. Where there is hardly any room
// the time and the pressure are what is left.
func (u *UI) titles(c canvas, b session.Board) {
	const clockWidth = 25
	order := fit(c.w-2, b.Patient+"   "+b.Order, b.Order, after(b.Order, ", "))
	switch {
	case c.w < tiny:
		c.text(0, 0, fit(c.w, " "+b.Clock+"  "+b.Pace, b.Clock+" "+b.Pace, b.Clock), strong)
		c.text(0, 1, fit(c.w, " "+pressureRow(b, c.w-1), b.Mean), alertIf(b.Low))
	case c.w < 60:
		c.text(1, 0, fit(c.w-2, b.Clock+"  "+b.Pace+"  practice", b.Clock+"  "+b.Pace), strong)
		c.text(1, 1, order, plain)
	default:
		c.text(1, 0, cut(b.Title, c.w-clockWidth-12), strong)
		c.text(c.w-clockWidth-10, 0, "practice", plain)
		c.text(c.w-clockWidth, 0, pad(b.Clock, 10)+b.Pace, strong)
		c.text(1, 1, order, plain)
	}
}

// after is what follows a mark in a text, or all of it.
func after(s, mark string) string {
	if _, rest, ok := strings.Cut(s, mark); ok {
		return rest
	}
	return s
}

func alertIf(low bool) style {
	if low {
		return alert
	}
	return plain
}

// pressureRow is the pressure with its course, as much as fits: what is under
// the target says so to the last.
func pressureRow(b session.Board, w int) string {
	if b.Mean == "" {
		return fit(w, b.Pressure, "no pressure yet", "--")
	}
	course, busy := b.Course, b.Busy
	if course != "" {
		course = ": " + course
	}
	if busy != "" {
		busy = "   " + busy
	}
	return fit(w, b.Pressure+course+busy, b.Pressure+course, "mean pressure "+b.Mean+" at "+b.At+course+busy, "mean pressure "+b.Mean+" at "+b.At+course,
		"mean "+b.Mean+" at "+b.At+course, "mean "+b.Mean+course, "mean "+b.Mean+" at "+b.At, "mean "+b.Mean, b.Mean, strings.TrimSuffix(b.Mean, " mmHg"))
}

// flowRows are the lines that carry something, one a row.
func flowRows(b session.Board) []string {
	var out []string
	for _, f := range b.Flows {
		if f.Runs {
			row := f.Name + ": " + strings.TrimSuffix(f.Rate, ", running")
			if f.Felt != "" {
				row += ", " + f.Felt
			}
			out = append(out, row)
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
