package ui

import (
	"errors"
	"fmt"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"blanch/cmd/blanch/internal/progress"
	"blanch/cmd/blanch/internal/quiz"
	"blanch/cmd/blanch/internal/review"
	"blanch/content"
	"blanch/content/drill"
	"blanch/scenarios"
	"blanch/sim/quantity"
	"blanch/sim/sum"
)

const screenItems = `format: 1
items: screen
unit: line
title: Items for the screen
single best answer:
  hand-or-forearm:
    objective: Choose a vein
    level: first
    critical: true
    sources: [Common practice]
    stem: A vein of the hand and one of the forearm are found, and both are wide.
    lead-in: Which of them is taken for the vasopressor?
    options:
      - option: The vein of the hand
        because: It lies near a joint, and little lies around it.
      - option: The vein of the forearm
        key: true
        because: It is straight, and a cannula lies still in it.
      - option: Both of them at once
        because: One line is enough, and the other is kept as a backup.
`

// tasks are a question with options, and a sum: 5 mcg/min from 4 mg in 250 mL
// is 18.75 mL/h (dose times 60 over concentration: common practice).
func tasks(t *testing.T) []quiz.Task {
	t.Helper()
	items, complaints := scenarios.LoadItems("screen.yaml", []byte(screenItems))
	if items == nil {
		t.Fatal(complaints)
	}
	out, err := quiz.FromItems(items)
	if err != nil {
		t.Fatal(err)
	}
	draw := func(seed uint64) quiz.Drawn {
		k, _ := sum.Named("rate")
		dose := quantity.Of(5+float64(seed%2), "mcg/min")
		s, err := k.New(map[string]quantity.Quantity{"dose": dose, "amount": quantity.Of(4, "mg"), "volume": quantity.Of(250, "mL")}, quantity.Unit{})
		if err != nil {
			t.Fatal(err)
		}
		return quiz.Drawn{
			Stem:   []string{fmt.Sprintf("The order is norepinephrine at %s.", dose), "At what rate must the pump run? Answer in mL/h, to the nearest 0.1 mL/h; a half goes up."},
			Shown:  quiz.Look(drill.Picture{Bags: []drill.Bag{{Drug: "norepinephrine", Amount: quantity.Of(4, "mg"), Volume: quantity.Of(250, "mL")}}}),
			Device: "pump", Sum: s,
		}
	}
	return append(out, quiz.Task{Question: review.Question{Name: "a rate", Unit: review.Line, Level: 1}, Objective: "Work out a rate", Numbers: &quiz.Numbers{Draw: draw, Apart: 2}})
}

func sittingFor(t *testing.T, assess bool) *quiz.Sitting {
	t.Helper()
	p, err := progress.Open(filepath.Join(t.TempDir(), "reviews.ndjson"))
	if err != nil {
		t.Fatal(err)
	}
	policy, complaints, err := content.LoadPolicy("alder-court")
	if policy == nil {
		t.Fatal(err, complaints)
	}
	at := time.Date(2026, 12, 1, 20, 0, 0, 0, time.UTC)
	s, err := quiz.New(quiz.Options{Tasks: tasks(t), Progress: p, Policy: policy, Seed: 4, Assess: assess, Now: func() time.Time {
		at = at.Add(time.Second)
		return at
	}})
	if err != nil {
		t.Fatal(err)
	}
	return s
}

// quizzed is a screen at home with questions to be asked.
func quizzed(t *testing.T, w, h int, assess bool) *hand {
	d := sit(t, w, h)
	d.u.open.Quiz = func(int) (*quiz.Sitting, error) { return sittingFor(t, assess), nil }
	d.u.open.Study = func() (quiz.Study, error) {
		p, err := progress.Open(filepath.Join(t.TempDir(), "reviews.ndjson"))
		if err != nil {
			t.Fatal(err)
		}
		return quiz.StudyOf(tasks(t), p, time.Date(2026, 12, 1, 20, 0, 0, 0, time.UTC))
	}
	d.u.top().(*home).remind()
	return d
}

func TestQuestionScreens(t *testing.T) {
	for _, size := range []struct{ w, h int }{{80, 24}, {120, 36}} {
		at := fmt.Sprintf("%dx%d-quiz-", size.w, size.h)
		d := quizzed(t, size.w, size.h, false)
		d.shot(at+"home").press("s").shot(at+"units").press("p").shot(at+"progress").press("Esc", "Enter").shot(at+"opening").press("End", "Enter", "End").shot(at + "question")
		d.press("a").shot(at + "typed")
		d.press("Enter").shot(at+"explained").press("End", "Enter", "End", "F1").shot(at + "help").press("Esc").shot(at + "sum")
		d.press("5 x 60 / 16", "Enter").shot(at+"compute").press("End", "Backspace", "18.75 mL/h", "Enter", "End", "1125 mL/h", "Enter").shot(at + "slip")
		d.press("Esc").shot(at + "left").press("Esc").shot(at + "home")

		d = quizzed(t, size.w, size.h, true)
		d.press("s", "0", "End", "Enter", "End").shot(at + "assess").press("Esc").shot(at + "assess-leaving")
		d.press("pass", "Enter").shot(at+"assess-taken").press("pass", "Enter").shot(at + "assess-sheet")
	}
}

