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
	recap  []session.Line // the question that was answered, above what is said on it
	page   []session.Line // the question as it stands
	placed bool           // the page was set to begin where it should
	reads  bool           // what was said is read alone, before the question
	ended  bool           // the last lines are shown
	warned bool           // that leaving an assessment costs its result
}

func newQuestions(u *UI, s *quiz.Sitting) *questions {
	q := &questions{u: u, sit: s, text: newEntry("")}
	q.show(nil, s.Opening())
	return q
}

// remark is how many lines said about an answer still stand above the next
// question; more of them are a page of their own, so that nobody answers a
// question whose end is out of sight.
const remark = 3

// show puts what was said before the question that stands now, and before that
// the question that was answered, where there is so much to read about it.
func (q *questions) show(recap, said []session.Line) {
	q.recap, q.placed = nil, false
	page := q.sit.Page()
	q.reads = len(said) > remark && !q.sit.Over() && len(page) > 0 && !slices.Equal(page, q.page)
	switch {
	case q.sit.Over():
		q.recap, q.lines, q.ended = recap, slices.Concat(said, page, q.sit.Closing()), true
	case q.reads:
		q.recap, q.lines = recap, said
	default:
		q.lines = slices.Concat(said, page)
	}
	q.page, q.pager, q.text = page, pager{}, newEntry("")
}

func (q *questions) about() (string, string) {
	if q.sit.Assessment() {
		return "Assessment", "Questions without hints or explanations before the end, and a result sheet then. Type a number with its unit, a letter, or the numbers of the steps."
	}
	return "Practice", "Questions by unit of study, each explained at once. Every answer is kept as soon as it is given. Type a number with its unit, a letter, or the numbers of the steps."
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
	back := "page back"
	if q.recap != nil && q.pager.top > 0 {
		back = "the question"
	}
	out = append(out, press(tcell.KeyPgUp, "PgUp", back))
	if q.ended {
		return out
	}
	// What is typed is not done from a list: these have no key of their own.
	out = append(out, hint{key: "q", says: "leave, with what was done so far (typed: q and Enter)", ev: tcell.NewEventKey(tcell.KeyEscape, 0, tcell.ModNone)},
		hint{key: "?", says: "this help; F1 as well"}, hint{key: "pass", says: "typed: you do not know; it counts as missed"})
	if !q.sit.Assessment() {
		out = append(out, hint{key: "hint", says: "typed: the next step of a sum; not first time then"},
			hint{key: "y or n", says: "typed, after a missed sum: other numbers, or go on"})
	}
	return append(out, hint{key: "repeat", says: "typed: the question again"})
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
	above := indented(q.recap, c.w)
	rows := indented(q.lines, c.w)
	if q.recap != nil {
		rows = slices.Concat(above, []row{{}}, rows)
	}
	if !q.placed {
		// Where both do not fit, what is new comes first, and PgUp shows the
		// question.
		if q.placed = true; len(rows) > room && len(above) > 0 {
			q.pager.top = len(above) + 1
		}
	}
	q.pager.draw(c.sub(0, 0, c.w, room), rows)
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
	case ev.Key() == tcell.KeyRune && ev.Rune() == 'q' && (q.reads || q.ended):
		q.leave()
	case ev.Key() == tcell.KeyRune && ev.Rune() == '?' && typed == "":
		q.u.push(newHelp(q.u))
	case ev.Key() != tcell.KeyEnter:
		return !q.ended && !q.reads && q.text.key(ev)
	case typed == "" && !q.pager.last():
		q.pager.key(tcell.NewEventKey(tcell.KeyPgDn, 0, tcell.ModNone))
	case q.ended:
		q.u.goHome()
	case q.reads:
		q.show(nil, nil)
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
	q.recap, q.lines, q.ended, q.pager = nil, q.sit.Left(), true, pager{}
}

func (q *questions) answer(typed string) {
	switch strings.ToLower(typed) {
	case "q", "quit":
		q.leave()
		return
	case "?", "help":
		q.show(nil, q.sit.Help())
		return
	}
	recap, done := q.sit.Recap(), q.sit.Answered()
	said, err := q.sit.Answer(typed)
	if err != nil {
		q.u.flash, q.u.loud = "The answer was not kept: "+err.Error(), true
		return
	}
	if q.sit.Answered() == done || q.sit.Assessment() {
		recap = nil // it still stands, or is repeated on the sheet
	}
	q.show(recap, said)
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
