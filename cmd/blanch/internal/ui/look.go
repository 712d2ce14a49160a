package ui

import (
	"fmt"
	"slices"

	"github.com/gdamore/tcell/v2"

	"blanch/cmd/blanch/internal/session"
)

// look is a site: the acts of looking at it, and what each found and when.
type look struct {
	u       *UI
	site    int
	list    list
	drawing bool
	by      int // who looks; 0 is the learner
}

// newLook opens at the line that matters most.
func newLook(u *UI) *look {
	l := &look{u: u}
	l.site = max(0, slices.Index(l.sites(), u.s().LookFirst()))
	return l
}

func (l *look) about() (string, string) {
	return "Look", "Looking is several acts, and each shows only its own finding. What was not sought says so. Each column is one visit to the site. The last rows say what you make of it."
}

func (l *look) keys() []hint {
	return []hint{
		back("bed"), enter("do it"), letter('r', "again"), hint{key: "left, right", says: "site"}, letter('d', "draw"),
		letter('a', "who does it"),
	}
}

// rows of the table: one for each finding, with its act, then the verdicts.
type lookRow struct {
	act  session.LookAct
	find session.Finding
	lead bool // the first row of its act
	said string

	verdict session.Verdict // of a row that says what you make of it
}

func (l *look) rows(d session.LookDesk) []lookRow {
	var out []lookRow
	for _, a := range d.Acts {
		for i, f := range a.Finds {
			out = append(out, lookRow{act: a, find: f, lead: i == 0, said: a.Said})
		}
	}
	for _, v := range l.u.s().Verdicts(d.Line) {
		out = append(out, lookRow{lead: true, said: v.Said, verdict: v})
	}
	return out
}

func (l *look) sites() []string { return l.u.s().Sites() }

func (l *look) draw(c canvas) {
	sites := l.sites()
	c = c.sub(1, 0, c.w-2, c.h)
	if len(sites) == 0 {
		c.text(0, 0, "There is no line to look at yet.", plain)
		return
	}
	l.site = min(l.site, len(sites)-1)
	s := l.u.s()
	d := s.LookDesk(sites[l.site])
	rows := l.rows(d)
	name, takes, cell := 23, 6, 24
	if c.w < 58 {
		takes = 0
		cell = max(1, c.w-name-4)
	}
	n := max(1, min(len(d.Visits), (c.w-name-takes-5)/cell))
	head := fmt.Sprintf("%s, %s", d.Line, d.About)
	if len(sites) > 1 {
		head += fmt.Sprintf("  (site %d of %d)", l.site+1, len(sites))
	}
	if who := l.who(); who != "you" {
		head += "  done by " + who
	}
	c.text(0, 0, cut(head, c.w), strong)
	if l.drawing {
		for i, text := range s.Swelling(d.Line, c.w, max(0, c.h-2), l.u.rich) {
			c.text(0, i+2, text, plain)
		}
		return
	}
	first := max(0, len(d.Visits)-n)
	titles := pad("", name+takes+2)
	if len(d.Visits) == 0 {
		titles += "not looked at yet"
	}
	for i := first; i < len(d.Visits); i++ {
		titles += pad("at "+d.Visits[i], cell)
	}
	c.text(0, 1, titles, plain)
	l.list.at = max(0, min(l.list.at, len(rows)-1))
	below := l.below(rows[l.list.at], cell)
	under := 0
	for _, text := range below {
		if text != "" {
			under += len(fold(text, c.w))
		}
	}
	room := max(1, c.h-2-max(2, under))
	l.list.draw(c.sub(0, 2, c.w, room), len(rows), true, func(i int) string {
		r := rows[i]
		if r.find.What == "" {
			text := fmt.Sprintf("say: %-9s %s", r.verdict.Word, r.verdict.Means)
			if r.verdict.Last != "" {
				text += "; " + r.verdict.Last
			}
			return text
		}
		text := pad(r.find.What, name)
		if r.lead && takes > 0 {
			text += pad(r.act.Takes, takes)
		} else {
			text += pad("", takes)
		}
		if len(d.Visits) == 0 {
			return text + session.NotChecked
		}
		for j := first; j < len(d.Visits); j++ {
			text += pad(cut(r.find.Visits[j], cell-1), cell)
		}
		return text
	})
	y := 2 + room
	for i, text := range below {
		if text == "" {
			continue
		}
		for _, part := range fold(text, c.w) {
			c.text(0, y, part, [...]style{strong, plain}[i])
			y++
		}
	}
}

// below is what stands under the table: the last finding of the chosen row
// where its column has no room for it, and what the row's act does.
func (l *look) below(r lookRow, cell int) [2]string {
	var out [2]string
	if n := len(r.find.Visits); n > 0 && width(r.find.Visits[n-1]) >= cell {
		out[0] = r.find.Visits[n-1]
	}
	p := l.u.s().Preview(l.asked(r.said))
	out[1] = fmt.Sprintf("%s: %s (%s)", p.Said, p.Does, p.Takes)
	if p.Why != "" {
		out[1] = "Not possible now: " + stop(p.Why)
	}
	return out
}

// who looks: the learner, or someone at the bed who is asked.
func (l *look) who() string {
	people := l.people()
	return people[min(l.by, len(people)-1)]
}

func (l *look) people() []string {
	out := []string{"you"}
	for _, o := range l.u.s().Offers("feel around", 7) {
		if o.Name == "feel" {
			out = append(out, o.Others...)
		}
	}
	return out
}

func (l *look) asked(said string) string {
	if who := l.who(); who != "you" {
		return session.Asked(who, said)
	}
	return said
}

func (l *look) key(ev *tcell.EventKey) bool {
	sites := l.sites()
	if len(sites) == 0 {
		return false
	}
	rows := l.rows(l.u.s().LookDesk(sites[min(l.site, len(sites)-1)]))
	if l.list.key(ev, len(rows)) {
		return true
	}
	switch {
	case ev.Key() == tcell.KeyLeft:
		l.site = along(l.site, -1, len(sites))
	case ev.Key() == tcell.KeyRight:
		l.site = along(l.site, 1, len(sites))
	case ev.Key() == tcell.KeyEnter:
		said := rows[l.list.at].said
		if rows[l.list.at].find.What != "" {
			said = l.asked(said)
		}
		if p := l.u.s().Preview(said); p.Why != "" {
			l.u.flash = "Not possible now: " + p.Why
			return true
		}
		if rows[l.list.at].find.What == "" { // a judgement is read before it is said
			l.u.push(newConfirm(l.u, said))
			return true
		}
		l.u.say(said)
	case ev.Key() == tcell.KeyRune && ev.Rune() == 'r':
		l.u.lookAgain(sites[min(l.site, len(sites)-1)])
	case ev.Key() == tcell.KeyRune && ev.Rune() == 'd':
		l.drawing = !l.drawing
	case ev.Key() == tcell.KeyRune && ev.Rune() == 'a':
		l.by = turn(l.by, 1, len(l.people()))
	default:
		return false
	}
	return true
}
