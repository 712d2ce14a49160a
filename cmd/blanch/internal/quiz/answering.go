package quiz

import (
	"errors"
	"fmt"
	"strings"

	"blanch/cmd/blanch/internal/review"
	"blanch/cmd/blanch/internal/session"
)

// Answer takes what was typed. Once it returns without an error, an answer that
// ends a question is on the disk.
func (s *Sitting) Answer(text string) ([]session.Line, error) {
	text = strings.TrimSpace(text)
	word := strings.ToLower(text)
	switch {
	case s.Over():
		return nil, errors.New("the sitting is over")
	case s.again != nil:
		switch word {
		case "", "y", "yes":
			s.begin(s.again, true)
		case "n", "no":
			s.again = nil
			s.next()
		default:
			return []session.Line{fault("Enter or y for other numbers, n to go on")}, nil
		}
		return nil, nil
	case word == "repeat" || word == "r":
		return s.question(), nil
	case word == "hint" || word == "h":
		return s.hint(), nil
	case word == "pass":
		return s.end(false, passed, s.now.unanswered(s.o.Policy))
	}
	switch {
	case s.now.Numbers != nil:
		return s.number(text)
	case s.now.Single != nil:
		return s.single(word)
	case s.now.Order != nil:
		return s.ordering(text)
	}
	return s.concordance(word)
}

// passed is the answer of whoever does not know.
const passed = "passed"

// end keeps an answer and goes on. In practice it is explained at once.
func (s *Sitting) end(right bool, answer string, said []session.Line) ([]session.Line, error) {
	a, now := s.now, s.o.Now()
	took := now.Sub(a.began)
	if took < 0 || took > longestLook || a.began.IsZero() {
		took = 0
	}
	card, err := s.o.Progress.Record(review.Answer{
		Question: a.Question, At: now, Right: right, CriticalMiss: !right && a.Critical,
		Hinted: a.hints > 0, Try: a.try, Took: took, Allowed: a.Allowed(),
	})
	if err != nil {
		return nil, err
	}
	said = append(a.noted(), said...)
	s.done = append(s.done, result{a.Task, right, a.put(s.o.Policy, true, true), said, answer})
	if s.o.Assess {
		s.next()
		return []session.Line{told("Taken. It is marked at the end.")}, nil
	}
	out := append(said, told("%s", comesAgain(card, now)))
	if !right && a.Numbers != nil {
		s.again = a.Task
		s.now = nil
		return append(out, s.beside()...), nil
	}
	s.next()
	return append(out, s.beside()...), nil
}

// beside says that the questions are open in another window too, each time that
// answers came from there.
func (s *Sitting) beside() []session.Line {
	n := s.o.Progress.Others()
	if n == s.others {
		return nil
	}
	more := n - s.others
	s.others = n
	return []session.Line{told("The questions are open in another window too: %s there since. What was answered there is not asked here as well.", given(more))}
}

func given(n int) string {
	if n == 1 {
		return "1 answer was given"
	}
	return fmt.Sprintf("%d answers were given", n)
}

// hint shows the next step of a sum: what it is, and which numbers go into it.
// What comes out of it is left to whoever asks; nothing shows the answer.
func (s *Sitting) hint() []session.Line {
	a := s.now
	switch {
	case s.o.Assess:
		return []session.Line{told("An assessment gives no hints.")}
	case a.Numbers == nil:
		return []session.Line{told("Only sums have hints. If you do not know, type pass: it counts as missed, and all is explained.")}
	}
	steps := a.drawn.Sum.Steps()
	if a.hints == len(steps) {
		return []session.Line{told("There are no more hints.")}
	}
	a.hints++
	step := steps[a.hints-1]
	how := ""
	if work, _, found := strings.Cut(step.Line, " = "); found {
		how = ": work out " + work
	}
	if a.hints == len(steps) {
		how = ": give what you have as the question asks for it, rounded once, here at the end"
	}
	return []session.Line{told("Hint: step %d of %d is the %s%s. With a hint, an answer does not count as right first time.", a.hints, len(steps), step.Label, how)}
}
