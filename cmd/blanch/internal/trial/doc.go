// Package trial lets simulated learners play a case before a real one sees
// it, and says whether the case can be won, whether it can be won by doing
// the wrong thing, and whether it tells an expert from a hurried novice.
//
// A learner is a [Kind]: a manner of going about the same skills (reading,
// choosing and proving a line, mixing, checking, titrating, watching the arm,
// responding, speaking with others). It sees what a person at the bed sees,
// which is the journal without what is hidden, the papers and the stock; all
// of that passes through one door, in bed.go. Its own luck is keyed by seed,
// kind and purpose:
//
//	s, _ := trial.New(c, place, policy)
//	report, _ := s.Try(100, 1) // 100 runs of each kind, seeds 1 to 100
//
// The same study gives the same report however many cores share the work.
// What the learners do is assumed; they describe the case, never people.
package trial
