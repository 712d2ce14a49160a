package ui

import (
	"fmt"
	"strings"

	"github.com/gdamore/tcell/v2"

	"blanch/cmd/blanch/internal/session"
)

// line tries vein, cannula and angle on paper; nothing is done and no time
// passes until one is chosen.
type line struct {
	u                 *UI
	row               int // what the left and right keys change
	vein, size, angle int
}

// newLine opens as it was left in this attempt.
func newLine(u *UI) *line {
	if u.desk != nil {
		return u.desk
	}
	l := &line{u: u}
	u.desk = l
	for i, a := range session.Angles {
		if a == 30 {
			l.angle = i
		}
	}
	return l
}

func (l *line) about() (string, string) {
	return "Line", "Vein, cannula and angle, tried on paper: it costs no time until you take one in hand. How the cannula would lie is drawn to scale once the vein has been scanned; before that its depth is not known and nothing is drawn."
}

func (l *line) keys() []hint {
	arrows := hint{key: "arrows", says: "change"}
	return []hint{back("bed"), arrows, enter("take it"), letter('e', "examine"), letter('u', "scan"), letter('i', "insert")}
}

func (l *line) draw(c canvas) {
	s := l.u.s()
	d := s.LineDesk()
	if len(d.Veins) == 0 || len(d.Cannulae) == 0 {
		c.text(1, 0, "There is nothing to choose from.", plain)
		return
	}
	v, size, angle := d.Veins[l.vein], d.Cannulae[l.size], session.Angles[l.angle]
	room := max(0, c.h-10)
	lie := s.Lie(l.vein, l.size, angle, max(0, c.w-2), room, l.u.rich)
	y := 0
	field := func(i int, name, value string, st style) {
		text := fmt.Sprintf("%-9s< %s >", name, value)
		if i == l.row {
			c.text(1, y, "> "+text, marked)
			c.cursor(1, y)
		} else {
			n := c.text(1, y, "  "+fmt.Sprintf("%-9s< ", name), plain)
			n += c.text(1+n, y, value, st)
			c.text(1+n, y, " >", plain)
		}
		y++
	}
	at := fmt.Sprintf("  %d of %d", l.vein+1, len(d.Veins))
	field(0, "vein", v.ID+" ("+v.Where+")"+at, plain)
	colour := map[string]style{"pink": pink, "green": green, "blue": blue}[size.Colour]
	field(1, "cannula", size.About, colour)
	field(2, "angle", fmt.Sprintf("%d degrees", angle), plain)
	known := "Not examined yet."
	if v.Look != "" {
		known = v.Look
	}
	if v.Taken != "" {
		known = "A cannula lies in it: " + v.Taken + ". " + known
	}
	if v.Measured != "" {
		known += " Scanned: " + v.Measured + "."
	}
	for _, text := range fold(known, c.w-2) {
		c.text(1, y, text, plain)
		y++
	}
	for _, text := range lie.Picture {
		if y < c.h-3 {
			c.text(1, y, text, plain)
			y++
		}
	}
	if len(lie.Picture) == 0 {
		y++
	}
	for _, text := range fold(strings.Join(lie.Facts, "; "), c.w-2) {
		c.text(1, y, text, strong)
		y++
	}
	for _, text := range fold("Under the policy: "+strings.Join(lie.Policy, ", "), c.w-2) {
		c.text(1, y, text, plain)
		y++
	}
	if b := s.Board(); b.InHand != "" {
		c.text(1, y, "In your hand: "+b.InHand, plain)
	}
}

func (l *line) key(ev *tcell.EventKey) bool {
	d := l.u.s().LineDesk()
	step := 0
	switch ev.Key() {
	case tcell.KeyUp:
		l.row = max(0, l.row-1)
	case tcell.KeyDown:
		l.row = min(2, l.row+1)
	case tcell.KeyLeft:
		step = -1
	case tcell.KeyRight:
		step = 1
	case tcell.KeyEnter:
		lie := l.u.s().Lie(l.vein, l.size, session.Angles[l.angle], 0, 0, false)
		l.u.push(newConfirm(l.u, lie.Choose))
	case tcell.KeyRune:
		return l.act(ev.Rune(), d)
	default:
		return false
	}
	switch l.row {
	case 0:
		l.vein = along(l.vein, step, len(d.Veins))
	case 1:
		l.size = along(l.size, step, len(d.Cannulae))
	case 2:
		l.angle = along(l.angle, step, len(session.Angles))
	}
	return true
}

// act opens an act on the vein that is shown.
func (l *line) act(r rune, d session.LineDesk) bool {
	if len(d.Veins) == 0 {
		return false
	}
	switch r {
	case 'e':
		l.u.push(newConfirm(l.u, "examine "+d.Veins[l.vein].ID))
	case 'u':
		l.u.push(newConfirm(l.u, fmt.Sprintf("scan %s with ultrasound", d.Veins[l.vein].ID)))
	case 'i':
		if why := l.u.s().Refused("insert the cannula {how}"); why != "" {
			l.u.flash = "Not possible now: " + why
			return true
		}
		l.u.push(newFill(l.u, "insert the cannula {how}"))
	default:
		return false
	}
	return true
}
