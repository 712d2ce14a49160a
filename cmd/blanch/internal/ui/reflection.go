package ui

import (
	"fmt"

	"github.com/gdamore/tcell/v2"
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
