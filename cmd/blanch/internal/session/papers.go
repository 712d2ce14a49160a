package session

import (
	"blanch/sim"
)

// Papers are texts that can be read at any time, each with its name.
func (s *Session) Papers() []Paper {
	notes := []Line{told("You have not read them yet: read the notes.")}
	for _, en := range s.entries {
		if en.Kind == sim.Found && en.What == "notes" {
			notes = []Line{told("%s", oneLine(en.Word))}
		}
	}
	return []Paper{
		{"How things stand", s.now("")}, {"Order", s.order("")}, {"Notes", notes},
		{"Policy", s.policy("")}, {"Stock", s.stock("")}, {"All so far", s.sofar("")},
	}
}

// Paper is a text with a name.
type Paper struct {
	Name  string
	Lines []Line
}

// Written is what the learner has written in the notes.
func (s *Session) Written() []Line {
	var out []Line
	for _, en := range s.entries {
		if en.Kind == sim.Started && en.Act == "write" {
			out = append(out, happened(en))
		}
	}
	return out
}
