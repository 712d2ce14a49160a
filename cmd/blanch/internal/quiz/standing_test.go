package quiz

import "testing"

func TestStanding(t *testing.T) {
	tasks := many(t, 3)
	c := &clock{evening}
	s := sit(t, Options{Tasks: tasks, Now: c.now})
	p := s.o.Progress
	show := func() string {
		lines, err := Standing(tasks, p, c.now())
		if err != nil {
			t.Fatal(err)
		}
		return text(lines)
	}
	has(t, show(), "sums: not begun.", "Nothing was answered yet", "promises nothing", "no licence to practise")
	say(t, s, right(s))
	say(t, s, "pass")
	has(t, show(), "Answered so far: 2 of 3 questions. Right first time: 1 of 2 answers.", "now: 1 question", "in 2 days: 1 question", "line: no questions.")
}
