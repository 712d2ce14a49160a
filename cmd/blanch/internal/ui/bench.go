package ui

import (
	"fmt"
	"strings"

	"github.com/gdamore/tcell/v2"

	"blanch/cmd/blanch/internal/session"
)

// bench is where drugs are made up and sums are done.
type bench struct {
	u      *UI
	list   list
	asked  int    // sums that were open when it was last drawn
	sum    string // being answered
	answer *entry
}

// benchActs are the acts of the bench, by their names.
var benchActs = []string{"mix", "premixed", "label", "check-bag", "hang", "prime", "connect", "connect-primed", "set", "check-pump", "start", "stop", "draw-up", "read-pump"}

// sumDraft reads the draft of an answer.
func sumDraft(draft string) (id, text string, ok bool) {
	rest, found := strings.CutPrefix(draft, "give ")
	if !found {
		return "", "", false
	}
	id, text, ok = strings.Cut(rest, " as ")
	return id, text, ok
}

// newBench opens the bench, or a sum with what has been typed of its answer.
func newBench(u *UI, sum, typed string) *bench {
	b := &bench{u: u}
	if sum != "" {
		b.sum, b.answer = sum, newEntry(typed)
	}
	return b
}

func (b *bench) about() (string, string) {
	return "Bench", "Sums that are asked, what is mixed and hung, and the acts of mixing and setting. Answer with the unit; whether it is right is for the marks to say. The clock stands while you type."
}

func (b *bench) keys() []hint {
	if b.answer != nil {
		return []hint{back("back"), enter("give the answer")}
	}
	return []hint{back("bed"), enter("choose"), letter('/', "find")}
}

func (b *bench) typing() (*entry, string) {
	if b.answer == nil {
		return nil, ""
	}
	return b.answer, fmt.Sprintf("give %s as %s", b.sum, b.answer.text())
}

// offers are the acts of the bench in their order.
func (b *bench) offers() []session.Offer {
	var out []session.Offer
	all := b.u.s().Offers("", 0)
	for _, name := range benchActs {
		for _, o := range all {
			if o.Name == name {
				out = append(out, o)
			}
		}
	}
	return out
}

func (b *bench) draw(c canvas) {
	s := b.u.s()
	bench, offers := s.Bench(), b.offers()
	c = c.sub(1, 0, c.w-2, c.h)
	right := 0
	if c.w >= 70 {
		right = max(26, c.w*2/5)
		b.things(c.sub(c.w-right, 0, right, c.h), bench)
	}
	left := c.sub(0, 0, c.w-right-2, c.h)
	if right == 0 {
		left = c
	}
	y := 0
	if b.answer != nil {
		for _, q := range bench.Sums {
			if q.ID != b.sum {
				continue
			}
			for _, text := range fold(fmt.Sprintf("%s: %s", q.ID, q.Text), left.w) {
				left.text(0, y, text, strong)
				y++
			}
			y++
			left.text(0, y, fmt.Sprintf("Your answer in %s, with the unit:", q.Unit), plain)
		}
		left.text(0, y+1, "> ", plain)
		b.answer.draw(left.sub(2, y+1, left.w-2, 1))
		return
	}
	switch n := len(bench.Sums); {
	case n > b.asked:
		b.list.at = n - 1 // what was just asked
	case n < b.asked && b.list.at >= b.asked:
		b.list.at -= b.asked - n
	}
	b.asked = len(bench.Sums)
	n := len(bench.Sums) + len(offers)
	room := max(1, left.h-len(bench.Answered)-4)
	b.list.draw(left.sub(0, 0, left.w, room), n, true, func(i int) string {
		if i < len(bench.Sums) {
			return fmt.Sprintf("sum: %s", bench.Sums[i].ID)
		}
		return spaced(offers[i-len(bench.Sums)].Sentence)
	})
	y = min(room, n) + 1
	said := ""
	if i := b.list.at; i < len(bench.Sums) {
		said = bench.Sums[i].Text
	} else {
		o := offers[i-len(bench.Sums)]
		said = fmt.Sprintf("%s: %s (%s)", spaced(o.Sentence), o.Does, o.Takes)
		if o.Why != "" {
			said = "Not possible now: " + stop(o.Why)
		}
	}
	for _, text := range append(fold(said, left.w), bench.Answered...) {
		left.text(0, y, text, plain)
		y++
	}
}

// things are bags, syringes and pumps as they hang and lie there.
func (b *bench) things(c canvas, bench session.Bench) {
	s, y := b.u.s(), 0
	for _, p := range bench.Pumps {
		if len(bench.Pumps)*4 > c.h {
			c.text(0, y, fmt.Sprintf("%s  %s %s %s", p.ID, p.Rate, p.Unit, p.State), plain)
			y++
			continue
		}
		c.text(0, y, p.ID, strong)
		for _, text := range s.PumpPicture(p, c.w, b.u.rich) {
			y++
			c.text(0, y, text, plain)
		}
		y++
	}
	if len(bench.Bags) == 0 {
		c.text(0, y, "nothing mixed yet", plain)
		return
	}
	for i := len(bench.Bags) - 1; i >= 0; i-- {
		bag := bench.Bags[i]
		h := len(bag.Label) + 5
		if bag.Syringe {
			h = 5
		}
		if c.h-y < h {
			c.text(0, y, cut(fmt.Sprintf("%s: %s left", strings.Join(bag.Label, ", "), bag.LeftML), c.w), plain)
			y++
			continue
		}
		if bag.Syringe {
			c.text(0, y, strings.Join(bag.Label, ", "), strong)
			y++
			h--
		}
		for j, text := range s.BagPicture(bag, c.w, h, b.u.rich) {
			c.text(0, y+j, text, plain)
		}
		y += h
	}
}

func (b *bench) key(ev *tcell.EventKey) bool {
	s := b.u.s()
	bench := s.Bench()
	if b.answer != nil {
		return b.answering(ev)
	}
	offers := b.offers()
	if b.list.key(ev, len(bench.Sums)+len(offers)) {
		return true
	}
	if ev.Key() != tcell.KeyEnter {
		return false
	}
	if i := b.list.at; i < len(bench.Sums) {
		b.sum, b.answer = bench.Sums[i].ID, newEntry("")
	} else {
		b.u.push(newOffer(b.u, offers[i-len(bench.Sums)]))
	}
	return true
}

func (b *bench) answering(ev *tcell.EventKey) bool {
	switch ev.Key() {
	case tcell.KeyEscape:
		b.answer = nil
		b.u.s().Draft("")
	case tcell.KeyEnter:
		text := strings.TrimSpace(b.answer.text())
		if text == "" {
			b.u.flash = "Type a number with its unit."
			return true
		}
		said := fmt.Sprintf("give %s as %s", b.sum, text)
		if p := b.u.s().Preview(said); p.Why != "" {
			b.u.flash = p.Why
			return true
		}
		b.answer, b.list = nil, list{}
		b.u.say(said)
	default:
		return b.answer.key(ev)
	}
	return true
}
