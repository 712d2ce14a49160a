package quiz

import (
	"errors"
	"strings"
	"testing"

	"blanch/cmd/blanch/internal/session"
)

func TestAssessmentKeepsItsExplanationsToTheEnd(t *testing.T) {
	tasks := []Task{shipped(t, "keeping-watch/hands-not-eyes"), numbers(t, true), concordance(t)}
	s := sit(t, Options{Tasks: tasks, Assess: true, Seed: 2})
	has(t, text(s.Opening()), "This is an assessment, not practice", "no hints", "no second try", "seed 2")
	said := say(t, s, "hint")
	has(t, said, "An assessment gives no hints.")
	for !s.Over() {
		if !strings.HasPrefix(s.Prompt(), "assessment ") {
			t.Errorf("the prompt is %q", s.Prompt())
		}
		said += text(s.Ask())
		switch {
		case s.now.Numbers != nil:
			said += say(t, s, "1575 mL/h")
		case s.now.Single != nil:
			said += say(t, s, typed(t, s, "Redness along the vein"))
		default:
			said += say(t, s, "c")
		}
	}
	for _, o := range tasks[0].Single.Options {
		hasNot(t, said, o.Because)
	}
	hasNot(t, said, "right.", "Right", "Step by step", "credit", "comes again", "other numbers", "Set it up")
	sheet := text(s.Closing())
	has(t, sheet, "ASSESSMENT: RESULT SHEET", "Critical questions met: 0 of 2.", "Other questions met: 1 of 1.",
		"Not met: a critical question was missed", ": Check a site with the hands.", ": Work out a rate.",
		"Redness is seen", "You answered: 1575 mL/h.", "You answered: B.", "Step by step", "credit of 1 out of 1", "no licence to practise")
	if s.Answered() != 3 {
		t.Errorf("%d answers", s.Answered())
	}
	hasNot(t, sheet, "Practice so far")
}

// The sheet is kept once, and says where; where that fails it says so and is shown
// all the same.
func TestSheetIsKept(t *testing.T) {
	var kept []string
	o := Options{Tasks: many(t, 3), Assess: true, Keep: func(sheet []session.Line) (string, error) {
		kept = append(kept, text(sheet))
		return "the drawer", nil
	}}
	s := sit(t, o)
	for !s.Over() {
		say(t, s, "1575 mL/h")
	}
	has(t, text(s.Closing()), "RESULT SHEET", "This sheet is kept in the drawer.")
	s.Closing()
	if len(kept) != 1 {
		t.Fatalf("kept %d times", len(kept))
	}
	has(t, kept[0], "RESULT SHEET", "You answered: 1575 mL/h.", "Step by step")
	o.Keep = func([]session.Line) (string, error) { return "", errors.New("the drawer is full") }
	s = sit(t, o)
	for !s.Over() {
		say(t, s, "pass")
	}
	has(t, text(s.Closing()), "This sheet could not be kept: the drawer is full.", "Other questions met: 0 of 3.")
}

func TestAssessmentThatIsMet(t *testing.T) {
	s := sit(t, Options{Tasks: many(t, 12), Assess: true})
	for !s.Over() {
		say(t, s, right(s))
	}
	has(t, text(s.Closing()), "Other questions met: 10 of 10.", "Met: every critical question")
	s = sit(t, Options{Tasks: many(t, 5), Assess: true, Questions: 5})
	say(t, s, "pass")
	for !s.Over() {
		say(t, s, right(s))
	}
	has(t, text(s.Closing()), "Other questions met: 4 of 5.", "Not met: the standard here")
}

func TestAssessmentLeftHasNoResult(t *testing.T) {
	s := sit(t, Options{Tasks: many(t, 12), Assess: true})
	say(t, s, right(s))
	has(t, text(s.Left()), "there is no result", "1 answer is kept")
	hasNot(t, text(s.Left()), "RESULT SHEET")
}

func TestPracticeNeverSaysAssessment(t *testing.T) {
	s := sit(t, Options{Tasks: many(t, 2)})
	all := text(s.Opening()) + s.Prompt() + text(s.Ask()) + say(t, s, right(s)) + text(s.Closing())
	hasNot(t, strings.ToLower(all), "assess", "result sheet")
}
