package session

import "blanch/sim"

// save remembers the first thing that could not be recorded, or up to when all
// is recorded. The attempt goes on: a full disk must not take the hour away
// from the learner.
func (s *Session) save(err error, to sim.Time) {
	switch {
	case s.unsaved != nil:
	case err != nil:
		s.unsaved = err
		s.rec = forgetful{}
	default:
		s.saved = to
	}
}

// trouble tells once that nothing more is saved.
func (s *Session) trouble() []Line {
	if s.unsaved == nil || s.told {
		return nil
	}
	s.told = true
	return []Line{fault("this attempt is no longer being saved: %s", s.unsaved)}
}

// Unsaved is why something of the attempt could not be recorded, and nothing
// after it was; nil while all is on the disk.
func (s *Session) Unsaved() error { return s.unsaved }

// NotSaved says from when on the attempt is not on the disk, and why; empty
// while all of it is.
func (s *Session) NotSaved() string {
	if s.unsaved == nil {
		return ""
	}
	return "NOT saved from " + s.saved.Exact() + " on: " + s.unsaved.Error()
}

// NotSavedShort is the same where there is little room.
func (s *Session) NotSavedShort() string {
	if s.unsaved == nil {
		return ""
	}
	return "NOT saved from " + s.saved.Exact() + " on"
}
