package ui

import (
	"fmt"
	"strings"

	"github.com/gdamore/tcell/v2"

	"blanch/cmd/blanch/internal/session"
)

// help is about the view it was opened on. It can be searched, and what it
// finds can be done from here.
type help struct {
	u     *UI
	below view
	query *entry
	list  list
	width int // of the list when it was last drawn; 0 before
}

// helpItem is a key, or a sentence that can be said.
type helpItem struct {
	text  string
	hint  hint
	offer *session.Offer
}

func newHelp(u *UI) *help { return &help{u: u, below: u.top(), query: newEntry("")} }

func (h *help) stands() bool { return true }

func (h *help) about() (string, string) { return "Help", "" }

func (h *help) keys() []hint { return []hint{back("back"), enter("do what is chosen")} }

func (h *help) typing() (*entry, string) { return h.query, "" }

// items are the keys of the view below and those of everywhere, and, once
// something is searched for, the sentences about it.
func (h *help) items() []helpItem {
	want := strings.ToLower(strings.TrimSpace(h.query.text()))
	var out []helpItem
	for _, k := range append(append(append([]hint(nil), h.below.keys()...), h.u.anywhere()...), letter('?', "this help; F1 while you type")) {
		if strings.Contains(strings.ToLower(k.key+" "+k.says), want) && !repeats(out, k) {
			out = append(out, helpItem{text: fmt.Sprintf("%-12s %s", k.key, k.says), hint: k})
		}
	}
	if want == "" || h.u.play == nil || h.u.bare() {
		return h.folded(out)
	}
	for _, o := range h.u.s().Offers(want, 0) {
		out = append(out, helpItem{text: fmt.Sprintf("%-12s %s (%s)", "say", spaced(o.Sentence), o.Takes), offer: &o})
	}
	return h.folded(out)
}

// folded gives an item that is longer than a row more rows, each of which does
// what the first one does.
func (h *help) folded(items []helpItem) []helpItem {
	const name, marks = 13, 4 // columns of the key, and of what marks the chosen row
	if h.width < 2*name {
		return items
	}
	var out []helpItem
	for _, it := range items {
		if width(it.text) <= h.width-marks {
			out = append(out, it)
			continue
		}
		key, says := it.text[:name], it.text[name:]
		for i, part := range fold(says, h.width-marks-name) {
			more := it
			if more.text = strings.Repeat(" ", name) + part; i == 0 {
				more.text = key + part
			}
			out = append(out, more)
		}
	}
	return out
}

// repeats says that a key is on the list already; what a view says of it
// comes first.
func repeats(items []helpItem, k hint) bool {
	for _, it := range items {
		if it.hint.key == k.key {
			return true
		}
	}
	return false
}

func (h *help) draw(c canvas) {
	c = c.sub(1, 0, c.w-2, c.h)
	h.width = c.w
	name, says := h.below.about()
	if h.u.play != nil && !h.u.bare() && !strings.Contains(says, "The clock stands") {
		says += " The clock stands while you read this."
	}
	about := fold(name+": "+says, c.w)
	about = about[:max(0, min(len(about), c.h-5))] // the list matters more
	y := 0
	for _, text := range about {
		c.text(0, y, text, plain)
		y++
	}
	if y > 0 {
		y++
	}
	n := c.text(0, y, "Search: ", strong)
	h.query.draw(c.sub(n, y, c.w-n, 1))
	items := h.items()
	if len(items) == 0 {
		c.text(0, y+1, "Nothing here is about that.", plain)
		return
	}
	h.list.draw(c.below(y+1), len(items), false, func(i int) string { return items[i].text })
}

func (h *help) key(ev *tcell.EventKey) bool {
	items := h.items()
	switch {
	case ev.Key() == tcell.KeyHome || ev.Key() == tcell.KeyEnd:
		return h.query.key(ev)
	case h.list.key(ev, len(items)):
		return true
	case ev.Key() == tcell.KeyEnter:
		if len(items) > 0 {
			h.run(items[h.list.at])
		}
		return true
	case ev.Key() == tcell.KeyEscape:
		return false
	}
	if h.query.key(ev) {
		h.list = list{}
	}
	return true
}

// run closes the help and does what was chosen.
func (h *help) run(it helpItem) {
	h.u.pop()
	switch {
	case it.offer != nil:
		h.u.push(newOffer(h.u, *it.offer))
	case it.hint.ev != nil && it.hint.key != "?":
		h.u.key(it.hint.ev)
	}
}
