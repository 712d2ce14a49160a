// Package sim plays one patient, one arm and one circulation in simulated
// time. It is a teaching model of adults and never advice on a real patient.
//
// An [Engine] is a function of case, place, seed and the learner's timed
// actions, and of nothing else: no clock, goroutine, file or global random
// source. The caller pushes time and actions and reads the journal:
//
//	e, err := sim.New(c, place, seed)
//	for _, step := range script {
//		shown := e.Advance(step.At)   // what happened on the way
//		told := e.Do(step.Action)     // started, or refused with the reason
//	}
//	result := e.Result()
//
// Advance may be called in any pieces with the same result to the bit, and
// reading changes nothing. Do never moves time: an action that starts holds
// the learner's hands (or voice, or another person's hands) until its end,
// and takes effect at stated points on the way. What someone else did meanwhile
// can make it impossible; then nothing comes of it, and the journal says why.
//
// Everything an action can be is one row of the table behind [Actions];
// scripts, walk-throughs, rules, completion and help all read that table.
package sim
