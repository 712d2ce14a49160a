package ui

import (
	"strings"

	"github.com/gdamore/tcell/v2"
	"github.com/rivo/tview"

	"blanch/cmd/blanch/internal/session"
)

// entry is a place to type at.
type entry struct{ area *tview.TextArea }

func newEntry(text string) *entry {
	e := &entry{tview.NewTextArea()}
	plain := tcell.StyleDefault
	e.area.SetTextStyle(plain).SetPlaceholderStyle(plain).SetSelectedStyle(plain.Reverse(true))
	e.area.SetBackgroundColor(tcell.ColorDefault)
	e.area.SetText(session.Harmless(text), true)
	e.area.Focus(nil)
	return e
}

func (e *entry) text() string { return e.area.GetText() }

// key takes what edits a text; false for keys that lead somewhere else.
func (e *entry) key(ev *tcell.EventKey) bool {
	switch ev.Key() {
	case tcell.KeyEnter, tcell.KeyEscape, tcell.KeyTab, tcell.KeyBacktab, tcell.KeyUp, tcell.KeyDown, tcell.KeyPgUp, tcell.KeyPgDn, tcell.KeyCtrlC:
		return false
	}
	if r := string(ev.Rune()); ev.Key() == tcell.KeyRune && session.Harmless(r) != r {
		return true // a control character by its own number
	}
	if ev.Key() == tcell.KeyCtrlJ { // a line end of what was pasted without brackets
		ev = tcell.NewEventKey(tcell.KeyRune, ' ', tcell.ModNone)
	}
	e.area.InputHandler()(ev, func(tview.Primitive) {})
	return true
}

// paste puts text in as far as there is room; false when some was left out.
func (e *entry) paste(text string) bool {
	text = session.Harmless(text)
	room := session.LongestTyped - len(e.text())
	whole := len(text) <= room
	if !whole {
		text = strings.ToValidUTF8(text[:max(0, room)], "") // half a character is none
	}
	if text != "" {
		e.area.PasteHandler()(text, func(tview.Primitive) {})
	}
	return whole
}

// full says that nothing more can be typed.
func (e *entry) full() bool { return len(e.text()) >= session.LongestTyped }

func (e *entry) draw(c canvas) {
	if c.w < 1 || c.h < 1 {
		return
	}
	e.area.SetWrap(c.h > 1)
	e.area.SetRect(c.x, c.y, c.w, c.h)
	e.area.Draw(c.screen)
}
