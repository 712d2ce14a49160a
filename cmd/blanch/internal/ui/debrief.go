package ui

import (
	"github.com/gdamore/tcell/v2"

	"blanch/cmd/blanch/internal/session"
)

// marks shows the debrief, and closes the recording with it.
func (u *UI) marks() {
	u.stack = append(u.stack[:0], newDebrief(u))
	u.left.Finished = true
	u.left.Attempt = u.play
	u.warned = false // the end is when it matters most
	u.warn()
}

// goHome closes a finished attempt. Where the screen did not open at home
// there is none.
func (u *UI) goHome() {
	if u.open.First != nil || u.open.Sitting != nil {
		u.leave(nil)
		return
	}
	if u.open.Refresh != nil {
		u.open.Unfinished, u.open.Finished = u.open.Refresh()
	}
	u.play = nil
	u.stack = append(u.stack[:0], newHome(u))
}

// debrief is the hour read again, one part at a time.
type debrief struct {
	u     *UI
	parts []session.Paper
	at    int
	pager pager
}

func newDebrief(u *UI) *debrief { return &debrief{u: u, parts: u.s().Debrief(u.play.Path)} }

func (d *debrief) about() (string, string) {
	return "Debrief", "The marks with what each rests on, the whole hour with what was not shown, the sums worked with your own numbers, how the arm fared, and what the case has to say."
}

func (d *debrief) keys() []hint {
	out := "leave"
	if d.u.open.First == nil {
		out = "home"
	}
	return []hint{
		back(out), hint{key: "left, right", says: "another part"},
		press(tcell.KeyPgDn, "PgDn", "next page"), press(tcell.KeyPgUp, "PgUp", "page back"), press(tcell.KeyRight, "Right", "next part"),
	}
}

func (d *debrief) draw(c canvas) { drawPapers(c, d.parts, d.at, &d.pager) }

func (d *debrief) key(ev *tcell.EventKey) bool {
	switch {
	case d.pager.key(ev):
	case ev.Key() == tcell.KeyEscape:
		d.u.goHome()
	case ev.Key() == tcell.KeyLeft:
		d.at, d.pager = along(d.at, -1, len(d.parts)), pager{}
	case ev.Key() == tcell.KeyRight || ev.Key() == tcell.KeyTab:
		d.at, d.pager = along(d.at, 1, len(d.parts)), pager{}
	case ev.Key() == tcell.KeyRune && ev.Rune() == ' ':
		d.pager.key(tcell.NewEventKey(tcell.KeyPgDn, 0, tcell.ModNone))
	default:
		return false
	}
	return true
}
