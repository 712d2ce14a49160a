package quiz

import (
	"fmt"
	"strings"

	"blanch/cmd/blanch/internal/review"
	"blanch/cmd/blanch/internal/session"
)

// Caution is said at the start of every sitting.
const Caution = "For training only: every patient, bag and order here is invented. Nothing here advises on a real patient; local policy and licensed practice decide."

// Spacing is all that is said for spaced review.
const Spacing = "Spaced review has helped in some trials of teaching clinicians and not in others. Here it orders practice and promises nothing."

// Opening is what is said before the first question.
func (s *Sitting) Opening() []session.Line {
	var out []session.Line
	if s.o.Assess {
		out = append(out, heading("Assessment"),
			told("This is an assessment, not practice: no hints, no explanations before the end, no second try. A missing or impossible unit counts as not met. What cannot be read in one way only is asked again."))
	} else {
		out = append(out, heading("Practice"))
	}
	out = append(out, told("%s %s", Caution, session.Skin))
	if s.o.Assess {
		out = append(out, told("%s, drawn by lot with seed %d. The result sheet comes after the last one; whoever leaves before has no result. Each answer counts in your progress as well.", questions(len(s.queue)), s.o.Seed))
	} else {
		out = append(out, told("Each answer is explained at once and kept at once. Reviews that are due come first, then new questions. %s", Spacing))
		if s.o.Questions > 0 {
			out = append(out, told("At most %s, as you asked for; that may go past the day's share of %d new ones.", questions(s.o.Questions), review.DefaultLimits().New))
		}
	}
	if s.o.Policy != nil {
		out = append(out, told("Where sources disagree, the policy in force decides: %s. --policy chooses another.", s.o.Policy.Title))
	}
	for _, f := range s.o.Progress.Faults() {
		out = append(out, told("Note on your progress file: %s.", f))
	}
	return append(out, told("? and Enter helps; q and Enter leaves, and what you answered stays."))
}

// Help says what can be typed.
func (s *Sitting) Help() []session.Line {
	out := []session.Line{heading("What you can type"),
		told("A number with its unit, as in 12.5 mL/h or 4 mg; a time also as 2 h 17 min. A comma could mean two things, so it is not taken."),
		told("A letter for a question with options; the numbers of the steps for an ordering."),
		told("pass: you do not know. It counts as missed.")}
	if s.o.Assess {
		out = append(out, told("There are no hints in an assessment. The answers are explained at its end."))
	} else {
		out = append(out,
			told("hint: the next step of a sum, and the numbers that go into it. With a hint an answer does not count as right first time."),
			told("Enter passes over setting up and computing, where a sum asks for them."),
			told("After a sum that was missed: Enter or y for the same with other numbers, n to go on."))
	}
	return append(out, told("repeat: the question again. ? and Enter: this list. q and Enter: leave, with what was done so far; everything you answered is kept."))
}

// Closing is what is said when nothing more is put: what was done, or the
// result sheet of an assessment.
func (s *Sitting) Closing() []session.Line {
	if !s.o.Assess {
		return s.summary()
	}
	if s.result == nil {
		s.result = s.sheet()
		if s.o.Keep != nil {
			where, err := s.o.Keep(s.result)
			said := told("This sheet is kept in %s.", where)
			if err != nil {
				said = told("This sheet could not be kept: %v.", err)
			}
			s.result = append([]session.Line{s.result[0], said}, s.result[1:]...)
		}
	}
	return s.result
}

// Left is what is said to whoever leaves before the end.
func (s *Sitting) Left() []session.Line {
	if s.o.Assess {
		return []session.Line{heading("Assessment left before its end: there is no result"), told("%s kept in your progress.", answersAre(len(s.done)))}
	}
	return s.summary()
}

