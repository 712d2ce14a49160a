package ui

import (
	"errors"
	"fmt"
	"slices"

	"github.com/gdamore/tcell/v2"

	"blanch/cmd/blanch/internal/session"
)

// home lists what there is to play, an unfinished attempt first.
type home struct {
	u     *UI
	list  list
	cases []session.Listed
	fault []string
	due   string // what there is to say on questions
}

func newHome(u *UI) *home {
	h := &home{u: u}
	for _, c := range u.open.Cases {
		if !c.Broken {
			h.cases = append(h.cases, c)
		}
	}
	h.remind()
	return h
}

// remind reads what is due, so that home can say it.
func (h *home) remind() {
	h.due = "s asks questions by unit of study, and what is due again."
	if h.u.open.Study == nil {
		return
	}
	if study, err := h.u.open.Study(); err == nil {
		h.due = "s: questions by unit of study. " + study.Due
	}
}

func (h *home) about() (string, string) {
	return "Home", "Choose a case, or go on with an attempt that waits. Nothing starts before you have read the briefing."
}

func (h *home) keys() []hint {
	out := []hint{back("leave"), enter("open")}
	if h.u.open.Quiz != nil {
		out = append(out, letter('s', "questions by unit"))
	}
	out = append(out, hint{key: "1 to 9", says: "a case by its number"})
	if len(h.u.open.Unfinished) > 0 {
		out = append(out, letter('r', "resume"))
	}
	return out
}

func (h *home) count() int {
	return len(h.u.open.Unfinished) + len(h.cases) + len(h.u.open.Finished)
}

func (h *home) item(i int) string {
	if i < len(h.u.open.Unfinished) {
		a := h.u.open.Unfinished[i]
		if a.InUse {
			return fmt.Sprintf("-  open in another window: %s, at %s", a.Title, a.Reached)
		}
		return fmt.Sprintf("r  go on: %s, at %s, played %s", a.Title, a.Reached, a.Played)
	}
	i -= len(h.u.open.Unfinished)
	if i >= len(h.cases) {
		a := h.u.open.Finished[i-len(h.cases)]
		return fmt.Sprintf("-  read again: %s, finished %s", a.Title, a.Played)
	}
	c := h.cases[i]
	return fmt.Sprintf("%d  %s (%s, %s, about %s, %s)", i+1, c.Title, c.Track, c.Level, c.Minutes, c.Status)
}

func (h *home) draw(c canvas) {
	y := 0
	put := func(text string, st style) {
		for _, s := range fold(text, c.w-2) {
			c.text(1, y, s, st)
			y++
		}
	}
	put("blanch: rehearse a vasopressor in an arm vein before you run one", strong)
	y++
	put(session.Caution+" "+session.Skin, plain)
	y++
	room := max(1, min(h.count(), c.h-y-6))
	h.list.draw(c.sub(1, y, c.w-2, room), h.count(), true, h.item)
	y += room + 1
	if i := h.list.at - len(h.u.open.Unfinished); i >= 0 && i < len(h.cases) {
		put(h.cases[i].Summary, plain)
		if h.cases[i].Status == "draft" {
			put("A draft: it has not been piloted with learners, and may still be mended.", plain)
		}
	} else if i >= len(h.cases) {
		put("The debrief of a finished attempt: marks, the whole hour, sums, the arm.", plain)
	} else if h.count() > 0 {
		put("The clock stands where you left it.", plain)
	}
	if h.u.open.Quiz != nil {
		put(h.due, plain)
	}
	for _, f := range h.fault {
		put(f, strong)
	}
	if y < c.h-1 {
		y = c.h - 2
		put("Without a screen: blanch --plain gives plain lines for a screen reader, blanch --lines takes typed sentences.", plain)
	}
}

func (h *home) key(ev *tcell.EventKey) bool {
	if h.list.key(ev, h.count()) {
		return true
	}
	switch {
	case ev.Key() == tcell.KeyEscape:
		h.u.leave(nil)
	case ev.Key() == tcell.KeyEnter:
		h.choose(h.list.at)
	case ev.Key() != tcell.KeyRune:
		return false
	case ev.Rune() == 's' && h.u.open.Quiz != nil:
		h.study()
	case ev.Rune() == 'r' && len(h.u.open.Unfinished) > 0:
		h.choose(max(0, slices.IndexFunc(h.u.open.Unfinished, func(a session.Recorded) bool { return !a.InUse })))
	case ev.Rune() >= '1' && ev.Rune() <= '9':
		if i := int(ev.Rune() - '1'); i < len(h.cases) {
			h.choose(i + len(h.u.open.Unfinished))
		}
	default:
		return false
	}
	return true
}

func (h *home) choose(i int) {
	var a *Attempt
	err := errors.New("nothing is chosen")
	switch n := len(h.u.open.Unfinished); {
	case i < n && h.u.open.Unfinished[i].InUse:
		h.fault = []string{"It is open in another window or terminal. Leave it there first; then it can go on here."}
		return
	case i >= n+len(h.cases) && i < h.count() && h.u.open.Read != nil:
		a, err = h.u.open.Read(h.u.open.Finished[i-n-len(h.cases)].Path)
	case i < n && h.u.open.Resume != nil:
		a, err = h.u.open.Resume(h.u.open.Unfinished[i].Path)
	case i >= n && i < n+len(h.cases) && h.u.open.Begin != nil:
		a, err = h.u.open.Begin(h.cases[i-n].ID)
	}
	h.fault = nil
	if err != nil {
		h.fault = []string{"That cannot be opened: " + err.Error()}
		return
	}
	h.u.enter(a)
}

// study opens the units of study.
func (h *home) study() {
	s, err := newStudy(h.u)
	if err != nil {
		h.fault = []string{"The questions cannot be opened: " + err.Error()}
		return
	}
	h.fault = nil
	h.u.push(s)
}
