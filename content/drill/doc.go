// Package drill is questions of arithmetic with new numbers each time, over
// the whole job: the line, the mix, the rate, the watch, a leak, the way to
// another line.
//
// A [Drill] is one kind of question. [Drill.Draw] makes one [Question] of it
// from a seed:
//
//	d, _ := drill.Named("rate-by-weight")
//	q := d.Draw(7)
//	q.Stem                 // what the learner reads, a question at the end
//	q.Shown                // what a bag, a pump, a vial or a line would show
//	q.Sum.Mark("13.1 mL/h") // right, or which slip leads there
//
// # Numbers
//
// Every number lies where bags, vials, pumps and people have it, and each drill
// names its sources. Patients are invented. Numbers that hide a slip are not
// drawn: a number at which two slips meet, or a slip and the answer, or that
// lies on a half when it is rounded, is drawn again. What cannot be avoided, or
// does no harm, is in [Question.Either].
//
// A question is a function of the drill's name and the seed, to the byte. The
// numbers of a drill are dealt into as many hands as [Drill.Apart] says, and a
// seed draws from the hand of its turn; so that successive seeds never have the
// same numbers. The hands are few, and each a sample of all numbers, so that
// what is drawn first varies as much as what comes later.
//
// These questions teach arithmetic. They are no protocol, and the limits they
// quote are those of invented policies; what a learner's own unit says wins.
package drill
