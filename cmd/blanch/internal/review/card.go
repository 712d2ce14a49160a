package review

import "time"

// Card is what is known of one learner and one question. A card with its
// Question alone was never answered.
type Card struct {
	Question
	Memory
	Grade   Grade     // of the last answer
	First   time.Time // first answer
	Last    time.Time // last answer
	Due     time.Time // when it comes again
	Answers int
	Lapses  int // graded again
	Right   int // days in a row on which it was right first time
	Quick   int // days in a row on which it was answered at speed

	counted time.Time // the last day of Right, or the last miss
	quickAt time.Time // the last day of Quick
}

// Review is the card after an answer. An answer graded again makes the card due
// at once, any other after whole days.
//
// A clock that was set back never makes an interval negative: an answer before
// the last one counts as the same day, and is the last one from then on.
func (m Model) Review(c Card, a Answer) Card {
	c.Question = a.Question
	days := 0
	if c.Answers == 0 {
		c.First = a.At
	} else {
		days = Days(c.Last, a.At)
	}
	c.countQuick(a)
	c.countRight(a)
	c.Grade = grade(a, c.Quick)
	c.Memory = m.Next(c.Memory, days, c.Grade)
	c.Answers++
	c.Last, c.Due = a.At, a.At
	if c.Grade == Again {
		c.Lapses++
	} else {
		// Due with the leeway, so that Days from Last to Due is the interval.
		c.Due = a.At.Add(time.Duration(m.Interval(c.Stability))*day - Leeway)
	}
	return c
}

// countRight counts days. What is not right first time begins the count again,
// and a right answer on the day of a miss does not count: the explanation has
// just been read.
func (c *Card) countRight(a Answer) {
	switch {
	case !a.FirstTime():
		c.Right, c.counted = 0, a.At
	case c.counted.IsZero(), Days(c.counted, a.At) >= 1:
		c.Right++
		c.counted = a.At
	case setBack(c.counted, a.At):
		c.counted = a.At // a day from here counts again
	}
}

func (c *Card) countQuick(a Answer) {
	switch {
	case !a.atSpeed():
		c.Quick, c.quickAt = 0, time.Time{}
	case c.quickAt.IsZero(), Days(c.quickAt, a.At) >= 1:
		c.Quick++
		c.quickAt = a.At
	case setBack(c.quickAt, a.At):
		c.quickAt = a.At
	}
}

// IsDue reports whether the card is to be reviewed. When the clock was set back
// by a day or more since the last answer, nobody knows how much time has
// passed: the card is due at once, since a review too many is better than one
// that waits until the clock has caught up.
func (c Card) IsDue(now time.Time) bool {
	return c.Answers > 0 && (!now.Before(c.Due) || setBack(c.Last, now))
}

// today reports that an instant lies within the day of now.
func today(t, now time.Time) bool { return Days(t, now) == 0 && !setBack(t, now) }
