package review

import (
	"fmt"
	"strings"
	"time"
)

// The standard of a level. It is the same for everybody and on every day; only
// the time and the number of answers that it takes are the learner's own, as in
// mastery learning (McGaghie's seven features, from memory; standards for
// mastery: PMID 25188484). A unit is mastered when each of its levels is.
const (
	// CriticalDays is on how many different days a critical question has to be
	// right first time, since it was last not. Two is what this is for: right
	// first time, twice, on different days, so that it does not rest on an
	// explanation read an hour ago. No critical question is made up for by
	// others (conjunctive standard, PMID 25188484).
	CriticalDays = 2
	// OthersOutOfTen is how many in ten of the other questions have to be right
	// first time when last put, which on the day of a miss does not count. It is our own choice, below the 94 to 99 % that
	// one study found judges to want of skills and the 97 % of knowledge (PMID
	// 32818046), because here one slip in a small level is a large share. Those
	// who teach with this and have judges should set a standard of their own.
	OthersOutOfTen = 9
)

// Standing is how far a learner is in one unit, or on one of its levels.
type Standing struct {
	Unit  Unit
	Level int // the lowest that is not mastered; 0 when all are

	Critical    int // critical questions
	CriticalOne int // of these, right first time on at least one day
	CriticalMet int // of these, right first time on enough days
	Others      int // other questions
	OthersMet   int // of these, right first time when last put
	Seen        int // questions answered at least once

	// Waiting: all is right, and only another day is wanting.
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
			s.OthersMet += count(c.Right >= 1)
			continue
		}
		s.Critical++
		s.CriticalOne += count(c.Right >= 1)
		s.CriticalMet += count(c.Right >= CriticalDays)
	}
	others := s.OthersMet*10 >= s.Others*OthersOutOfTen
	s.Waiting = others && s.CriticalOne == s.Critical
	s.Mastered = others && s.CriticalMet == s.Critical
	return s
}

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
	s.CriticalOne += l.CriticalOne
	s.CriticalMet += l.CriticalMet
	s.Others += l.Others
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

// String says in one line how far the unit is and what is wanting.
func (s Standing) String() string {
	switch {
	case s.questions() == 0:
		return fmt.Sprintf("%v: no questions.", s.Unit)
	case s.Mastered:
		return fmt.Sprintf("%v: standard met. This is practice, not a licence: local protocol decides.", s.Unit)
	case s.Seen == 0:
		return fmt.Sprintf("%v: not begun.", s.Unit)
	}
	var wanting []string
	if n := s.Critical - s.CriticalOne; n > 0 {
		wanting = append(wanting, fmt.Sprintf("%d of %d critical questions not yet right first time", n, s.Critical))
	}
	if n := s.CriticalOne - s.CriticalMet; n > 0 {
		wanting = append(wanting, fmt.Sprintf("%d of %d critical questions right first time on one day, to be so again on another", n, s.Critical))
	}
	if n := s.Others - s.OthersMet; n > 0 {
		wanting = append(wanting, fmt.Sprintf("%d of %d other questions not yet right first time", n, s.Others))
	}
	return fmt.Sprintf("%v, level %d: %s.", s.Unit, s.Level, strings.Join(wanting, "; "))
}
