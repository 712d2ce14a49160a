// Package session plays one attempt at one case: engine, clock and recording
// behind plain strings. It knows no screen and no clock of the wall. Of files it
// reads those that an attempt begins from ([Find], [PolicyNamed]) and writes
// none: what is to be kept goes to a [Recorder]. The face that shows an attempt
// pushes lines and real time, and prints what comes back, as the example does.
//
// Simulated time stands unless an action, a wait or a run moves it. All that
// goes into the attempt goes to the recorder first, and [Resume] and
// [Replay] make the same attempt out of it again. What is true but was not
// seen (a hidden entry) is never shown before the attempt is over.
//
// A Session is for one goroutine at a time.
package session
