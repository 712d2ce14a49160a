// Package session plays one attempt at one case: engine, clock and recording
// behind plain strings. It knows no screen, file or clock of the wall; the
// face that shows it pushes lines and real time, and prints what comes back:
//
//	s, err := session.New(attempt, recorder, speed)
//	show(s.Briefing())
//	for !s.Over() {
//		show(s.Handle(line))            // an action, or a word such as "wait 10 min"
//		for s.Running() {
//			show(s.Pass(sinceLastTime)) // simulated time runs with real time
//		}
//	}
//	s.Reflect(0, answer)
//	show(s.Finish())                        // the sheet; Journal is the hour as it was
//
// Simulated time stands unless an action, a wait or a run moves it. All that
// goes into the attempt goes to the [Recorder] first, and [Resume] and
// [Replay] make the same attempt out of it again. What is true but was not
// seen (a hidden entry) is never shown before the attempt is over.
//
// A Session is for one goroutine at a time.
package session
