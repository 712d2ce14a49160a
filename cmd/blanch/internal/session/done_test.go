package session

import (
	"testing"

	"blanch/sim"
)

// TestAnOfferSaysWhenItWasLastDone: one that names nothing at any time, one
// done to a line only while that line runs, and others never.
func TestAnOfferSaysWhenItWasLastDone(t *testing.T) {
	s := ward(t, 0)
	done := func(name string) string {
		for _, o := range s.Offers("", 0) {
			if o.Name == name {
				return o.Done
			}
		}
		t.Fatalf("no offer %q", name)
		return ""
	}
	if got := done("read-order"); got != "" {
		t.Errorf("before it was done the order says %q", got)
	}
	say(s, 0, "read the order", "feel around right-dorsal-hand", "mix 4 mg of norepinephrine in 250 mL, adding to the bag",
		"label bag-1", "hang bag-1 on pump-1", "prime pump-1", "set pump-1 to 12 mL/h", "connect pump-1 to right-dorsal-hand primed to the tip")
	if got, want := done("read-order"), "done "+s.doneAt(t, "read-order"); got != want {
		t.Errorf("the order says %q, want %q", got, want)
	}
	if got := done("feel"); got != "" {
		t.Errorf("nothing runs, and feeling says %q", got)
	}
	say(s, 0, "start pump-1")
	if got, want := done("feel"), "done "+s.doneAt(t, "feel"); got != want {
		t.Errorf("on the line that runs feeling says %q, want %q", got, want)
	}
	say(s, 0, "wait 10 min", "feel around right-dorsal-hand")
	if got, want := done("feel"), "done "+s.doneAt(t, "feel"); got != want {
		t.Errorf("felt again it says %q, want %q", got, want)
	}
	if got := done("label"); got != "" {
		t.Errorf("one that names a bag says %q", got)
	}
}

// doneAt is when an act was last completed, as the journal has it.
func (s *Session) doneAt(t *testing.T, act string) string {
	t.Helper()
	at := ""
	for _, en := range s.entries {
		if en.Act == act && en.Kind == sim.Done {
			at = en.At.Clock()
		}
	}
	if at == "" {
		t.Fatalf("%s was not done", act)
	}
	return at
}
