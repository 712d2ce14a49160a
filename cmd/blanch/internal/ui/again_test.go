package ui

import "testing"

// TestALookIsDoneAgain: one Enter for the list, each act in its own time and
// kept as if it had been said.
func TestALookIsDoneAgain(t *testing.T) {
	const line = "right-dorsal-hand"
	d := sit(t, 80, 24)
	d.press("Down", "Enter", "End", "Enter", "r").want("Not possible now: ")
	d.start().say("uncover "+line, "feel around "+line, "wait 5 min").press("o")
	n := len(d.kept.said)
	d.press("r").want("uncover "+line+" (15 s)", "feel around "+line+" (20 s)", "in 35 s")
	if d.beat(20); len(d.kept.said) != n {
		t.Fatalf("done before it was agreed to: %v", d.kept.said[n:])
	}
	d.press("Enter").finish()
	did := d.kept.said[n:]
	if len(did) != 2 || did[0].Text != "uncover "+line || did[1].Text != "feel around "+line {
		t.Fatalf("what was done is %v", did)
	}
	if apart := did[1].At - did[0].At; apart != 15_000 {
		t.Errorf("the second begins %d ms after the first, which takes 15 s", apart)
	}
	if d.press("Esc", "r").want("in 35 s").press("Esc"); len(d.kept.said) != n+2 {
		t.Errorf("Esc does it all the same: %v", d.kept.said[n:])
	}
}

// TestALookAgainEndsWithWhatCannotWait: a call that comes during it, and an
// act of one's own.
func TestALookAgainEndsWithWhatCannotWait(t *testing.T) {
	const line = "right-dorsal-hand"
	d := sit(t, 80, 24)
	d.press("Down", "Enter", "End", "Enter").start().say("uncover "+line, "feel around "+line, "wait until 0:25:50", "wait until 0:25:50")
	n := len(d.kept.said)
	d.press("r", "Enter").finish() // bed-4 rings at 0:26, while it is uncovered
	if did := d.kept.said[n:]; len(did) != 1 {
		t.Errorf("after the call it went on: %v", did)
	}
	d.want("bed-4")
	d.want("The look ends before: feel")

	d = sit(t, 80, 24)
	d.press("Down", "Enter", "End", "Enter").start().say("uncover "+line, "feel around "+line, "wait 5 min")
	n = len(d.kept.said)
	d.press("r", "Enter").u.say("ask how " + line + " feels") // said aloud while the hands uncover
	if did := d.finish().kept.said[n:]; len(did) != 2 {
		t.Errorf("after an act of one's own the list went on: %v", did)
	}
}

// finish lets real time pass until the clock has stood for a while.
func (d *hand) finish() *hand {
	d.t.Helper()
	for range 100 {
		if d.beat(5); !d.u.s().Running() {
			return d
		}
	}
	d.t.Fatal("the clock does not come to a stand")
	return d
}
