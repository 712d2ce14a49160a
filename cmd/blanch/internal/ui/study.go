package ui

import (
	"github.com/gdamore/tcell/v2"

	"blanch/cmd/blanch/internal/quiz"
)

// study lists the units of study, how far each is, and what is due.
type study struct {
	u     *UI
	study quiz.Study
	list  list
	pager *pager // of the whole standing, where that is open
	fault string
}

func newStudy(u *UI) (*study, error) {
	s := &study{u: u}
	var err error
	if s.study, err = u.open.Study(); err != nil {
		return nil, err
	}
	return s, nil
}

func (s *study) about() (string, string) {
	return "Questions", "Choose a unit of study, or all of them: what is due comes first, then new questions. The numbers are how many questions of a unit are done, are to be repeated, and were not seen yet."
}

func (s *study) keys() []hint {
	if s.pager != nil {
		return []hint{back("units")}
	}
	return []hint{back("home"), enter("ask questions"), letter('p', "progress, and what the numbers mean"), {key: "0 to 6", says: "all, or a unit by its number"}}
}

func (s *study) draw(c canvas) {
	c = c.sub(1, 0, c.w-2, c.h)
	if s.pager != nil {
		s.pager.draw(c, indented(s.study.Lines, c.w))
		return
	}
	c.text(0, 0, "Questions by unit of study", strong)
	y := 2
	for _, text := range fold(s.study.Due, c.w) {
		c.text(0, y, text, plain)
		y++
	}
	y++
	room := max(1, min(len(s.study.Units), c.h-y-2))
	s.list.draw(c.sub(0, y, c.w, room), len(s.study.Units), true, func(i int) string { return s.study.Units[i] })
	y += room + 1
	for _, text := range fold(s.fault, c.w) {
		c.text(0, y, text, strong)
		y++
	}
}

func (s *study) key(ev *tcell.EventKey) bool {
	if s.pager != nil {
		if ev.Key() == tcell.KeyEscape || ev.Key() == tcell.KeyEnter {
			s.pager = nil
			return true
		}
		return s.pager.key(ev)
	}
	switch {
	case s.list.key(ev, len(s.study.Units)):
	case ev.Key() == tcell.KeyEscape:
		s.u.pop()
	case ev.Key() == tcell.KeyEnter:
		s.ask(s.list.at)
	case ev.Key() != tcell.KeyRune:
		return false
	case ev.Rune() == 'p':
		s.pager = &pager{}
	case ev.Rune() >= '0' && int(ev.Rune()-'0') < len(s.study.Units):
		s.ask(int(ev.Rune() - '0'))
	default:
		return false
	}
	return true
}

// ask begins a sitting of a unit, or of all.
func (s *study) ask(unit int) {
	sit, err := s.u.open.Quiz(unit)
	if err != nil {
		s.fault = "The questions cannot be opened: " + err.Error()
		return
	}
	s.fault = ""
	s.u.push(newQuestions(s.u, sit))
}
