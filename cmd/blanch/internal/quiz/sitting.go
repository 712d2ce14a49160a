package quiz

import (
	"errors"
	"fmt"
	"slices"
	"strings"
	"time"

	"blanch/cmd/blanch/internal/progress"
	"blanch/cmd/blanch/internal/review"
	"blanch/cmd/blanch/internal/session"
	"blanch/scenarios"
	"blanch/sim/luck"
	"blanch/sim/sum"
)

// Options say what is sat.
type Options struct {
	Tasks     []Task
	Unit      review.Unit // 0 for all
	Progress  *progress.Progress
	Policy    *scenarios.Policy // decides where sources disagree
	Seed      uint64
	Questions int // at most; 0 for the day's plan, or AssessQuestions
	Assess    bool
	Plain     bool // words in place of drawings
	Now       func() time.Time

	// Keep keeps the result sheet of an assessment and says where; nil keeps
	// none.
	Keep func(sheet []session.Line) (where string, err error)
}

// AssessQuestions is how many an assessment puts unless told otherwise.
const AssessQuestions = 10

// Sitting is one sitting of questions. It is for one goroutine.
type Sitting struct {
	o     Options
	tasks map[string]*Task
	bank  review.Bank // those that can be put in this sitting
	queue []*Task     // of an assessment
	put   int         // questions put, without those tried again with other numbers
	now   *asked      // nil when over
	again *Task       // offered with other numbers
	done  []result
	share int // new questions of a day

	others int            // answers of other windows that were told
	result []session.Line // the sheet, once it was made
}

// asked is the question being put.
type asked struct {
	*Task
	drawn   Drawn
	order   *scenarios.Ordering // under the policy
	place   []int               // what stands in each place, of options or steps
	stage   sum.Stage           // of a sum
	typed   sum.Attempt
	notes   []notation
	began   time.Time
	try     int
	hints   int
	retried bool // the same again with other numbers
}

// result is one answer.
type result struct {
	task   *Task
	right  bool
	put    []session.Line // the question
	said   []session.Line // what there is to explain
	answer string
}

// New begins a sitting.
func New(o Options) (*Sitting, error) {
	s := &Sitting{o: o, tasks: map[string]*Task{}}
	var in []Task
	outside := map[bool]int{} // answered today in other units, by whether for the first time
	for i := range o.Tasks {
		t := &o.Tasks[i]
		s.tasks[t.Name] = t
		if o.Unit == 0 || t.Unit == o.Unit {
			in = append(in, *t)
			continue
		}
		if c, ok := o.Progress.Card(t.Name); ok && today(c.Last, o.Now()) {
			outside[today(c.First, o.Now())]++
		}
	}
	var err error
	if s.bank, err = BankOf(in); err != nil {
		return nil, err
	}
	if len(s.bank) == 0 {
		return nil, fmt.Errorf("unit %v has no questions", o.Unit)
	}
	// A day's limit is of the day, not of the unit. Whoever asks for a number of
	// questions gets it, also past the day's share.
	limits := review.DefaultLimits()
	limits = review.Limits{Day: limits.Day - outside[true] - outside[false], New: limits.New - outside[true]}
	if o.Questions > 0 && !o.Assess {
		seen, fresh := s.today(o.Now())
		limits = review.Limits{Day: max(limits.Day, seen+o.Questions), New: max(limits.New, fresh+o.Questions)}
	}
	o.Progress.Limit(limits)
	s.share = limits.New
	if o.Assess {
		n := o.Questions
		if n == 0 {
			n = AssessQuestions
		}
		for _, i := range shuffled(len(s.bank), o.Seed, "assessment", "", 0)[:min(n, len(s.bank))] {
			s.queue = append(s.queue, s.tasks[s.bank[i].Name])
		}
	}
	s.next()
	return s, nil
}

// today is how many questions of this sitting were answered today, and how many
// of them for the first time.
func (s *Sitting) today(now time.Time) (seen, fresh int) {
	for _, q := range s.bank {
		if c, ok := s.o.Progress.Card(q.Name); ok && today(c.Last, now) {
			seen++
			if today(c.First, now) {
				fresh++
			}
		}
	}
	return seen, fresh
}

// shareDone says that the day's share of new questions is used up.
func (s *Sitting) shareDone(now time.Time) bool {
	_, fresh := s.today(now)
	return fresh >= s.share
}

// unseen is how many questions of this sitting were never answered.
func (s *Sitting) unseen() int {
	n := 0
	for _, q := range s.bank {
		if _, ok := s.o.Progress.Card(q.Name); !ok {
			n++
		}
	}
	return n
}

// unitWord is the unit as a command names it.
func (s *Sitting) unitWord() string {
	if s.o.Unit == 0 {
		return ""
	}
	return " " + s.o.Unit.String()
}

func today(t, now time.Time) bool { return review.Days(t, now) == 0 && review.Days(now, t) == 0 }

// next puts the next question, if there is one.
func (s *Sitting) next() {
	s.now = nil
	// What another window has answered by now is not asked here as well. A file
	// that cannot be read is told when the next answer is to be kept.
	_ = s.o.Progress.Refresh()
	switch {
	case s.o.Assess:
		if s.put < len(s.queue) {
			s.begin(s.queue[s.put], false)
		}
	case s.o.Questions > 0 && s.put >= s.o.Questions:
	default:
		if plan := s.o.Progress.Next(s.o.Now(), s.bank); len(plan.Items) > 0 {
			at := 0
			if s.o.Progress.Others() > 0 {
				// Two windows have one plan: each takes from it by its own lot, so
				// that they seldom put the same question at the same time.
				at = int(luck.Bits(s.o.Seed, "window", "", s.put) % uint64(len(plan.Items)))
			}
			s.begin(s.tasks[plan.Items[at].Name], false)
		}
	}
	if s.now != nil {
		s.put++
	}
}

// begin puts a question with the numbers, or in the order, of this time.
func (s *Sitting) begin(t *Task, retried bool) {
	card, _ := s.o.Progress.Card(t.Name)
	n := card.Answers
	a := &asked{Task: t, try: 1, retried: retried}
	switch {
	case t.Numbers != nil:
		a.drawn = t.draw(s.o.Seed, n)
		a.stage = sum.SetDevice
		if a.drawn.Device != "" && !s.o.Assess {
			a.stage = sum.SetUp
		}
	case t.Single != nil:
		a.place = shuffled(len(t.Single.Options), s.o.Seed, "options", t.Name, n)
		if slices.ContainsFunc(t.Single.Options, func(o scenarios.Option) bool { return o.Says[0] >= '0' && o.Says[0] <= '9' }) {
			slices.Sort(a.place) // numbers stand in their order
		}
	case t.Order != nil:
		a.order = t.Order.Under(s.o.Policy)
		for i := n; ; i++ {
			if a.place = shuffled(len(a.order.Steps), s.o.Seed, "steps", t.Name, i); !a.order.Right(a.place) || i > n+50 {
				break
			}
		}
	}
	s.now, s.again = a, nil
}

// Over says that nothing more is put.
func (s *Sitting) Over() bool { return s.now == nil && s.again == nil }

// Assessment says which of the two this is.
func (s *Sitting) Assessment() bool { return s.o.Assess }

// Answered is how many answers were given and kept.
func (s *Sitting) Answered() int { return len(s.done) }

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
