package review

import "time"

// Question is all that is known here of a question.
type Question struct {
	Name     string // unique in the bank; stays when the wording is mended
	Unit     Unit
	Level    Level
	Critical bool // a miss can harm: nothing else makes up for it
}

// Answer is one question put once, with all its tries.
type Answer struct {
	Question
	At           time.Time     // when it was finished, by the wall clock
	Right        bool          // right in the end
	CriticalMiss bool          // a critical item of its marks was missed, in any try
	Hinted       bool          // a hint was shown before it was right
	Try          int           // the try that was right, from 1; the last one if none was
	Took         time.Duration // from question to answer, pauses left out; 0 if not measured
	Allowed      time.Duration // what its author allows for an unhurried answer; 0 if not timed
}

// FirstTime is right at the first try, with no hint and nothing critical
// missed. How long it took does not matter.
func (a Answer) FirstTime() bool {
	return a.Right && !a.CriticalMiss && !a.Hinted && a.Try <= 1
}

// slow is longer than the author allows.
func (a Answer) slow() bool { return a.Allowed > 0 && a.Took > a.Allowed }

// atSpeed is first time and in half of what the author allows. A question that
// is not timed, or whose time was not measured, is never answered at speed.
func (a Answer) atSpeed() bool {
	return a.FirstTime() && a.Took > 0 && a.Took <= a.Allowed/2
}

// EasyAfter is how many answers at speed, each on another day, it takes for the
// last to be graded easy. Easy nearly doubles what an interval gains, so it has
// to rest on more than a lucky guess: among four choices one guess in four is
// right, and three in a row are one in 64. Repeats within a day show only that
// the answer was just read. The number is our own choice.
const EasyAfter = 3

// grade turns marks into a grade. This mapping is ours; FSRS leaves it to the
// learner, who in a quiz need not be asked.
//
//	wrong, a critical miss, or right only at the third try or later   again
//	right, but at the second try, hinted or slow                      hard
//	right                                                             good
//	right at speed, as on the two days of answers before              easy
//
// After two wrong tries the answer is found by leaving out, not by knowing it.
// Quick is how many days in a row were answered at speed, with this one.
func grade(a Answer, quick int) Grade {
	switch {
	case !a.Right, a.CriticalMiss, a.Try > 2:
		return Again
	case a.Try == 2, a.Hinted, a.slow():
		return Hard
	case quick >= EasyAfter:
		return Easy
	}
	return Good
}
