package review

import (
	"fmt"
	"strings"
	"time"
)

// The standard of a level. It is the same for everybody and on every day; only
// the time and the number of answers that it takes are the learner's own, as is
// common practice in mastery learning. A unit is mastered when each of its
// levels is.
const (
	// CriticalDays is on how many different days a critical question has to be
	// right first time, since it was last not. Two is what this is for: right
	// first time, twice, on different days, so that it does not rest on an
	// explanation read an hour ago. No critical question is made up for by
	// others: a conjunctive standard, as published for patient safety (PMID
	// 25188484).
	CriticalDays = 2
	// OthersOutOfTen is how many in ten of the other questions have to be right
	// first time when last put, which on the day of a miss does not count. So of
	// fewer than ten none may be wanting, and of ten to nineteen one. It is our
	// own choice: judges in one study wanted 94 to 99 % of skills and 97 % of
	// knowledge (PMID 32818046). Those who teach with this and have judges should
	// set a standard of their own.
	OthersOutOfTen = 9
)

// Standing is how far a learner is in one unit, or on one of its levels.
type Standing struct {
	Unit  Unit
	Level Level // the lowest that is not mastered; 0 when all are

	Critical       int // critical questions
	CriticalPassed int // of these, right first time when last put
	CriticalMet    int // of these, meeting the standard
	Others         int // other questions
	OthersPassed   int // of these, right first time when last put
	OthersMet      int // of these, meeting the standard
	Seen           int // questions answered at least once

	// Waiting: enough are right first time when last put, and only other days
	// are wanting.
	Waiting  bool
	Mastered bool // never without a question

	// Answers is the effort spent: how many answers were given. Recall is the
	// mean chance of recall now over the questions seen, as the model expects
	// it; it falls in a pause and says nothing by itself about mastery.
	Answers int
	Recall  float64
}

// Stand returns the standing of all units in order. Cards are by the name of
// their question; those of questions that are not in the bank do not count.
func Stand(bank Bank, cards map[string]Card, m Model, now time.Time) []Standing {
	var out []Standing
	for _, u := range Units() {
		s := Standing{Unit: u, Waiting: true, Mastered: true}
		for _, level := range bank.levels(u) {
			l := standing(level, cards)
			s.Recall += recalls(level, cards, m, now)
			if !l.Mastered && s.Level == 0 {
				s.Level = level[0].Level
			}
			s.add(l)
		}
		if s.questions() == 0 {
			s.Mastered = false
		}
		s.Waiting = s.Waiting && !s.Mastered && s.questions() > 0
		if s.Seen > 0 {
			s.Recall /= float64(s.Seen)
		}
		out = append(out, s)
	}
	return out
}

// levels returns the questions of a unit, level by level.
func (b Bank) levels(u Unit) [][]Question {
	var out [][]Question
	for _, q := range b {
		switch {
		case q.Unit != u:
		case len(out) > 0 && out[len(out)-1][0].Level == q.Level:
			out[len(out)-1] = append(out[len(out)-1], q)
		default:
			out = append(out, []Question{q})
		}
	}
	return out
}

// standing is that of one level, without Unit, Level and Recall. Waiting holds
// of a mastered level too.
func standing(level []Question, cards map[string]Card) Standing {
	var s Standing
	for _, q := range level {
		c := cards[q.Name]
		if c.Answers > 0 {
			s.Seen++
			s.Answers += c.Answers
		}
		if !q.Critical {
			s.Others++
			s.OthersPassed += count(c.Passed)
			s.OthersMet += count(c.Right >= 1)
			continue
		}
		s.Critical++
		s.CriticalPassed += count(c.Passed)
		s.CriticalMet += count(c.Right >= CriticalDays)
	}
	s.Waiting = s.CriticalPassed == s.Critical && enough(s.OthersPassed, s.Others)
	s.Mastered = s.CriticalMet == s.Critical && enough(s.OthersMet, s.Others)
	return s
}

func enough(n, of int) bool { return n*10 >= of*OthersOutOfTen }

// recalls is the sum of the chances of recall of the questions seen.
func recalls(level []Question, cards map[string]Card, m Model, now time.Time) (sum float64) {
	for _, q := range level {
		if c := cards[q.Name]; c.Answers > 0 {
			sum += m.Recall(c.Memory, float64(Days(c.Last, now)))
		}
	}
	return sum
}

func (s *Standing) add(l Standing) {
	s.Critical += l.Critical
	s.CriticalPassed += l.CriticalPassed
	s.CriticalMet += l.CriticalMet
	s.Others += l.Others
	s.OthersPassed += l.OthersPassed
	s.OthersMet += l.OthersMet
	s.Seen += l.Seen
	s.Answers += l.Answers
	s.Waiting = s.Waiting && l.Waiting
	s.Mastered = s.Mastered && l.Mastered
}

func (s Standing) questions() int { return s.Critical + s.Others }

func count(yes bool) int {
	if yes {
		return 1
	}
	return 0
}

// Done is how many questions meet the standard.
func (s Standing) Done() int { return s.CriticalMet + s.OthersMet }

// ToRepeat is how many were answered and do not meet it yet.
func (s Standing) ToRepeat() int { return s.Seen - s.Done() }

// NotSeen is how many were never answered.
func (s Standing) NotSeen() int { return s.questions() - s.Seen }

// Numbers says in three numbers how far the unit is.
func (s Standing) Numbers() string {
	return fmt.Sprintf("%d done, %d to repeat, %d not yet seen", s.Done(), s.ToRepeat(), s.NotSeen())
}

// String says in one line how far the unit is: three numbers, and what is still
// wanted. What counts as done stands in [Rule].
func (s Standing) String() string {
	if s.questions() == 0 {
		return fmt.Sprintf("%v: no questions.", s.Unit)
	}
	out := fmt.Sprintf("%v: %s.", s.Unit, s.Numbers())
	switch {
	case s.Mastered:
		return out + " The standard is met. This is practice, not a licence: local protocol decides."
	case s.Seen == 0:
		return out
	case s.Waiting:
		return out + " Still wanted: the same again on another day."
	}
	var wanted []string
	if n := s.Critical - s.CriticalMet; n > 0 {
		wanted = append(wanted, fmt.Sprintf("%d critical", n))
	}
	if n := s.Others - s.OthersMet; n > 0 && !enough(s.OthersMet, s.Others) {
		wanted = append(wanted, fmt.Sprintf("%d of the others", (s.Others*OthersOutOfTen+9)/10-s.OthersMet))
	}
	if wanted == nil {
		return out + fmt.Sprintf(" Still wanted: more of the %v level.", s.Level)
	}
	return out + " Still wanted: " + strings.Join(wanted, " and ") + "."
}

// Rule says once what counts as done.
func Rule() string {
	return fmt.Sprintf("A critical question is done when it was right first time on %d different days, and any other when it was right first time. Right first time is at the first try, without a hint; on the day of a miss it does not count yet. A unit meets the standard when, on each level, every critical question is done and %d in 10 of the others.", CriticalDays, OthersOutOfTen)
}
