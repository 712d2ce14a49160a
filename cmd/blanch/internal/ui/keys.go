package ui

import (
	"strings"

	"github.com/gdamore/tcell/v2"
	"github.com/rivo/tview"

	"blanch/cmd/blanch/internal/session"
)

// InputHandler takes every key.
func (u *UI) InputHandler() func(*tcell.EventKey, func(tview.Primitive)) {
	return func(ev *tcell.EventKey, _ func(tview.Primitive)) { u.key(ev) }
}

// PasteHandler puts what was pasted where text is typed.
func (u *UI) PasteHandler() func(string, func(tview.Primitive)) {
	return func(text string, _ func(tview.Primitive)) {
		u.flash, u.came, u.loud = "", nil, false
		switch e := u.typed(); {
		case e == nil:
			u.flash = "Nothing can be typed here, so nothing was pasted."
		default:
			if !e.paste(strings.Join(strings.Fields(text), " ")) {
				u.flash = session.TooLong
			}
		}
		if f, ok := u.top().(*finder); ok && f.offer == nil {
			f.look()
		}
	}
}

func (u *UI) key(ev *tcell.EventKey) {
	u.flash, u.came, u.loud, u.stir = "", nil, false, false
	if u.play != nil {
		u.from = u.s().Entries()
	}
	switch {
	case ev.Key() == tcell.KeyCtrlC:
		u.leave(ErrInterrupted)
		return
	case ev.Key() == tcell.KeyF1 || ev.Key() == tcell.KeyRune && ev.Rune() == '?' && u.typed() == nil:
		if _, already := u.top().(*help); !already {
			u.push(newHelp(u))
		}
		return
	case ev.Key() == tcell.KeyRune && u.typed() != nil && u.typed().full():
		u.flash = session.TooLong
		return
	case u.top().key(ev):
		return
	case ev.Key() == tcell.KeyEscape:
		u.pop()
		return
	case ev.Key() == tcell.KeyRune && u.typed() == nil:
		u.everywhere(ev.Rune())
	}
}

// everywhere takes the keys that mean the same wherever nothing is typed.
func (u *UI) everywhere(r rune) {
	switch r {
	case 'q':
		u.wayOut()
		return
	case 'k':
		u.colour = !u.colour
		u.flash = map[bool]string{true: "Colour is on; nothing depends on it.", false: "Colour is off."}[u.colour]
		return
	}
	if u.play == nil || u.bare() || u.stands() {
		return
	}
	switch r {
	case ' ':
		u.hold()
	case 'x':
		u.faster()
	case 'w':
		u.push(newWait(u))
	case '/':
		u.push(newFinder(u, 0, ""))
	case 'l':
		u.beside(newLine(u))
	case 'b':
		u.beside(newBench(u, "", ""))
	case 'o':
		u.beside(newLook(u))
	case 'c':
		u.beside(newCalls(u))
	case 'n':
		u.beside(newNotes(u, ""))
	case 'p':
		p := newPapers(u)
		if u.missed {
			p.toTheEnd()
		}
		u.beside(p)
	}
}

// wayOut leaves where nothing is under way, and from the pause. Elsewhere it
// opens the pause, so that a letter too many costs nothing.
func (u *UI) wayOut() {
	if _, paused := u.top().(*pause); paused || u.play == nil || u.bare() {
		u.leave(nil)
		return
	}
	u.push(newPause(u))
}

// beside opens a view beside the bedside, in place of another that is open
// there, so that Esc leads back to the bed.
func (u *UI) beside(v view) {
	u.bedside()
	u.push(v)
}

// anywhere are the keys of everywhere, for help.
func (u *UI) anywhere() []hint {
	leave := "pause, and from there leave; the attempt is saved and the way to resume is printed"
	if u.play == nil || u.bare() {
		leave = "leave"
	}
	out := []hint{
		letter('q', leave),
		letter('k', "colour on or off; nothing depends on it"),
		press(tcell.KeyCtrlC, "Ctrl-C", "leave at once, wherever you are"),
	}
	if u.play == nil || u.bare() {
		return out
	}
	return append([]hint{
		letter(' ', "hold the clock, or let it run"), letter('x', "next speed of the clock: x1, x10, x60, x600"),
		letter('w', "wait for a time, or to a time"), letter('/', "find anything that can be done by part of its sentence"),
		letter('l', "line: choose vein, cannula and angle"), letter('b', "bench: mixing and sums"),
		letter('o', "look at a site"), letter('c', "calls and handover"), letter('n', "notes"),
		letter('p', "papers: order, notes, policy, stock, all so far"),
	}, out...)
}
