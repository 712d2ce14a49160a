package ui

import (
	"github.com/gdamore/tcell/v2"

	"blanch/cmd/blanch/internal/session"
)

// brief is read before the clock starts.
type brief struct {
	u     *UI
	pager pager
	fault string
}

func newBrief(u *UI) *brief { return &brief{u: u} }

func (b *brief) about() (string, string) {
	return "Briefing", "What the case is, what is and is not simulated, and how it is marked. The clock has not started."
}

func (b *brief) keys() []hint {
	out := []hint{back("back")}
	if b.pager.last() {
		return append(out, enter("start the clock"), press(tcell.KeyPgUp, "PgUp", "page back"))
	}
	return append(out, enter("next page"), press(tcell.KeyEnd, "End", "last page"))
}

func (b *brief) draw(c canvas) {
	lines := b.u.s().ScreenBriefing(b.u.play.Path)
	if b.fault != "" {
		lines = append([]session.Line{{Kind: session.Fault, Text: b.fault}}, lines...)
	}
	b.pager.draw(c.sub(1, 0, c.w-2, c.h), set(lines, c.w-2))
}

func (b *brief) key(ev *tcell.EventKey) bool {
	switch {
	case b.pager.key(ev):
		return true
	case ev.Key() == tcell.KeyEscape:
		if len(b.u.stack) == 1 {
			b.u.leave(nil)
			return true
		}
		b.u.pop()
		b.u.play = nil
		return true
	case ev.Key() != tcell.KeyEnter:
		return false
	case !b.pager.last():
		b.pager.key(tcell.NewEventKey(tcell.KeyPgDn, 0, tcell.ModNone))
		return true
	}
	if b.u.play.Start != nil {
		if err := b.u.play.Start(); err != nil {
			b.fault = "This cannot be recorded: " + err.Error()
			return true
		}
		b.u.play.Start = nil
	}
	b.u.bed("")
	b.u.flash = "The clock stands. What you do makes it run; Space lets it run on."
	return true
}
