package session

import "blanch/sim"

// Entries is how many there are so far, to ask later what is new.
func (s *Session) Entries() int { return len(s.entries) }

// News is what there is to know since there were that many entries: what came
// of the learner's own acts, and what came beside them. Readings, which the
// trend shows, and acts that only began are left out.
func (s *Session) News(from int) (own, came []Line) {
	for i := min(from, len(s.entries)); i < len(s.entries); i++ {
		en := s.entries[i]
		switch {
		case en.Kind == sim.Hidden, en.Kind == sim.Started, en.Kind == sim.Reading && en.Act == "", saidAlready(s.entries[:i], en):
		case ofOwnAct(en):
			own = append(own, happened(en))
		default:
			came = append(came, happened(en))
		}
	}
	return own, came
}

// ofOwnAct says that an entry is what came of something the learner did.
func ofOwnAct(en sim.Entry) bool {
	if en.Who != "" {
		return false
	}
	switch en.Kind {
	case sim.Done, sim.Found, sim.Refused, sim.LeftOff, sim.NotDone, sim.Answered, sim.Asked, sim.Replied, sim.Reading:
		return true
	}
	return false
}
