package quiz

import (
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"blanch/cmd/blanch/internal/progress"
	"blanch/cmd/blanch/internal/review"
	"blanch/sim/quantity"
)

// many is so many questions of one unit and level.
func many(t *testing.T, n int) []Task {
	t.Helper()
	var out []Task
	for i := range n {
		task := numbers(t, false)
		task.Name = fmt.Sprintf("rate %d", i)
		out = append(out, task)
	}
	return out
}

// right is the right answer to the question being put.
func right(s *Sitting) string { return s.now.drawn.Sum.Answer().String() }

func TestDayHasALimit(t *testing.T) {
	c := &clock{evening}
	s := sit(t, Options{Tasks: many(t, 30), Now: c.now})
	n := 0
	for ; !s.Over(); n++ {
		say(t, s, right(s))
	}
	if want := review.DefaultLimits().New; n != want {
		t.Errorf("%d new questions on one day, want %d", n, want)
	}
	has(t, text(s.Closing()), "8 answers are kept", "The next review comes in 2 days.")

	// A sitting of one unit has the same day.
	tasks := many(t, 30)
	other := numbers(t, false)
	other.Name, other.Unit = "of another unit", review.Line
	if s = sit(t, Options{Tasks: append(tasks, other), Unit: review.Line, Progress: s.o.Progress, Now: c.now}); !s.Over() {
		t.Error("another unit begins the day again")
	}
	c.at = evening.Add(24 * time.Hour)
	if s = sit(t, Options{Tasks: many(t, 30), Progress: s.o.Progress, Now: c.now}); s.Over() {
		t.Error("the next day has nothing")
	}
}

func TestQuestionsBoundASitting(t *testing.T) {
	s := sit(t, Options{Tasks: many(t, 5), Questions: 2})
	say(t, s, right(s))
	say(t, s, right(s))
	if !s.Over() {
		t.Error("a third question is put")
	}
	has(t, text(s.Closing()), "3 questions are ready now.")
}

// Nobody knows how much time has passed: the question is due at once, and the
// sitting goes on.
func TestClockSetBack(t *testing.T) {
	c := &clock{evening}
	s := sit(t, Options{Tasks: many(t, 1), Now: c.now})
	say(t, s, right(s))
	c.at = evening.Add(-40 * 24 * time.Hour)
	s = sit(t, Options{Tasks: many(t, 1), Progress: s.o.Progress, Now: c.now})
	if s.Over() {
		t.Fatal("not due after the clock was set back")
	}
	s.Ask()
	c.at = c.at.Add(-time.Hour) // while the question stands there
	say(t, s, right(s))
	if card, _ := s.o.Progress.Card("rate 0"); card.Answers != 2 || !card.Passed {
		t.Errorf("%+v", card)
	}
}

// Two sittings on one file lose nothing of each other.
func TestTwoAtOnce(t *testing.T) {
	path := filepath.Join(t.TempDir(), "reviews.ndjson")
	c := &clock{evening}
	one := sit(t, Options{Tasks: many(t, 6), Progress: reopened(t, path), Now: c.now})
	two := sit(t, Options{Tasks: many(t, 6), Progress: reopened(t, path), Now: c.now, Seed: 9})
	said := ""
	for !one.Over() || !two.Over() {
		for _, s := range []*Sitting{one, two} {
			if !s.Over() {
				said += say(t, s, right(s))
			}
		}
	}
	has(t, said, "The questions are open in another window too: 1 answer was given there since.")
	p := reopened(t, path)
	total := 0
	if one.Answered()+two.Answered() > 9 { // 12 if each asked all
		t.Errorf("%d and %d answers to 6 questions: most were asked in both", one.Answered(), two.Answered())
	}
	for i := range 6 {
		card, _ := p.Card(fmt.Sprintf("rate %d", i))
		total += card.Answers
	}
	if total != one.Answered()+two.Answered() || len(p.Faults()) != 0 {
		t.Errorf("%d answers in the file of %d and %d: %v", total, one.Answered(), two.Answered(), p.Faults())
	}
}

// What was answered is on the disk before the next question is put, so that
// whatever ends the program then takes nothing away.
func TestAnswerIsKeptAtOnce(t *testing.T) {
	path := filepath.Join(t.TempDir(), "reviews.ndjson")
	s := sit(t, Options{Tasks: many(t, 3), Progress: reopened(t, path)})
	say(t, s, right(s))
	if _, ok := reopened(t, path).Card("rate 0"); !ok {
		t.Error("the answer is not on the disk")
	}
	has(t, text(s.Left()), "1 answer is kept")
}

