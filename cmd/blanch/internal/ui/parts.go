package ui

import (
	"fmt"

	"github.com/gdamore/tcell/v2"

	"blanch/cmd/blanch/internal/session"
)

// list is a list of rows of which one is chosen.
type list struct {
	at, top int
	rows    int // in sight when it was last drawn
}

// key moves the choice; false when the key is for something else.
func (l *list) key(ev *tcell.EventKey, n int) bool {
	switch ev.Key() {
	case tcell.KeyUp:
		l.at--
	case tcell.KeyDown:
		l.at++
	case tcell.KeyPgUp:
		l.at -= max(1, l.rows-1)
	case tcell.KeyPgDn:
		l.at += max(1, l.rows-1)
	case tcell.KeyHome:
		l.at = 0
	case tcell.KeyEnd:
		l.at = n - 1
	default:
		return false
	}
	l.at = max(0, min(l.at, n-1))
	return true
}

// draw sets the rows that are in sight, the chosen one marked and reversed,
// with the cursor on it where own says so.
func (l *list) draw(c canvas, n int, own bool, item func(i int) string) {
	l.rows = c.h
	l.at = max(0, min(l.at, n-1))
	l.top = max(0, min(l.top, n-c.h))
	if l.at < l.top {
		l.top = l.at
	}
	if c.h > 0 && l.at >= l.top+c.h {
		l.top = l.at - c.h + 1
	}
	for y := 0; y < c.h && l.top+y < n; y++ {
		i := l.top + y
		text := cut(item(i), c.w-4)
		switch {
		case i == l.at:
			c.text(0, y, "> "+pad(text, c.w-4), marked)
			if own {
				c.cursor(0, y)
			}
		default:
			c.text(0, y, "  "+text, plain)
		}
		if y == 0 && l.top > 0 {
			c.right(y, "^", plain)
		}
		if y == c.h-1 && l.top+c.h < n {
			c.right(y, "v", plain)
		}
	}
}

// pager is text that is read page by page.
type pager struct{ top, rows, all int }

func (p *pager) key(ev *tcell.EventKey) bool {
	page := max(1, p.rows-1)
	switch ev.Key() {
	case tcell.KeyUp:
		p.top--
	case tcell.KeyDown:
		p.top++
	case tcell.KeyPgUp:
		p.top -= page
	case tcell.KeyPgDn:
		p.top += page
	case tcell.KeyHome:
		p.top = 0
	case tcell.KeyEnd:
		p.top = p.all
	default:
		return false
	}
	p.clamp()
	return true
}

func (p *pager) clamp() { p.top = max(0, min(p.top, p.all-p.rows)) }

// last says that there is no more below.
func (p *pager) last() bool { return p.top+p.rows >= p.all }

// draw sets the rows in sight and, when there are more, which ones they are.
func (p *pager) draw(c canvas, rows []row) {
	p.all, p.rows = len(rows), c.h
	if len(rows) > c.h {
		p.rows = max(1, c.h-1)
	}
	p.clamp()
	c.sub(0, 0, c.w, p.rows).rows(rows[p.top:min(p.all, p.top+p.rows)])
	if len(rows) > c.h {
		c.right(c.h-1, fmt.Sprintf("rows %d to %d of %d", p.top+1, min(p.all, p.top+p.rows), p.all), plain)
	}
}

// set turns the session's lines into rows.
func set(lines []session.Line, w int) []row {
	var out []row
	for _, l := range lines {
		switch l.Kind {
		case session.Heading:
			if len(out) > 0 {
				out = append(out, row{})
			}
			for _, s := range fold(l.Text, w) {
				out = append(out, row{s, 0, strong})
			}
		case session.Happened:
			for i, s := range fold(l.Text, w-9) {
				if i == 0 {
					s = pad(l.At, 9) + s
					out = append(out, row{s, 0, plain})
					continue
				}
				out = append(out, row{s, 9, plain})
			}
		case session.Row:
			if width(l.Text) <= w {
				out = append(out, row{l.Text, 0, plain})
				continue
			}
			fallthrough
		case session.Fault:
			for _, s := range fold(l.Text, w) {
				out = append(out, row{s, 0, plain})
			}
		default:
			in := 0
			if len(l.Text) > 2 && l.Text[:2] == "- " {
				in = 2
			}
			for i, s := range fold(l.Text, w-in) {
				if i > 0 {
					out = append(out, row{s, in, plain})
				} else {
					out = append(out, row{s, 0, plain})
				}
			}
		}
	}
	return out
}
