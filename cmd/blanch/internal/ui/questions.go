package ui

import (
	"slices"
	"strings"

	"github.com/gdamore/tcell/v2"

	"blanch/cmd/blanch/internal/quiz"
	"blanch/cmd/blanch/internal/session"
)

// questions asks the questions of a sitting.
type questions struct {
	u      *UI
	sit    *quiz.Sitting
	lines  []session.Line
	pager  pager
	text   *entry
	page   []session.Line // the question as it stands
	reads  bool           // what was said is read alone, before the question
	ended  bool           // the last lines are shown
	warned bool           // that leaving an assessment costs its result
}

func newQuestions(u *UI, s *quiz.Sitting) *questions {
	q := &questions{u: u, sit: s, text: newEntry("")}
	q.show(s.Opening())
	return q
}

// remark is how many lines said about an answer still stand above the next
// question; more of them are a page of their own, so that nobody answers a
// question whose end is out of sight.
const remark = 3

// show puts what was said before the question that stands now.
func (q *questions) show(said []session.Line) {
	page := q.sit.Page()
	q.reads = len(said) > remark && !q.sit.Over() && len(page) > 0 && !slices.Equal(page, q.page)
	switch {
	case q.sit.Over():
		q.lines, q.ended = slices.Concat(said, page, q.sit.Closing()), true
	case q.reads:
		q.lines = said
	default:
		q.lines = slices.Concat(said, page)
	}
	q.page, q.pager, q.text = page, pager{}, newEntry("")
}

func (q *questions) about() (string, string) {
	if q.sit.Assessment() {
		return "Assessment", "Questions without hints or explanations before the end, and a result sheet then. F1 is this help; type ? and Enter for what can be typed."
	}
	return "Practice", "Questions by unit of study, each explained at once. Every answer is kept as soon as it is given. F1 is this help; type ? and Enter for what can be typed."
}

func (q *questions) keys() []hint {
	out := []hint{back("leave")}
	home := "leave"
	if q.u.open.Sitting == nil {
		home = "home"
	}
	switch {
	case !q.pager.last():
		out = append(out, enter("next page"))
	case q.ended:
		out = []hint{back(home), enter(home)}
	case q.reads:
		out = append(out, enter("go on"))
	default:
		out = append(out, enter("answer"))
	}
	return append(out, press(tcell.KeyPgUp, "PgUp", "page back"))
}

func (q *questions) typing() (*entry, string) {
	if q.ended || q.reads {
		return nil, ""
	}
	return q.text, ""
}

func (q *questions) draw(c canvas) {
	c = c.sub(1, 0, c.w-2, c.h)
	room := c.h
	if !q.ended && !q.reads {
		room = max(0, c.h-2)
		n := c.text(0, c.h-1, q.sit.Prompt(), strong)
		q.text.draw(c.sub(n, c.h-1, c.w-n, 1))
	}
	q.pager.draw(c.sub(0, 0, c.w, room), indented(q.lines, c.w))
}

func (q *questions) key(ev *tcell.EventKey) bool {
	typed := strings.TrimSpace(q.text.text())
	warned := q.warned
	q.warned = false
	switch {
	case ev.Key() == tcell.KeyHome || ev.Key() == tcell.KeyEnd:
		if q.ended || typed == "" {
			return q.pager.key(ev)
		}
	case q.pager.key(ev):
		return true
	}
	switch {
	case ev.Key() == tcell.KeyEscape:
		if q.sit.Assessment() && !q.ended && !warned {
			q.warned = true
			q.u.flash = "An assessment that is left has no result. Esc again leaves it."
			return true
		}
		q.leave()
	case ev.Key() != tcell.KeyEnter:
		return !q.ended && !q.reads && q.text.key(ev)
	case typed == "" && !q.pager.last():
		q.pager.key(tcell.NewEventKey(tcell.KeyPgDn, 0, tcell.ModNone))
	case q.ended:
		q.u.goHome()
	case q.reads:
		q.show(nil)
	default:
		q.answer(typed)
	}
	return true
}

// leave shows what was done first, and then goes.
func (q *questions) leave() {
	if q.ended {
		q.u.goHome()
		return
	}
	q.lines, q.ended, q.pager = q.sit.Left(), true, pager{}
}

func (q *questions) answer(typed string) {
	switch strings.ToLower(typed) {
	case "q", "quit":
		q.leave()
		return
	case "?", "help":
		q.show(q.sit.Help())
		return
	}
	said, err := q.sit.Answer(typed)
	if err != nil {
		q.u.flash, q.u.loud = "The answer was not kept: "+err.Error(), true
		return
	}
	q.show(said)
}

// indented sets lines as set does, and keeps the columns that prose begins with.
func indented(lines []session.Line, w int) []row {
	var out []row
	for _, l := range lines {
		text := strings.TrimLeft(l.Text, " ")
		lead := len(l.Text) - len(text)
		switch {
		case l.Kind == session.Heading && len(out) > 0:
			out = append(out, row{})
			fallthrough
		case l.Kind != session.Told || lead == 0:
			out = append(out, set([]session.Line{l}, w)...)
			continue
		}
		for i, s := range fold(text, w-lead-2) {
			out = append(out, row{s, lead + min(i, 1)*2, plain})
		}
	}
	return out
}
