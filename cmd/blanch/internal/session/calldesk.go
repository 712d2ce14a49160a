package session

import (
	"blanch/sim"
)

// CallDesk is who can be spoken to, and what can be said and asked.
type CallDesk struct {
	People   []Contact
	Facts    []Fact
	Requests []Fact
}

// Contact is someone with where they are.
type Contact struct{ ID, About string }

// Fact is one thing that a call can say or ask for.
type Fact struct{ Name, Says string }

// factSays words the facts that calls are built from.
var factSays = map[string]string{
	"who": "who the patient is, and who you are", "reason": "what the matter is", "pressure": "the pressure and its course",
	"drug": "which drug runs", "dose": "at what dose", "line": "through which line",
	"time-running": "for how long it has run", "site": "what the site looks and feels like", "done-so-far": "what has been done",
	"lines-tried": "which lines were tried", "plan": "what you mean to do next",
}

// requestSays words what calls ask for.
var requestSays = map[string]string{
	"central-access": "that somebody places a central line", "antidote": "an order for the antidote",
	"review": "that somebody comes and looks", "surgical-opinion": "that a surgeon comes and looks at the arm",
	"advice": "what to do next",
}

// choiceSays is what a choice in a gap means; empty when its name says it.
func choiceSays(kind, choice string) string {
	switch kind {
	case "verdict":
		return verdictSays[choice]
	case "request":
		return requestSays[choice]
	case "facts":
		return factSays[choice]
	}
	return ""
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
	for _, r := range sim.RequestNames() {
		d.Requests = append(d.Requests, Fact{r, requestSays[r]})
	}
	return d
}
