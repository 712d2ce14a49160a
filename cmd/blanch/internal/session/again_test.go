package session

import (
	"slices"
	"testing"
)

// TestTheLastLookIsOfferedAgain: the acts of the last visit only, in their
// order, each once, and nothing that was done to the flow.
func TestTheLastLookIsOfferedAgain(t *testing.T) {
	const line = "right-dorsal-hand"
	s := ward(t, 0)
	if g := s.LookAgain(line); len(g.Acts) != 0 || g.Why == "" {
		t.Errorf("before any look it offers %+v", g)
	}
	say(s, 0, "compare "+line+" with the other arm", "wait 10 min")
	say(s, 0, "feel around "+line, "ask how "+line+" feels", "flush "+line+" with 10 mL", "feel around "+line)
	before := s.Board().Clock
	g := s.LookAgain(line)
	var said []string
	for _, a := range g.Acts {
		said = append(said, a.Said)
	}
	if want := []string{"feel around " + line, "ask how " + line + " feels"}; !slices.Equal(said, want) || g.Why != "" {
		t.Errorf("it offers %q (%s), want %q", said, g.Why, want)
	}
	if g.Takes != "35 s" { // 20 s to feel and 15 s to ask
		t.Errorf("together they take %q", g.Takes)
	}
	if s.Board().Clock != before {
		t.Error("offering it takes time")
	}
}
