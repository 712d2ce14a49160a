package prompt

import (
	"errors"
	"strings"

	"blanch/cmd/blanch/internal/quiz"
	"blanch/cmd/blanch/internal/session"
)

// Quiz asks the questions of a sitting. It returns ErrLeft or ErrInterrupted
// when the sitting is not finished; what was answered is kept all the same.
func (f *Face) Quiz(s *quiz.Sitting) error {
	rows := renderAll(s.Opening())
	for !s.Over() {
		f.page(append(rows, renderAll(s.Ask())...))
		rows = nil
		line, err := f.ask(s.Prompt(), "")
		switch word := strings.ToLower(line); {
		case errors.Is(err, ErrLeft), err == nil && (word == "q" || word == "quit"):
			f.say(s.Left()...)
			return ErrLeft
		case err != nil:
			f.put("")
			f.say(s.Left()...)
			return err
		case word == "?" || word == "help":
			rows = renderAll(s.Help())
			continue
		}
		said, err := s.Answer(line)
		if err != nil {
			return err
		}
		rows = renderAll(said)
	}
	f.page(append(rows, renderAll(s.Closing())...))
	return nil
}

// Lines writes lines and asks nothing.
func (f *Face) Lines(lines []session.Line) { f.say(lines...) }
