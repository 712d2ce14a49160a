package store

import (
	"errors"
	"fmt"
)

// Line is one line after the head: exactly one of its fields is set.
type Line struct {
	Do      *Do      `json:"do,omitempty"`
	Reached *Reached `json:"reached,omitempty"`
	Draft   *Draft   `json:"draft,omitempty"`
	Ended   *Ended   `json:"ended,omitempty"`
}

// Do is an action as it was said. At is in milliseconds of simulated time, as
// in every line.
type Do struct {
	At   int64  `json:"at"`
	Said string `json:"said"`
}

// Reached marks the time to which the attempt was shown.
type Reached struct {
	At int64 `json:"at"`
}

// Draft is text being typed that is not yet an action. A later draft or action
// supersedes it.
type Draft struct {
	Text string `json:"text"`
}

// Ended closes the recording and keeps what the attempt came to, for an engine
// of another revision to show.
type Ended struct {
	At      int64  `json:"at"`
	Journal string `json:"journal"`
	Sheet   string `json:"sheet"`
}

// sequence holds what the order of lines permits. Writer and reader share it,
// so that a recording which can be written can be read.
type sequence struct {
	n     int   // lines so far, the head included
	at    int64 // latest time so far
	ended bool
}

// admit takes the next line, or says why it cannot come next.
func (s *sequence) admit(l Line) error {
	var (
		kinds int
		at    = s.at
		err   error
	)
	if l.Do != nil {
		kinds++
		at, err = l.Do.At, validText(l.Do.Said)
		if l.Do.Said == "" {
			err = errors.New("do has nothing said, want the text of an action")
		}
	}
	if l.Reached != nil {
		kinds++
		at = l.Reached.At
	}
	if l.Draft != nil {
		kinds++
		err = validText(l.Draft.Text)
	}
	if l.Ended != nil {
		kinds++
		at, err = l.Ended.At, validText(l.Ended.Journal, l.Ended.Sheet)
	}
	switch {
	case kinds != 1:
		return fmt.Errorf("line is %d things, want one of do, reached, draft, ended", kinds)
	case err != nil:
		return err
	case s.ended:
		return errors.New("line follows the end of the attempt, want none")
	case at < s.at:
		return fmt.Errorf("time %d ms is before %d ms of an earlier line, want no earlier", at, s.at)
	}
	s.n, s.at, s.ended = s.n+1, at, l.Ended != nil
	return nil
}
