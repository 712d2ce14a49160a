package quiz

import (
	"fmt"

	"blanch/cmd/blanch/internal/session"
	"blanch/sim/sum"
)

// Prompt is what stands before the answer. It always says whether this is
// practice or an assessment.
func (s *Sitting) Prompt() string {
	if s.o.Assess {
		return fmt.Sprintf("assessment %d of %d> ", s.put, len(s.queue))
	}
	switch {
	case s.again != nil:
		return "practice, again> "
	case s.now != nil && s.now.Numbers != nil && s.now.drawn.Device != "":
		return "practice, " + s.now.stageName() + "> "
	}
	return "practice> "
}

// stageName is what the stage asks for.
func (a *asked) stageName() string {
	if a.stage == sum.SetDevice {
		return deviceOf(a.drawn.Device).name
	}
	return a.stage.String()
}

// Ask is the question, what its next stage asks for, or what is offered. A
// question that was shown already is not shown again.
func (s *Sitting) Ask() []session.Line {
	switch {
	case s.Over():
		return nil
	case s.again != nil:
		return []session.Line{told("Enter gives you the same kind of question with other numbers; n goes on.")}
	}
	if s.now.began.IsZero() {
		s.now.began = s.o.Now()
		return s.question()
	}
	if s.now.Numbers != nil && s.now.drawn.Device != "" {
		return s.now.wanted()
	}
	return nil
}

// Page is as Ask, with the whole question also when it was shown already.
func (s *Sitting) Page() []session.Line {
	asked := s.Ask()
	if s.now == nil {
		return asked
	}
	return s.question()
}

// question is the whole question.
func (s *Sitting) question() []session.Line {
	return append(s.title(), s.now.put(s.o.Policy, s.o.Plain, false)...)
}

// title says what kind of question it is.
func (s *Sitting) title() []session.Line {
	t := s.now.Task
	what := fmt.Sprintf("Question %d", s.put)
	if s.o.Assess {
		what = fmt.Sprintf("Assessment, question %d of %d", s.put, len(s.queue))
	}
	if s.now.retried {
		what = "The same with other numbers"
	}
	what += fmt.Sprintf(" (unit %v, %v level, %s", t.Unit, t.Level, t.kind())
	if t.Critical {
		what += ", critical"
	}
	return []session.Line{heading(what + ")")}
}