func TestAnswerThatCannotBeKeptIsAnError(t *testing.T) {
	dir := filepath.Join(t.TempDir(), "gone")
	p, err := progress.Open(filepath.Join(dir, "reviews.ndjson"))
	if err != nil {
		t.Fatal(err)
	}
	if err := os.WriteFile(dir, nil, 0o600); err != nil {
		t.Fatal(err)
	}
	s := sit(t, Options{Tasks: many(t, 1), Progress: p})
	if _, err := s.Answer(right(s)); err == nil || s.Answered() != 0 {
		t.Error("an answer that was not kept counts")
	}
}

// whole sits a sitting on all that ships with a list of answers, over and over,
// and gives all that was said.
func whole(t *testing.T, o Options, answers ...string) string {
	t.Helper()
	all, err := Questions()
	if err != nil {
		t.Fatal(err)
	}
	o.Tasks = all
	s := sit(t, o)
	b := text(s.Opening())
	for i := 0; !s.Over() && i < 200; i++ {
		b += text(s.Ask()) + s.Prompt()
		b += say(t, s, answers[i%len(answers)])
	}
	return b + text(s.Closing())
}

func TestSameSittingSameBytes(t *testing.T) {
	answers := []string{"b", "4 mL/h", "n", "c", "1 2 3 4 5", "", "hint", "pass"}
	for _, assess := range []bool{false, true} {
		o := Options{Seed: 5, Assess: assess}
		one, two := whole(t, o, answers...), whole(t, o, answers...)
		if one != two {
			t.Error("the same seed, progress and answers gave other lines")
		}
		o.Seed = 6
		if whole(t, o, answers...) == one {
			t.Error("another seed gave the same lines")
		}
	}
}

// Every question that ships is put, and answered by passing: no line of it has
// notation that can be misread (Institute for Safe Medication Practices, list of
// error-prone abbreviations, symbols and dose designations).
func TestNothingPrintedIsUnsafe(t *testing.T) {
	all, err := Questions()
	if err != nil {
		t.Fatal(err)
	}
	if len(all) < 100 {
		t.Errorf("%d questions", len(all))
	}
	for _, task := range all {
		s := sit(t, Options{Tasks: []Task{task}})
		said := text(s.Opening()) + text(s.Help()) + text(s.Ask()) + text(s.now.put(s.o.Policy, true, false)) + say(t, s, "hint") + say(t, s, "pass") + text(s.Closing())
		for _, word := range strings.Fields(said) {
			if unsafe := quantity.Unsafe(strings.Trim(word, ".,;:?()[]'\"")); unsafe != nil {
				t.Errorf("%s: %q: %s", task.Name, word, unsafe[0])
			}
		}
	}
}

// Each drill can be answered right, and is told so, as it is asked.
func TestEveryDrillTakesItsAnswer(t *testing.T) {
	all, err := Questions()
	if err != nil {
		t.Fatal(err)
	}
	for _, task := range all {
		if task.Numbers == nil {
			continue
		}
		for seed := range uint64(2) {
			s := sit(t, Options{Tasks: []Task{task}, Seed: seed})
			if s.now.drawn.Device != "" {
				say(t, s, "")
				say(t, s, "")
			}
			has(t, say(t, s, right(s)), "Right.")
			if c, _ := s.o.Progress.Card(task.Name); !c.Passed {
				t.Errorf("%s: %+v", task.Name, c)
			}
		}
	}
}

// Once the day's share of new questions is done, a sitting of any unit says so,
// and a number that is asked for goes past it.
func TestDayShareIsToldAndCanBePassed(t *testing.T) {
	c := &clock{evening}
	tasks := many(t, 12)
	for i := range 3 {
		other := numbers(t, false)
		other.Name, other.Unit = fmt.Sprintf("of line %d", i), review.Line
		tasks = append(tasks, other)
	}
	s := sit(t, Options{Tasks: tasks, Now: c.now})
	for !s.Over() {
		say(t, s, right(s))
	}
	for _, unit := range []review.Unit{0, review.Sums} {
		s = sit(t, Options{Tasks: tasks, Unit: unit, Progress: s.o.Progress, Now: c.now})
		if !s.Over() {
			t.Fatal("more than the day's share is put")
		}
		has(t, text(s.Closing()), "today's share of new questions (8, of all units together) is done", "7 questions are still new to you here", "--questions 5 goes past the day's share")
	}
	has(t, text(s.Closing()), "Nothing more of unit sums is due now", "blanch quiz sums --questions 5")
	s = sit(t, Options{Tasks: tasks, Unit: review.Sums, Questions: 3, Progress: s.o.Progress, Now: c.now})
	has(t, text(s.Opening()), "At most 3 questions", "past the day's share of 8 new ones")
	n := 0
	for ; !s.Over(); n++ {
		say(t, s, right(s))
	}
	if n != 3 {
		t.Errorf("%d questions were put of 3 that were asked for", n)
	}
}
