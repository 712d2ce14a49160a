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
	has(t, show(), "sums: 0 done, 0 to repeat, 3 not yet seen.", "Nothing was answered yet", "promises nothing", "no licence to practise")
	say(t, s, right(s))
	say(t, s, "pass")
	has(t, show(), "sums: 1 done, 1 to repeat, 1 not yet seen. Still wanted: 2 of the others.", "A critical question is done when", "now: 1 question", "in 2 days: 1 question", "line: no questions.")
}

// After one long assessment the day's limit is told, and kept.
func TestStandingAfterALongAssessment(t *testing.T) {
	c := &clock{evening}
	tasks := many(t, 50)
	s := sit(t, Options{Tasks: tasks, Assess: true, Questions: 50, Now: c.now})
	for !s.Over() {
		say(t, s, "pass")
	}
	lines, err := Standing(tasks, s.o.Progress, c.now())
	if err != nil {
		t.Fatal(err)
	}
	has(t, text(lines), "now: 50 questions, up to 20 today, critical ones and lower levels first")
	s = sit(t, Options{Tasks: tasks, Progress: s.o.Progress, Now: c.now})
	n := 0
	for ; !s.Over(); n++ {
		say(t, s, right(s))
	}
	if n != 20 {
		t.Errorf("%d repeats on one evening", n)
	}
	has(t, text(s.Closing()), "That is enough for a day. 30 questions are due as well")
}
