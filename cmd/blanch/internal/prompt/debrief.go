package prompt

import (
	"fmt"
	"strings"

	"blanch/cmd/blanch/internal/session"
)

// debrief asks for reflection first, then shows the marks, then what there is
// to read about the hour.
func (f *Face) debrief(s *session.Session, draft string) error {
	f.keep = s.Draft
	defer func() { f.keep = nil }()
	f.with(func() { f.s = nil })
	f.more = nil
	questions := s.Reflections()
	open := 0
	for i := range questions {
		if !s.Answered(i) {
			open++
		}
	}
	if open > 0 {
		f.Say("")
		f.Say("Before the marks, in your own words. Enter alone passes a question over.")
	}
	for i, q := range questions {
		if s.Answered(i) {
			continue
		}
		f.put("")
		f.put(wrap("", "", fmt.Sprintf("%d of %d. %s", i+1, len(questions), q))...)
		answer, err := f.ask("> ", draft)
		draft = ""
		if err != nil {
			return err
		}
		if leaves(answer) {
			return ErrLeft
		}
		s.Reflect(i, answer)
	}
	f.keep = nil
	sheet := lines(s.Finish())
	if why := s.NotSaved(); why != "" {
		sheet = append(wrap("", "", why), append([]string{""}, sheet...)...)
	}
	f.page(append([]string{""}, sheet...))
	return f.afterwards(s)
}

// afterwards lets the attempt be read until whoever reads it has enough. The
// attempt is finished, so leaving in any way is no loss.
func (f *Face) afterwards(s *session.Session) error {
	const offer = "journal: the whole hour, what was hidden included. teaching: what the case has to say. sums: each sum, and what led to a wrong answer. marks: the sheet again. quit: leave."
	f.put("")
	f.Say("%s", offer)
	for {
		line, err := f.ask("> ", "")
		if err != nil {
			return nil
		}
		if line == "" || leaves(line) {
			return nil
		}
		switch strings.ToLower(line) {
		case "journal":
			var rows []string
			for _, l := range lines(s.Journal()) {
				rows = append(rows, entry(l)...)
			}
			f.page(rows)
		case "teaching":
			f.page(renderAll(s.Teaching()))
		case "sums":
			f.page(renderAll(s.Sums()))
		case "marks":
			f.page(lines(s.Finish()))
		default:
			f.Say("%s", offer)
		}
	}
}

// entry folds one line of a journal's text behind its time.
func entry(l string) []string {
	if at, text, ok := strings.Cut(l, "  "); ok && strings.Count(at, ":") == 2 {
		return render(session.Line{Kind: session.Happened, At: at, Text: text})
	}
	return render(session.Line{Kind: session.Told, Text: l})
}

func lines(text string) []string {
	return strings.Split(strings.TrimRight(text, "\n"), "\n")
}
