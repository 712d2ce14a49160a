package ui

import (
	"github.com/gdamore/tcell/v2"
	"github.com/rivo/tview"
)

// entry is a place to type at.
type entry struct{ area *tview.TextArea }

// longestTyped bounds what can be typed, in bytes.
const longestTyped = 2000

func newEntry(text string) *entry {
	e := &entry{tview.NewTextArea()}
	plain := tcell.StyleDefault
	e.area.SetTextStyle(plain).SetPlaceholderStyle(plain).SetSelectedStyle(plain.Reverse(true)).SetMaxLength(longestTyped)
	e.area.SetBackgroundColor(tcell.ColorDefault)
	e.area.SetText(text, true)
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
	e.area.InputHandler()(ev, func(tview.Primitive) {})
	return true
}

func (e *entry) paste(text string) { e.area.PasteHandler()(text, func(tview.Primitive) {}) }

func (e *entry) draw(c canvas) {
	if c.w < 1 || c.h < 1 {
		return
	}
	e.area.SetWrap(c.h > 1)
	e.area.SetRect(c.x, c.y, c.w, c.h)
	e.area.Draw(c.screen)
}
