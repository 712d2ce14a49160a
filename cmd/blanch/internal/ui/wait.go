package ui

import (
	"strings"

	"github.com/gdamore/tcell/v2"
)

// wait lets time pass for a span or to a time.
type wait struct {
	u     *UI
	text  *entry
	fault string
}

func newWait(u *UI) *wait { return &wait{u: u, text: newEntry("")} }

func (w *wait) about() (string, string) {
	return "Wait", "Let time pass: for a span such as 10 min, or to a time of the case such as 0:45. Whatever cannot be left for later holds the clock on the way, and so does Space."
}

func (w *wait) keys() []hint { return []hint{back("back"), enter("wait")} }

func (w *wait) typing() (*entry, string) { return w.text, "" }

func (w *wait) draw(c canvas) {
	c = c.sub(1, 0, c.w-2, c.h)
	c.text(0, 0, "How long, or until when? For example 10 min, or 0:45.", plain)
	c.text(0, 1, "> ", plain)
	w.text.draw(c.sub(2, 1, c.w-2, 1))
	alone := "A number alone is minutes."
	if to, held := w.u.s().Held(); held {
		alone += " Enter alone goes on to " + to + "."
	}
	c.text(0, 3, alone, plain)
	for i, text := range fold(w.fault, c.w) {
		c.text(0, 4+i, text, strong)
	}
}

func (w *wait) key(ev *tcell.EventKey) bool {
	if ev.Key() != tcell.KeyEnter {
		return w.text.key(ev)
	}
	typed := strings.TrimSpace(w.text.text())
	if typed != "" && strings.Trim(typed, "0123456789") == "" {
		typed += " min"
	}
	s := w.u.s()
	if err := s.Wait(typed); err != nil {
		w.fault = err.Error()
		return true
	}
	w.u.pop()
	w.u.agreed = nil // what was to follow at once does not follow a wait
	for s.Running() && s.Jumps() {
		w.u.tell(s.Pass(0))
	}
	if s.Over() {
		w.u.ended()
	}
	return true
}
