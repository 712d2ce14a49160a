package quiz

import (
	"fmt"
	"slices"
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
