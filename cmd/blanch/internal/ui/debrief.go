package ui

import (
	"fmt"

	"github.com/gdamore/tcell/v2"

	"blanch/cmd/blanch/internal/session"
)

// reflection asks the learner before the marks are shown.
type reflection struct {
	u    *UI
	at   int
	text *entry
}

// reflect begins with the first question that is not answered.
func (u *UI) reflect(draft string) {
	u.stack = u.stack[:0]
	r := &reflection{u: u, at: -1, text: newEntry("")}
	if r.next(draft) {
		u.push(r)
		return
	}
	u.marks()
}

func (u *UI) marks() {
	u.stack = append(u.stack[:0], newDebrief(u))
	u.left.Finished = true
	u.left.Attempt = u.play
}

// goHome closes a finished attempt. Where the screen did not open at home
// there is none.
func (u *UI) goHome() {
	if u.open.First != nil {
		u.leave(nil)
		return
	}
	if u.open.Refresh != nil {
		u.open.Unfinished = u.open.Refresh()
	}
	u.play = nil
	u.stack = append(u.stack[:0], newHome(u))
}

// next goes to the next question without an answer; false after the last.
func (r *reflection) next(draft string) bool {
	s := r.u.s()
	for i := r.at + 1; i < len(s.Reflections()); i++ {
		if !s.Answered(i) {
			r.at, r.text = i, newEntry(draft)
			return true
		}
	}
	return false
}

func (r *reflection) about() (string, string) {
	return "Before the marks", "A few questions in your own words, before you see what the rules say. Nobody marks the answers; they are kept with the attempt. Enter alone passes a question over."
}

func (r *reflection) keys() []hint {
	return []hint{back("leave, saved"), enter("keep it and go on")}
}

func (r *reflection) typing() (*entry, string) { return r.text, r.text.text() }

func (r *reflection) draw(c canvas) {
	c = c.sub(1, 0, c.w-2, c.h)
	questions := r.u.s().Reflections()
	y := 0
	for _, text := range fold("The case is over. Before the marks, in your own words. Enter alone passes a question over.", c.w) {
		c.text(0, y, text, plain)
		y++
	}
	y++
	for _, text := range fold(fmt.Sprintf("%d of %d. %s", r.at+1, len(questions), questions[r.at]), c.w) {
		c.text(0, y, text, strong)
		y++
	}
	y++
	r.text.draw(c.sub(0, y, c.w, c.h-y))
}

func (r *reflection) key(ev *tcell.EventKey) bool {
	switch ev.Key() {
	case tcell.KeyEscape:
		r.u.leave(nil)
	case tcell.KeyEnter:
		r.u.s().Reflect(r.at, r.text.text())
		if !r.next("") {
			r.u.marks()
		}
	default:
		return r.text.key(ev)
	}
	return true
}

// debrief is the hour read again, one part at a time.
type debrief struct {
	u     *UI
	parts []session.Paper
	at    int
	pager pager
}

func newDebrief(u *UI) *debrief { return &debrief{u: u, parts: u.s().Debrief()} }

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
		d.at, d.pager = turn(d.at, -1, len(d.parts)), pager{}
	case ev.Key() == tcell.KeyRight || ev.Key() == tcell.KeyTab:
		d.at, d.pager = turn(d.at, 1, len(d.parts)), pager{}
	case ev.Key() == tcell.KeyRune && ev.Rune() == ' ':
		d.pager.key(tcell.NewEventKey(tcell.KeyPgDn, 0, tcell.ModNone))
	default:
		return false
	}
	return true
}
