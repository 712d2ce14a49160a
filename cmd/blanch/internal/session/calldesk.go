package session

import (
	"blanch/sim"
)

// CallDesk is who can be spoken to, and what can be said and asked.
type CallDesk struct {
	People   []Contact
	Facts    []Fact
	Requests []string
}

// Contact is someone with where they are.
type Contact struct{ ID, About string }

// Fact is one thing that a call can say.
type Fact struct{ Name, Says string }

// factSays words the facts that calls are built from.
var factSays = map[string]string{
	"who": "who the patient is, and who you are", "reason": "what the matter is", "pressure": "the pressure and its course",
	"drug": "which drug runs", "dose": "at what dose", "line": "through which line",
	"time-running": "for how long it has run", "site": "what the site looks and feels like", "done-so-far": "what has been done",
	"lines-tried": "which lines were tried", "plan": "what you mean to do next",
}

// CallDesk copies who is there.
func (s *Session) CallDesk() CallDesk {
	var d CallDesk
	for _, p := range s.e.View().People {
		d.People = append(d.People, Contact{p.ID, person(p)})
	}
	for _, f := range sim.FactNames() {
		d.Facts = append(d.Facts, Fact{f, factSays[f]})
	}
	d.Requests = sim.RequestNames()
	return d
}
