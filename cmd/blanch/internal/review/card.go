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
	Passed  bool      // the last answer was right first time
	Answers int
	OfDay   int // of these, on the day of the last one
	Lapses  int // graded again
	Right   int // days in a row on which it was right first time
	Quick   int // days in a row on which it was answered at speed

	counted time.Time // last day of Right, or last answer not right first time
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
	c.Passed = a.FirstTime()
	c.countDays(a)
	c.Grade = grade(a, c.Quick)
	c.Memory = m.Next(c.Memory, days, c.Grade)
	if c.Answers > 0 && !today(c.Last, a.At) {
		c.OfDay = 0
	}
	c.Answers++
	c.OfDay++
	c.Last, c.Due = a.At, a.At
	if c.Grade == Again {
		c.Lapses++
	} else {
		// Due with the leeway, so that Days from Last to Due is the interval.
		c.Due = a.At.Add(time.Duration(m.Interval(c.Stability))*day - Leeway)
	}
	return c
}

// countDays counts days of Right and Quick. What is not right first time begins
// both counts again, and a right answer on the day of a miss does not count: the
// explanation has just been read.
func (c *Card) countDays(a Answer) {
	if !a.FirstTime() {
		c.Right, c.Quick, c.counted = 0, 0, a.At
		return
	}
	another := c.counted.IsZero() || Days(c.counted, a.At) >= 1
	if another {
		c.Right++
	}
	// After a clock set back, a day from here is another.
	if another || setBack(c.counted, a.At) {
		c.counted = a.At
	}
	switch {
	case !a.atSpeed():
		c.Quick = 0
	case another:
		c.Quick++
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
