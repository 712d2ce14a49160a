package session

import (
	"slices"

	"blanch/sim"
)

// Recent are the last entries that may be seen, without the readings that the
// trend shows, and each act told once: by what it found or brought, else by its
// end, else by its beginning.
func (s *Session) Recent(n int) []Line {
	var out []Line
	for i := len(s.entries) - 1; i >= 0 && len(out) < n; i-- {
		en := s.entries[i]
		switch {
		case en.Kind == sim.Hidden, en.Kind == sim.Reading && en.Act == "", saidAlready(s.entries[:i], en):
		case en.Kind == sim.Started && s.endedSince(i):
		default:
			out = append(out, happened(en))
		}
	}
	slices.Reverse(out)
	return out
}

// toldLater says that what came of an act which began with that entry tells
// of it: its end, or its findings at once.
func (s *Session) toldLater(i int) bool {
	began := s.entries[i]
	for j, en := range s.entries[i+1:] {
		if en.Kind == sim.Done && en.Said == began.Said {
			return !saidAlready(s.entries[:i+1+j], en) || en.At == began.At
		}
	}
	return false
}

// endedSince says that an act that began with that entry has ended without a
// finding, so that its end tells all.
func (s *Session) endedSince(i int) bool {
	began := s.entries[i]
	for j, en := range s.entries[i+1:] {
		if en.Kind == sim.Done && en.Said == began.Said {
			return !saidAlready(s.entries[:i+1+j], en)
		}
	}
	return false
}
