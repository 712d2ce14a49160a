package ui

import (
	"fmt"
	"slices"
	"strings"

	"github.com/gdamore/tcell/v2"

	"blanch/cmd/blanch/internal/session"
)

// calls is where calls are answered and made, and the patient handed over.
type calls struct {
	u      *UI
	list   list
	chosen string // the row that is chosen, found again when rows come and go
	to     string // being called or handed over to; empty while choosing
	hand   bool   // it is a handover
	ticked map[string]bool
	asks   bool // the facts are ticked, and the request is chosen
}

func newCalls(u *UI) *calls { return &calls{u: u} }

func (k *calls) about() (string, string) {
	return "Calls", "Answer or decline who needs you, send for someone, or build a call: tick the facts you give, then choose what you ask for. A call can be declined and made again. A handover is built the same way and ends the case."
}

func (k *calls) keys() []hint {
	switch {
	case k.to == "":
		return []hint{back("bed"), enter("choose")}
	case k.asks:
		return []hint{back("back"), enter("ask for this")}
	}
	return []hint{back("back"), letter(' ', "tick"), enter("these are the facts")}
}

// stands: while a call is put together the clock stands, as it does while one
// types.
func (k *calls) stands() bool { return k.to != "" }

// first are the things to choose from, as sentences; those with a gap are
// built here.
func (k *calls) first() []string {
	s := k.u.s()
	var out []string
	for _, w := range s.Board().Calls {
		out = append(out, "answer "+w.ID, "decline "+w.ID)
	}
	for _, p := range s.CallDesk().People {
		out = append(out, "call "+p.ID+" about ..", "send for "+p.ID)
	}
	for _, p := range s.CallDesk().People {
		out = append(out, "hand over to "+p.ID+" giving ..")
	}
	if i := slices.Index(out, k.chosen); i >= 0 {
		k.list.at = i
	}
	return out
}

func (k *calls) draw(c canvas) {
	c = c.sub(1, 0, c.w-2, c.h)
	s := k.u.s()
	desk := s.CallDesk()
	if k.to != "" {
		k.build(c, desk)
		return
	}
	first := k.first()
	left := c.w
	if c.w >= 70 {
		left = 38
		y := 0
		right := c.sub(left+2, 0, c.w-left-2, c.h)
		for _, w := range s.Board().Calls {
			for _, text := range fold(callText(w), right.w) {
				right.text(0, y, text, alert)
				y++
			}
		}
		for _, p := range desk.People {
			for _, text := range fold(p.About, right.w) {
				right.text(0, y, text, plain)
				y++
			}
		}
	}
	room := max(1, c.h-3)
	k.list.draw(c.sub(0, 0, left, room), len(first), true, func(i int) string { return first[i] })
	for i, text := range fold(k.says(first), c.w) {
		c.text(0, room+1+i, text, plain)
	}
}

// says is what the chosen row does.
func (k *calls) says(first []string) string {
	if len(first) == 0 {
		return ""
	}
	said := first[k.list.at]
	switch {
	case k.refused(said) != "":
		return "Not possible now: " + stop(k.refused(said))
	case strings.HasPrefix(said, "call "):
		return "choose which facts you give and what you ask for; it can be declined and made again (90 s)"
	case strings.HasPrefix(said, "hand over "):
		return "give the patient to whoever takes over; it ends the case (2 min)"
	}
	p := k.u.s().Preview(said)
	if p.Why != "" {
		return "Not possible now: " + stop(p.Why)
	}
	return fmt.Sprintf("%s (%s)", p.Does, p.Takes)
}

// refused says why a call or a handover cannot be made whatever it says.
func (k *calls) refused(said string) string {
	about, isCall := strings.CutSuffix(said, "about ..")
	giving, isHandover := strings.CutSuffix(said, "giving ..")
	switch {
	case isCall:
		return k.u.s().Refused(about + "about {facts} asking for {request}")
	case isHandover:
		return k.u.s().Refused(giving + "giving {facts}")
	}
	return ""
}

// said is the sentence as it stands.
func (k *calls) said(desk session.CallDesk, request string) string {
	var names []string
	for _, f := range desk.Facts {
		if k.ticked[f.Name] {
			names = append(names, f.Name)
		}
	}
	facts := strings.Join(names, ", ")
	if facts == "" {
		facts = ".."
	}
	if k.hand {
		return fmt.Sprintf("hand over to %s giving %s", k.to, facts)
	}
	return fmt.Sprintf("call %s about %s asking for %s", k.to, facts, request)
}

func (k *calls) build(c canvas, desk session.CallDesk) {
	request := ".."
	if k.asks {
		request = desk.Requests[k.list.at].Name
	}
	y := 0
	for _, text := range fold(k.said(desk, request), c.w) {
		c.text(0, y, text, strong)
		y++
	}
	y++
	if k.asks {
		k.list.draw(c.below(y), len(desk.Requests), true, func(i int) string {
			return fmt.Sprintf("%-17s %s", desk.Requests[i].Name, desk.Requests[i].Says)
		})
		return
	}
	k.list.draw(c.below(y), len(desk.Facts), true, func(i int) string {
		f := desk.Facts[i]
		return tick(k.ticked[f.Name]) + fmt.Sprintf("%-14s %s", f.Name, f.Says)
	})
}

func (k *calls) key(ev *tcell.EventKey) bool {
	desk := k.u.s().CallDesk()
	if k.to == "" {
		return k.choosing(ev)
	}
	n := len(desk.Facts)
	if k.asks {
		n = len(desk.Requests)
	}
	if k.list.key(ev, n) {
		return true
	}
	switch {
	case ev.Key() == tcell.KeyEscape && k.asks:
		k.asks, k.list = false, list{}
	case ev.Key() == tcell.KeyEscape:
		k.to, k.list = "", list{}
	case ev.Key() == tcell.KeyRune && ev.Rune() == ' ' && !k.asks:
		name := desk.Facts[k.list.at].Name
		k.ticked[name] = !k.ticked[name]
	case ev.Key() != tcell.KeyEnter:
		return ev.Key() == tcell.KeyRune && ev.Rune() != 'q'
	case strings.Contains(k.said(desk, ""), " .."):
		k.u.flash = "Tick at least one fact (Space)."
	case k.hand || k.asks:
		said := k.said(desk, desk.Requests[min(k.list.at, len(desk.Requests)-1)].Name)
		k.u.push(newConfirm(k.u, said))
	default:
		k.asks, k.list = true, list{}
	}
	return true
}

func (k *calls) choosing(ev *tcell.EventKey) bool {
	first := k.first()
	if k.list.key(ev, len(first)) {
		k.chosen = first[k.list.at]
		return true
	}
	if ev.Key() != tcell.KeyEnter || len(first) == 0 {
		return false
	}
	said := first[k.list.at]
	if why := k.refused(said); why != "" {
		k.u.flash = "Not possible now: " + why
		return true
	}
	who, isCall := strings.CutPrefix(said, "call ")
	if !isCall {
		who, k.hand = strings.CutPrefix(said, "hand over to ")
	} else {
		k.hand = false
	}
	if isCall || k.hand {
		k.to, _, _ = strings.Cut(who, " ")
		k.ticked, k.asks, k.list = k.u.facts, false, list{}
		return true
	}
	k.u.push(newConfirm(k.u, said))
	return true
}