func (s *Sitting) summary() []session.Line {
	out := []session.Line{heading("Practice so far")}
	right, missed := 0, map[string]bool{}
	for _, r := range s.done {
		if r.right {
			right++
		} else if r.task.Critical {
			missed[r.task.Name] = true
		}
	}
	if len(s.done) > 0 {
		out = append(out, told("%s in your progress, %d of them right.", answersAre(len(s.done))+" kept", right))
	}
	for _, r := range s.done {
		if missed[r.task.Name] {
			delete(missed, r.task.Name)
			out = append(out, told("  - critical, and missed today: %s.", r.task.Objective))
		}
	}
	now := s.o.Now()
	plan := s.o.Progress.Next(now, s.bank)
	nothing := "Nothing more is due now"
	if s.o.Unit != 0 {
		nothing = fmt.Sprintf("Nothing more of unit %v is due now", s.o.Unit)
	}
	switch unseen := s.unseen(); {
	case len(plan.Items) > 0:
		out = append(out, told("%s ready now.", questionsAre(len(plan.Items))))
	case plan.Held > 0:
		out = append(out, told("That is enough for a day. %s due as well and can wait for tomorrow: a day has at most %d.", questionsAre(plan.Held), review.DefaultLimits().Day))
	case unseen > 0 && s.shareDone(now):
		said := fmt.Sprintf("%s, and today's share of new questions (%d, of all units together) is done.", nothing, review.DefaultLimits().New)
		if !plan.Later.IsZero() {
			said += fmt.Sprintf(" The next review comes %s.", in(now, plan.Later))
		}
		out = append(out, told("%s", said), told("%s still new to you here. To do more today, ask for a number of questions: blanch quiz%s --questions 5 goes past the day's share.", questionsAre(unseen), s.unitWord()))
	case !plan.Later.IsZero():
		out = append(out, told("%s. The next review comes %s.", nothing, in(now, plan.Later)))
	}
	return out
}

// sheet is the result of an assessment with everything explained.
func (s *Sitting) sheet() []session.Line {
	out := []session.Line{heading("ASSESSMENT: RESULT SHEET")}
	var n, met [2]int // other, critical
	for _, r := range s.done {
		i := 0
		if r.task.Critical {
			i = 1
		}
		n[i]++
		if r.right {
			met[i]++
		}
	}
	if n[1] > 0 {
		out = append(out, told("Critical questions met: %d of %d.", met[1], n[1]))
	}
	if n[0] > 0 {
		out = append(out, told("Other questions met: %d of %d.", met[0], n[0]))
	}
	switch {
	case met[1] < n[1]:
		out = append(out, told("Not met: a critical question was missed, and no right answer to another balances that. These were missed:"))
		for i, r := range s.done {
			if r.task.Critical && !r.right {
				out = append(out, told("  - question %d: %s.", i+1, r.task.Objective))
			}
		}
	case met[0]*10 < n[0]*review.OthersOutOfTen:
		out = append(out, told("Not met: the standard here is every critical question and %d in 10 of the others.", review.OthersOutOfTen))
	default:
		out = append(out, told("Met: every critical question, and at least %d in 10 of the others. That standard is our own.", review.OthersOutOfTen))
	}
	out = append(out, told("This sheet is no licence to practise and says nothing of a real arm: local policy and the people who grant it decide. One sitting of so few questions is a small sample."))
	for i, r := range s.done {
		word := "met"
		if !r.right {
			word = "not met"
		}
		critical := ""
		if r.task.Critical {
			critical = ", critical"
		}
		out = append(out, heading(fmt.Sprintf("%d. %s (unit %v%s): %s", i+1, r.task.Objective, r.task.Unit, critical, word)))
		out = append(out, r.put...)
		if r.answer != passed {
			out = append(out, told("%s.", strings.TrimSuffix("You answered: "+r.answer, ".")))
		}
		out = append(out, r.said...)
	}
	return out
}

func questions(n int) string {
	if n == 1 {
		return "1 question"
	}
	return fmt.Sprintf("%d questions", n)
}

func questionsAre(n int) string {
	if n == 1 {
		return "1 question is"
	}
	return fmt.Sprintf("%d questions are", n)
}

func answersAre(n int) string {
	if n == 1 {
		return "1 answer is"
	}
	return fmt.Sprintf("%d answers are", n)
}
