package session

import (
	"errors"
	"fmt"
	"strings"

	"blanch/scoring"
	"blanch/sim"
)

// OtherRevisionError is an unfinished attempt that this engine cannot go on
// with.
type OtherRevisionError struct{ Revision int }

func (e *OtherRevisionError) Error() string {
	return fmt.Sprintf("the attempt was begun with engine revision %d and this is revision %d: begin it again with the same seed", e.Revision, sim.Revision)
}

// Resume makes an unfinished attempt again from its recording, with the clock
// held where it was last shown. The record's draft is the caller's to offer
// again; what follows is kept after Record.
func Resume(r Record, speed float64) (*Session, error) {
	if r.Ended != nil {
		return nil, errors.New("the attempt has ended; replay shows it")
	}
	if r.Revision != sim.Revision {
		return nil, &OtherRevisionError{r.Revision}
	}
	a, err := Load(r.Source, r.Seed)
	if err != nil {
		return nil, err
	}
	s, err := New(a, speed)
	if err != nil {
		return nil, err
	}
	if err := s.repeat(r); err != nil {
		return nil, err
	}
	s.draft = r.Draft
	s.marked = s.e.Now()
	return s, nil
}

// Read makes a finished attempt again to read its debrief. Nothing can be done
// in it.
func Read(r Record) (*Session, error) {
	if r.Ended == nil {
		return nil, errors.New("the attempt has not ended; resume goes on with it")
	}
	if r.Revision != sim.Revision {
		return nil, fmt.Errorf("it was played with engine revision %d and this is revision %d: blanch replay shows its marks as they were stored", r.Revision, sim.Revision)
	}
	a, err := Load(r.Source, r.Seed)
	if err != nil {
		return nil, err
	}
	s, err := New(a, 0)
	if err != nil {
		return nil, err
	}
	if err := s.repeat(r); err != nil {
		return nil, err
	}
	s.show(s.e.Advance(sim.Time(r.Ended.At)))
	s.sheet = r.Ended.Sheet
	return s, nil
}

// repeat puts in again what went in.
func (s *Session) repeat(r Record) error {
	for _, said := range r.Said {
		at := sim.Time(said.At)
		s.show(s.e.Advance(at))
		if n, answer, ok := reflection(said.Text); ok {
			s.Reflect(n, answer)
			continue
		}
		if said.Text == stopSaid {
			s.stopped = true
			continue
		}
		a, err := sim.ParseAction(said.Text)
		if err != nil {
			return fmt.Errorf("at %s: %w", at.Exact(), err)
		}
		s.show(s.e.Do(a))
	}
	s.show(s.e.Advance(sim.Time(r.Reached)))
	return nil
}

// Last returns the last n entries that may be seen, to find one's way back.
func (s *Session) Last(n int) []Line {
	lines := s.sofar("")
	return lines[max(0, len(lines)-n):]
}

// Replayed is a recording as it came out again.
type Replayed struct {
	Journal, Sheet string
	Over           bool   // the attempt was finished
	Stored         bool   // the texts are those stored with it: another engine revision made it
	Revision       int    // of the engine that made the texts
	Differs        string // where the replay differs from what was stored, empty when nowhere
}

// Replay plays a recording again. A finished attempt must come to the same
// journal and sheet, byte for byte. One of another revision is given as it
// was stored.
func Replay(r Record) (Replayed, error) {
	out := Replayed{Over: r.Ended != nil, Revision: r.Revision}
	if r.Revision != sim.Revision {
		if r.Ended == nil {
			return out, &OtherRevisionError{r.Revision}
		}
		out.Journal, out.Sheet, out.Stored = r.Ended.Journal, r.Ended.Sheet, true
		return out, nil
	}
	a, err := Load(r.Source, r.Seed)
	if err != nil {
		return out, err
	}
	s, err := New(a, 0)
	if err != nil {
		return out, err
	}
	if err := s.repeat(r); err != nil {
		return out, err
	}
	if r.Ended == nil {
		for _, l := range s.sofar("") {
			out.Journal += fmt.Sprintf("%-7s  %s\n", l.At, l.Text)
		}
		return out, nil
	}
	out.Journal, out.Sheet = s.Journal(), s.marks()
	out.Differs = differs("journal", out.Journal, r.Ended.Journal) + differs("sheet", out.Sheet, r.Ended.Sheet)
	return out, nil
}

// differs says in which line two texts first differ.
func differs(name, now, stored string) string {
	if now == stored {
		return ""
	}
	a, b := strings.Split(now, "\n"), strings.Split(stored, "\n")
	for i := 0; ; i++ {
		switch {
		case i >= len(a):
			return fmt.Sprintf("%s line %d: stored %q, now nothing\n", name, i+1, b[i])
		case i >= len(b):
			return fmt.Sprintf("%s line %d: stored nothing, now %q\n", name, i+1, a[i])
		case a[i] != b[i]:
			return fmt.Sprintf("%s line %d: stored %q, now %q\n", name, i+1, b[i], a[i])
		}
	}
}

// Inputs are what the learner of a run said, each at its time: what a
// recording of it holds.
func Inputs(r *sim.Result) []Said {
	var said []Said
	for _, s := range scoring.Inputs(r) {
		said = append(said, Said{int64(s.At), s.Text})
	}
	return said
}
