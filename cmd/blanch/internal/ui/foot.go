package ui

import (
	"fmt"
	"strings"

	"github.com/gdamore/tcell/v2"
)

// foot draws what was just said and the next keys, the way out first.
func (u *UI) foot(c canvas, said []string) {
	if c.h < 1 {
		return
	}
	st := strong
	if u.loud {
		st = alert
	}
	switch {
	case c.h > 1 && len(said) == 0:
		c.rule(0, "", st)
	case c.h > 1:
		c.rule(0, said[0], st)
		for i, text := range said[1:] {
			c.text(3, 1+i, text, st)
		}
	case u.flash != "":
		c.text(0, 0, cut(u.flash, c.w), strong)
		return
	}
	c.text(1, c.h-1, u.hints(c.w-2), plain)
}

// sayRows are the rows that what was just said may take of a screen.
func sayRows(h int) int {
	switch {
	case h >= 30:
		return 4
	case h >= 24:
		return 3
	case h >= 16:
		return 2
	}
	return 1
}

// message is what was just said in so many rows: what came of one's own act
// first, then what came beside it. What finds no room is counted, with the key
// that shows it.
func (u *UI) message(w, rows int) []string {
	all := fold(strings.TrimSpace(strings.Join(append([]string{u.flash}, u.came...), " ")), w)
	u.missed = false
	switch {
	case u.flash == "" && len(u.came) == 0:
		return nil
	case len(all) <= rows:
		return all
	}
	u.missed = true
	room := rows
	if len(u.came) > 0 && rows > 1 {
		room--
	}
	own := fold(u.flash, w)
	if u.flash == "" {
		own = nil
	}
	if len(own) > room || rows == 1 {
		own = u.shortened(own, w, max(1, room), len(u.came)*(2-min(rows, 2)))
	}
	left := rows - len(own)
	for n := len(u.came); n > 0 && left > 0; n-- {
		text := strings.Join(u.came[:n], " ")
		if n < len(u.came) {
			text += fmt.Sprintf(" And %d more: %s.", len(u.came)-n, u.moreKey())
		}
		if came := fold(text, w); len(came) <= left {
			return append(own, came...)
		}
	}
	if len(u.came) > 0 && left > 0 {
		own = append(own, u.shortened(fold(u.came[0], w), w, left, len(u.came)-1)...)
	}
	return own
}

// shortened is the first rows of a text, of which the last says that there is
// more and how many other things there are, with the key that shows them.
func (u *UI) shortened(text []string, w, rows, others int) []string {
	end := " .. whole: " + u.moreKey()
	if others > 0 {
		end = fmt.Sprintf(" .. whole, and %d more: %s", others, u.moreKey())
	}
	if len(text) <= rows && others == 0 {
		return text
	}
	out := append([]string(nil), text[:min(rows, len(text))]...)
	last := len(out) - 1
	if last < 0 {
		return []string{strings.TrimSpace(end)}
	}
	short := strings.TrimSuffix(cut(out[last], w-width(end)), " ..")
	out[last] = short + end
	return out
}

// moreKey is what is pressed to read what there was no room for.
func (u *UI) moreKey() string {
	if u.stands() {
		return "Esc, p"
	}
	return "p"
}

// hints are as many keys as fit: the way out, help, then the rest.
func (u *UI) hints(w int) string {
	text := ""
	for _, h := range u.shown() {
		more := h.key + " " + h.says
		if text != "" {
			more = "  " + more
		}
		if width(text)+width(more) > w {
			break
		}
		text += more
	}
	return text
}

// shown are the keys of the top view with those that work everywhere, in the
// order in which they are named.
func (u *UI) shown() []hint {
	own := u.top().keys()
	var first, rest []hint
	for _, h := range own {
		if h.key == "Esc" {
			first = append(first, h)
		} else {
			rest = append(rest, h)
		}
	}
	if u.typed() == nil {
		first = append(first, letter('?', "help"))
	} else {
		first = append(first, press(tcell.KeyF1, "F1", "help"))
	}
	return append(first, rest...)
}
