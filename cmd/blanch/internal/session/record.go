package session

import (
	"fmt"
	"strconv"
	"strings"
)

// Recorder keeps what goes into an attempt. Times are milliseconds of
// simulated time and never go back. When a method returns without an error
// the line has been kept.
type Recorder interface {
	Do(at int64, said string) error
	Reached(at int64) error
	Draft(text string) error
	Ended(at int64, journal, sheet string) error
}

// Record is what a recording holds, as [Replay] and [Resume] read it.
type Record struct {
	Revision int
	Seed     uint64
	Source   Source
	Said     []Said
	Reached  int64 // the attempt was shown up to here, in milliseconds
	Draft    string
	Ended    *Stored // nil while the attempt is unfinished
}

// Said is one line of input: the canonical sentence of an action, the words
// that stop the attempt, or an answer to a question for reflection.
type Said struct {
	At   int64
	Text string
}

// Stored is what a finished attempt came to when it was played.
type Stored struct {
	At             int64
	Journal, Sheet string
}

// stopSaid ends an attempt before its case does.
const stopSaid = "stop here"

// reflectSaid is how an answer to the n-th question, from 0, is kept.
func reflectSaid(n int, answer string) string { return fmt.Sprintf("reflect %d: %s", n+1, answer) }

// reflection reads what reflectSaid wrote.
func reflection(said string) (n int, answer string, ok bool) {
	rest, found := strings.CutPrefix(said, "reflect ")
	if !found {
		return 0, "", false
	}
	number, answer, found := strings.Cut(rest, ": ")
	n, err := strconv.Atoi(number)
	return n - 1, answer, found && err == nil && n > 0
}

// forgetful keeps nothing.
type forgetful struct{}

func (forgetful) Do(int64, string) error            { return nil }
func (forgetful) Reached(int64) error               { return nil }
func (forgetful) Draft(string) error                { return nil }
func (forgetful) Ended(int64, string, string) error { return nil }
