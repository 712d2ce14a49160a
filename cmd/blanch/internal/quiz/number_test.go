package quiz

import (
	"maps"
	"regexp"
	"testing"

	"blanch/cmd/blanch/internal/review"
	"blanch/sim/quantity"
)

// The sum: 0.1 mcg/kg/min x 70 kg x 60 min/h / 16 mcg/mL = 26.25 mL/h (dose
// times weight times 60 over concentration: common practice). Draws of the task
// are found by their weight, since seeds are keyed.
func at70(t *testing.T, o Options, critical bool) *Sitting {
	t.Helper()
	o.Tasks = []Task{numbers(t, critical)}
	for o.Seed = 1; o.Seed < 100; o.Seed++ {
		if s := sit(t, o); s.now.drawn.Sum.Given()["weight"].Value == 70 {
			return s
		}
	}
	t.Fatal("no seed draws 70 kg")
	return nil
}

func card(t *testing.T, s *Sitting) review.Card {
	t.Helper()
	c, ok := s.o.Progress.Card("a rate")
	if !ok {
		t.Fatal("nothing was kept")
	}
	return c
}

func TestRightNumber(t *testing.T) {
	for _, answer := range []string{"26.3 mL/h", "26.25 mL/h"} {
		s := at70(t, Options{}, true)
		has(t, say(t, s, answer), "Right.", "26.25 mL/h, rounded half up to 0.1: 26.3 mL/h", "It comes again in 2 days.")
		if c := card(t, s); !c.Passed || c.Grade != review.Good {
			t.Errorf("%s: %+v", answer, c)
		}
		if !s.Over() {
			t.Error("the only question was right, and the sitting goes on")
		}
	}
}

func TestSixtyFoldSlipIsDiagnosed(t *testing.T) {
	s := at70(t, Options{}, true)
	has(t, say(t, s, "1575 mL/h"), "Not right. This question is critical",
		"Your number is 60 times too large: you have multiplied by 60 twice, in step 4 (dose in an hour).",
		"  4. dose in an hour: 7 mcg/min x 60 min/h = 420 mcg/h\n     You left the path here, which leads to 1575 mL/h.")
	if c := card(t, s); c.Passed || c.Grade != review.Again {
		t.Errorf("%+v", c)
	}
}

func TestUnitMissingOrImpossible(t *testing.T) {
	for answer, reason := range map[string]string{"26.3": "the unit is missing", "26.3 mL": "another kind of amount"} {
		s := at70(t, Options{}, true)
		say(t, s, "")
		say(t, s, "")
		has(t, say(t, s, answer), reason, "Write it again")
		has(t, say(t, s, "26.3 mL/h"), "Right.")
		if c := card(t, s); c.Passed || c.Grade != review.Hard || c.Answers != 1 {
			t.Errorf("%s: right at the second try gives %+v", answer, c)
		}

		s = at70(t, Options{}, true)
		say(t, s, "")
		say(t, s, "")
		say(t, s, answer)
		say(t, s, answer)
		has(t, say(t, s, answer), "It counts as missed")
		if c := card(t, s); c.Grade != review.Again {
			t.Errorf("%s: never right gives %+v", answer, c)
		}

		s = at70(t, Options{Assess: true}, true)
		hasNot(t, say(t, s, answer), reason)
		if c := card(t, s); c.Grade != review.Again || c.Answers != 1 {
			t.Errorf("%s: assessed gives %+v", answer, c)
		}
		has(t, text(s.Closing()), "Not met", reason)
	}
}

func TestUnsafeNotationIsTakenAndTold(t *testing.T) {
	for answer, rule := range map[string]string{
		"26.3ml/hr":  "a number run into its unit can be misread",
		"26.30 mL/h": "a trailing zero can be read as ten times as much",
		"26.3 cc/h":  "cc can be read as 00",
	} {
		s := at70(t, Options{}, true)
		has(t, say(t, s, answer), "Right.", rule, "was taken as 26.3 mL/h", "Institute for Safe Medication Practices")
		if c := card(t, s); !c.Passed {
			t.Errorf("%s: %+v", answer, c)
		}
	}
}

func TestWhatCouldMeanTwoThingsIsRefused(t *testing.T) {
	for _, assess := range []bool{false, true} {
		s := at70(t, Options{Assess: assess}, true)
		has(t, say(t, s, "26,3 mL/h"), "comma")
		if s.Answered() != 0 {
			t.Fatal("it was marked")
		}
		say(t, s, "26.3 mL/h")
		if c := card(t, s); !c.Passed {
			t.Errorf("%+v", c)
		}
	}
}

