package ui

import (
	"fmt"

	"github.com/gdamore/tcell/v2"

	"blanch/cmd/blanch/internal/session"
)

// again offers the last look at a line once more, as one list to agree to.
type again struct {
	u    *UI
	look session.Again
}

// lookAgain opens the list, or says why there is none.
func (u *UI) lookAgain(line string) {
	g := u.s().LookAgain(line)
	if g.Why != "" {
		u.flash = "Not possible now: " + stop(g.Why)
		return
	}
	u.push(&again{u, g})
}

func (a *again) stands() bool { return true }

func (a *again) about() (string, string) {
	return "Look again", "The acts of the last look at this line, done once more by yourself, one after the other, each in its own time. Whatever cannot be left for later ends the list; what was done stands."
}

func (a *again) keys() []hint { return []hint{back("back"), enter("do all of them")} }

func (a *again) draw(c canvas) {
	c = c.sub(1, 0, c.w-2, c.h)
	rows := []row{{fmt.Sprintf("%s, as at %s:", a.look.Line, a.look.At), 0, strong}}
	for _, act := range a.look.Acts {
		for _, text := range fold(fmt.Sprintf("%s (%s)", act.Said, act.Takes), c.w-2) {
			rows = append(rows, row{text, 2, plain})
		}
	}
	for _, text := range fold(fmt.Sprintf("Enter does all of them, one after the other, in %s. Esc goes back.", a.look.Takes), c.w) {
		rows = append(rows, row{text, 0, plain})
	}
	c.rows(rows[:min(len(rows), c.h)])
}

func (a *again) key(ev *tcell.EventKey) bool {
	if ev.Key() != tcell.KeyEnter {
		return false
	}
	a.u.pop()
	for _, act := range a.look.Acts {
		a.u.agreed = append(a.u.agreed, act.Said)
	}
	a.u.onward()
	return true
}

// onward begins the next of the acts that were agreed to as a list, once the
// last one is done. What cannot be left for later ends the list.
func (u *UI) onward() {
	s := u.s()
	for len(u.agreed) > 0 && !s.Over() && s.Board().Busy == "" {
		next, rest := u.agreed[0], u.agreed[1:]
		if u.loud || u.stir {
			u.came, u.agreed = append(u.came, "The look ends before: "+stop(next)), nil
			return
		}
		if why := s.Preview(next).Why; why != "" {
			u.flash, u.agreed = fmt.Sprintf("The look ends before: %s (%s).", next, why), nil
			return
		}
		u.do(next)
		u.agreed = rest
	}
}
