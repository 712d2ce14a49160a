package ui

import (
	"github.com/gdamore/tcell/v2"
)

// pause is the way out of the bedside.
type pause struct {
	u    *UI
	list list
	stop bool // asked once more before the case ends
}

func newPause(u *UI) *pause { return &pause{u: u} }

func (p *pause) stands() bool { return true }

func (p *pause) about() (string, string) {
	return "Pause", "The attempt is saved at every step, so leaving loses nothing. Ending the case goes to the marks; nothing can be done in it afterwards."
}

func (p *pause) keys() []hint { return []hint{back("go on with the case"), enter("choose")} }

func (p *pause) draw(c canvas) {
	c = c.sub(1, 0, c.w-2, c.h)
	items := p.items()
	said := "Everything so far is saved."
	if lost := p.u.s().NotSavedShort(); lost != "" {
		said = lost + "."
	}
	c.text(0, 0, "The clock stands. "+said, strong)
	p.list.draw(c.sub(0, 2, c.w, min(len(items), max(1, c.h-2))), len(items), true, func(i int) string { return items[i] })
}

func (p *pause) items() []string {
	if p.stop {
		return []string{"no, go on with the case", "yes, end it here and go to the marks"}
	}
	return []string{"go on with the case", "leave; resume it later where it stands", "end the case here and go to the marks"}
}

func (p *pause) key(ev *tcell.EventKey) bool {
	items := p.items()
	if p.list.key(ev, len(items)) {
		return true
	}
	switch {
	case ev.Key() == tcell.KeyEscape && p.stop:
		p.stop, p.list = false, list{}
	case ev.Key() != tcell.KeyEnter:
		return ev.Key() == tcell.KeyRune && ev.Rune() != 'q'
	case p.list.at == 0:
		p.u.pop()
	case p.stop:
		p.u.s().Stop()
		p.u.ended()
	case p.list.at == 1:
		p.u.leave(nil)
	default:
		p.stop, p.list = true, list{}
	}
	return true
}
