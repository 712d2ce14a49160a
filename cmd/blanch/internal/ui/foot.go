package ui

import (
	"strings"

	"github.com/gdamore/tcell/v2"
)

// foot draws what was just said and the next keys, the way out first.
func (u *UI) foot(c canvas) {
	if c.h < 1 {
		return
	}
	if c.h > 1 {
		st := strong
		if u.loud {
			st = alert
		}
		said := fold(u.flash, c.w-6)
		if c.h > 2 && len(said) > 1 {
			c.rule(0, said[0], st)
			c.text(3, 1, fit(c.w-6, strings.Join(said[1:], " ")), st)
		} else {
			c.rule(0, u.flash, st)
		}
	} else if u.flash != "" {
		c.text(0, 0, cut(u.flash, c.w), strong)
		return
	}
	c.text(1, c.h-1, u.hints(c.w-2), plain)
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
