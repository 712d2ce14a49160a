package ui

import (
	"strings"

	"github.com/gdamore/tcell/v2"

	"blanch/cmd/blanch/internal/session"
)

// notesDraft is how a note is kept while it is being typed.
const notesDraft = "write in the notes: "

// notes is where the learner writes.
type notes struct {
	u    *UI
	text *entry
}

func newNotes(u *UI, typed string) *notes { return &notes{u, newEntry(typed)} }

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
		n.u.s().Draft("")
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
		n.u.bedside()
		n.u.say(said)
		return true
	}
	return n.text.key(ev)
}

// wait lets time pass for a span or to a time.
type wait struct {
	u     *UI
	text  *entry
	fault string
}

func newWait(u *UI) *wait { return &wait{u: u, text: newEntry("")} }

func (w *wait) about() (string, string) {
	return "Wait", "Let time pass: for a span such as 10 min, or to a time of the case such as 0:45. Calls and alarms slow the clock on the way; Space holds it."
}

func (w *wait) keys() []hint { return []hint{back("back"), enter("wait")} }

func (w *wait) typing() (*entry, string) { return w.text, "" }

func (w *wait) draw(c canvas) {
	c = c.sub(1, 0, c.w-2, c.h)
	c.text(0, 0, "How long, or until when? For example 10 min, or 0:45.", plain)
	c.text(0, 1, "> ", plain)
	w.text.draw(c.sub(2, 1, c.w-2, 1))
	c.text(0, 3, "A number alone is minutes.", plain)
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
	for s.Running() && s.Jumps() {
		w.u.tell(s.Pass(0))
	}
	if s.Over() {
		w.u.ended()
	}
	return true
}

// papers are texts that can be read at any time.
type papers struct {
	u     *UI
	at    int
	pager pager
}

func newPapers(u *UI) *papers { return &papers{u: u} }

func (p *papers) stands() bool { return true }

func (p *papers) about() (string, string) {
	return "Papers", "How things stand, the order, the notes, the policy you are marked under, the stock, and all that happened so far. The clock stands while you read."
}

func (p *papers) keys() []hint {
	return []hint{back("bed"), hint{key: "left, right", says: "another paper"}, press(tcell.KeyPgDn, "PgDn", "next page"), press(tcell.KeyPgUp, "PgUp", "page back")}
}

func (p *papers) draw(c canvas) {
	drawPapers(c, p.u.s().Papers(), p.at, &p.pager)
}

// drawPapers sets the names of papers, the open one marked, and its text.
func drawPapers(c canvas, all []session.Paper, at int, pg *pager) {
	x := 1
	for i, paper := range all {
		name := " " + paper.Name + " "
		st := plain
		if i == at {
			name, st = ">"+paper.Name+" ", marked
			c.cursor(x, 0)
		}
		x += c.text(x, 0, name, st) + 1
	}
	body := c.sub(1, 2, c.w-2, c.h-2)
	if c.w <= 82 { // the sheet keeps its own rows of up to 80 columns
		body = c.below(2)
	}
	pg.draw(body, set(all[at].Lines, body.w))
}

func (p *papers) key(ev *tcell.EventKey) bool {
	n := len(p.u.s().Papers())
	switch {
	case p.pager.key(ev):
	case ev.Key() == tcell.KeyLeft:
		p.at, p.pager = turn(p.at, -1, n), pager{}
	case ev.Key() == tcell.KeyRight || ev.Key() == tcell.KeyTab:
		p.at, p.pager = turn(p.at, 1, n), pager{}
	default:
		return false
	}
	return true
}

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
	c.text(0, 0, "The clock stands. Everything so far is saved.", strong)
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
