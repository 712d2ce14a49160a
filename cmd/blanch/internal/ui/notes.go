package ui

import (
	"cmp"
	"strings"

	"github.com/gdamore/tcell/v2"
)

// notesDraft is how a note is kept while it is being typed.
const notesDraft = "write in the notes: "

// notes is where the learner writes.
type notes struct {
	u    *UI
	text *entry
}

// newNotes opens with what has been typed, or else with what was left.
func newNotes(u *UI, typed string) *notes { return &notes{u, newEntry(cmp.Or(typed, u.note))} }

func (n *notes) about() (string, string) {
	return "Notes", "Write what you want to stand in the notes; writing takes a minute of the case when you have done with it. What you wrote before stands above. The clock stands while you type."
}

func (n *notes) keys() []hint { return []hint{back("bed"), enter("write it (1 min)")} }

func (n *notes) typing() (*entry, string) { return n.text, notesDraft + n.text.text() }

func (n *notes) draw(c canvas) {
	c = c.sub(1, 0, c.w-2, c.h)
	written := set(n.u.s().Written(), c.w)
	if len(written) == 0 {
		written = []row{{"You have not written anything yet.", 0, plain}}
	}
	room := max(0, c.h/2-1)
	written = written[max(0, len(written)-room):]
	c.sub(0, 0, c.w, room).rows(written)
	y := min(len(written), room) + 1
	c.text(0, y, "Write:", strong)
	n.text.draw(c.sub(0, y+1, c.w, c.h-y-1))
}

func (n *notes) key(ev *tcell.EventKey) bool {
	switch ev.Key() {
	case tcell.KeyEscape:
		if n.u.note = strings.TrimSpace(n.text.text()); n.u.note != "" {
			n.u.flash = "What you typed is kept; n goes on with it."
		}
		return false
	case tcell.KeyEnter:
		text := strings.Join(strings.Fields(n.text.text()), " ")
		if text == "" {
			n.u.flash = "Nothing is written yet."
			return true
		}
		said := notesDraft + text
		if p := n.u.s().Preview(said); p.Why != "" {
			n.u.flash = "Not possible now: " + p.Why
			return true
		}
		n.u.note = ""
		n.u.bedside()
		n.u.say(said)
		return true
	}
	return n.text.key(ev)
}
