package ui

import (
	"github.com/gdamore/tcell/v2"

	"blanch/cmd/blanch/internal/session"
)

// papers are texts that can be read at any time.
type papers struct {
	u     *UI
	at    int
	pager pager
}

func newPapers(u *UI) *papers { return &papers{u: u} }

// toTheEnd opens all so far at what came last.
func (p *papers) toTheEnd() {
	const far = 1 << 30
	p.at, p.pager.top = len(p.u.s().Papers())-1, far
}

func (p *papers) stands() bool { return true }

func (p *papers) about() (string, string) {
	return "Papers", "How things stand, the order, the notes, the policy you are marked under, the stock, and all that happened so far. The clock stands while you read."
}

func (p *papers) keys() []hint {
	return []hint{back("bed"), hint{key: "left, right", says: "another paper"}, press(tcell.KeyPgDn, "PgDn", "next page"), press(tcell.KeyPgUp, "PgUp", "page back")}
}

func (p *papers) draw(c canvas) {
	drawPapers(c, p.u.s().Papers(), p.at, &p.pager)
}

// drawPapers sets the names of papers, the open one marked, and its text.
func drawPapers(c canvas, all []session.Paper, at int, pg *pager) {
	x := 1
	for i, paper := range all {
		name := " " + paper.Name + " "
		st := plain
		if i == at {
			name, st = ">"+paper.Name+" ", marked
			c.cursor(x, 0)
		}
		x += c.text(x, 0, name, st) + 1
	}
	body := c.sub(1, 2, c.w-2, c.h-2)
	if c.w <= 82 { // the sheet keeps its own rows of up to 80 columns
		body = c.below(2)
	}
	pg.draw(body, set(all[at].Lines, body.w))
}

func (p *papers) key(ev *tcell.EventKey) bool {
	n := len(p.u.s().Papers())
	switch {
	case p.pager.key(ev):
	case ev.Key() == tcell.KeyLeft:
		p.at, p.pager = along(p.at, -1, n), pager{}
	case ev.Key() == tcell.KeyRight || ev.Key() == tcell.KeyTab:
		p.at, p.pager = along(p.at, 1, n), pager{}
	default:
		return false
	}
	return true
}