func TestMissIsFollowedByOtherNumbers(t *testing.T) {
	s := at70(t, Options{}, false)
	before := s.now.drawn.Sum.Given()
	say(t, s, "1 mL/h")
	has(t, text(s.Ask()), "other numbers")
	say(t, s, "")
	if maps.Equal(before, s.now.drawn.Sum.Given()) {
		t.Error("the numbers are the same")
	}
	has(t, text(s.Ask()), "The same with other numbers")
	say(t, s, s.now.drawn.Sum.Answer().String())
	if c := card(t, s); c.Answers != 2 || c.Right != 0 {
		t.Errorf("right on the day of a miss: %+v", c)
	}
}

// Numbers are never those of the time before, also when the seed of the sitting
// is another; and without the promise of the source, under one seed.
func TestNumbersAreOthersThanBefore(t *testing.T) {
	task := numbers(t, false)
	for seed := range uint64(20) {
		for n := range 20 {
			if maps.Equal(task.draw(seed, n).Sum.Given(), task.draw(seed*7+3, n+1).Sum.Given()) {
				t.Fatalf("seed %d: the numbers of time %d are those of time %d", seed, n+1, n)
			}
		}
	}
	task.Numbers.Apart = 1
	for n := range 50 {
		if maps.Equal(task.draw(4, n).Sum.Given(), task.draw(4, n+1).Sum.Given()) {
			t.Fatalf("the numbers of time %d are those of time %d", n+1, n)
		}
	}
}

func TestHintsCount(t *testing.T) {
	s := at70(t, Options{}, true)
	has(t, say(t, s, "hint"), "step 1 of 6 is the drug in the bag")
	say(t, s, "26.3 mL/h")
	if c := card(t, s); c.Passed || c.Grade != review.Hard {
		t.Errorf("%+v", c)
	}
}

// A hint says which numbers go into the next step, and never what comes out at
// the end.
func TestHintsHelpAndNeverGiveTheAnswer(t *testing.T) {
	s := at70(t, Options{}, true)
	has(t, say(t, s, "hint"), "step 1 of 6 is the drug in the bag: work out 4 mg x 1000 mcg/mg.")
	all, err := Questions()
	if err != nil {
		t.Fatal(err)
	}
	for _, task := range all {
		if task.Numbers == nil {
			continue
		}
		s := sit(t, Options{Tasks: []Task{task}, Seed: 3})
		answer := regexp.MustCompile(`(^|[^0-9.])` + regexp.QuoteMeta(s.now.drawn.Sum.Answer().String()) + `([^0-9A-Za-z/]|$)`)
		given := text(s.Ask())
		for range s.now.drawn.Sum.Steps() {
			if said := say(t, s, "hint"); !s.now.drawn.Sum.Unit.IsZero() && answer.MatchString(said) && !answer.MatchString(given) {
				t.Errorf("%s: %q gives the answer, %s", task.Name, said, s.now.drawn.Sum.Answer())
			}
		}
		has(t, say(t, s, "hint"), "There are no more hints.")
	}
}

// A part of a vial is not met, and told.
func TestPartOfAVial(t *testing.T) {
	task := shipped(t, "drill/vials-to-open")
	s := sit(t, Options{Tasks: []Task{task}})
	say(t, s, "")
	n := s.now.drawn.Sum.Key().Value - 0.2
	said := say(t, s, quantity.Number(quantity.Round(n, 0.1))+" vials")
	has(t, said, "Not right. Close: only a whole number can be used.", "You cannot open 0.8 of a vial: give the whole number.")
	if c, _ := s.o.Progress.Card(task.Name); c.Passed {
		t.Errorf("%+v", c)
	}
}

// A wrong unit is not told as a missing one.
func TestWrongUnitIsNotAMissingOne(t *testing.T) {
	s := at70(t, Options{}, true)
	say(t, s, "")
	say(t, s, "")
	said := say(t, s, "26.3 mcg/kg/min")
	has(t, said, "another kind of amount", "Write it again")
	hasNot(t, said, "A number is nothing without the unit")
	has(t, say(t, s, "26.3"), "A number is nothing without the unit")
}

func TestPassOfACriticalQuestionSaysSo(t *testing.T) {
	has(t, say(t, at70(t, Options{}, true), "pass"), "Passed: it counts as missed. "+harms)
	hasNot(t, say(t, at70(t, Options{}, false), "pass"), harms)
}