// Nothing is lost at any size, and no key does harm.
func TestQuestionsHoldInEverySize(t *testing.T) {
	for _, size := range [][2]int{{0, 0}, {1, 1}, {2, 2}, {5, 3}, {20, 6}, {40, 12}, {79, 23}, {200, 60}} {
		d := quizzed(t, size[0], size[1], false)
		d.press("s", "p", "Esc", "Enter")
		for range 3 {
			for _, k := range []string{"Down", "PgDn", "End", "Home", "Left", "x", "F1", "Esc", "Backspace", "hint", "Enter", "End", "Enter", "Up"} {
				d.press(k)
			}
		}
		d.press("Esc", "Esc", "Esc")
	}
}

func TestQuestionsThatCannotBeOpened(t *testing.T) {
	d := sit(t, 80, 24)
	d.u.open.Quiz = func(int) (*quiz.Sitting, error) { return nil, errors.New("the file is of a newer format") }
	d.u.open.Study = func() (quiz.Study, error) { return quiz.Study{}, errors.New("the file is of a newer format") }
	d.press("s").want("The questions cannot be opened: the file is of a newer format")
}

// q leads by the summary to home, on a page of explanations and on an answer
// line; ? opens the help from both, and a question mark within a text does not.
func TestOneWayOutOfTheQuestions(t *testing.T) {
	d := quizzed(t, 80, 24, false)
	d.press("s", "Enter", "End", "Enter", "End", "a", "Enter").want("(right", "Enter go on")
	d.press("q").want("Practice so far", "1 answer is kept").press("q").want("rehearse a vasopressor")

	d = quizzed(t, 80, 24, false)
	d.press("s", "Enter", "End", "Enter", "End", "q", "Enter").want("Practice so far").press("Enter").want("rehearse a vasopressor")

	d = quizzed(t, 80, 24, false)
	d.press("s", "Enter", "End", "Enter", "End", "?").want("Search:", "y or n", "leave, with what was done so far").press("Esc")
	d.press("a", "?").want("> a?")
	d.press("Backspace", "Enter", "?").want("Search:")
}

// No line of the help is cut.
func TestHelpIsFolded(t *testing.T) {
	for _, w := range []int{60, 80} {
		d := sit(t, w, 24)
		d.press("?")
		if strings.Contains(d.text(), "..") {
			t.Errorf("%d columns:\n%s", w, d.text())
		}
		d.press("Esc", "Down", "Enter", "End", "Enter", "?", "saved")
		if said := strings.Join(strings.Fields(d.text()), " "); !strings.Contains(said, "the way to resume is printed") {
			t.Errorf("%d columns: the line on q has no end:\n%s", w, d.text())
		}
	}
}

// The question stands above what is said about its answer; where both do not
// fit, PgUp shows it.
func TestTheQuestionStandsAboveItsExplanation(t *testing.T) {
	d := quizzed(t, 80, 24, false)
	d.press("s", "Enter", "End", "Enter", "End", "a", "Enter").want("Which of them is taken for the vasopressor?", "It is straight, and a cannula lies still in it.")
	d = quizzed(t, 80, 12, false)
	d.press("s", "Enter", "End", "Enter", "End", "a", "Enter").want("Right.", "PgUp the question")
	d.press("PgUp").want("Question 1 (unit line", "Which of them is taken for the vasopressor?")
}

// A unit is chosen on the screen, and how far it is can be seen there.
func TestUnitsAreChosenOnTheScreen(t *testing.T) {
	d := quizzed(t, 80, 24, false)
	asked := -1
	begin := d.u.open.Quiz
	d.u.open.Quiz = func(unit int) (*quiz.Sitting, error) {
		asked = unit
		if unit == 2 {
			return nil, errors.New("unit mix has no questions")
		}
		return begin(unit)
	}
	d.draw()
	d.want("s: questions by unit of study. Nothing is due again; up to 2 new ones today.")
	d.press("s").want("line: 0 done, 0 to repeat, 2 not yet seen", "Nothing is due again; up to 2 new ones today.")
	d.press("p").want("A critical question is done when").press("Esc").want("0  all units")
	if d.press("2").want("cannot be opened: unit mix has no questions"); asked != 2 {
		t.Errorf("unit %d was asked for", asked)
	}
	if d.press("Home", "Down", "Enter").want("Practice"); asked != 1 {
		t.Errorf("unit %d was asked for", asked)
	}
	d.press("Esc", "Esc").want("rehearse a vasopressor")
}
