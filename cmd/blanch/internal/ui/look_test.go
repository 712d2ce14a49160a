package ui

import "testing"

// TestAJudgementIsReadBeforeItIsSaid, each verdict says what it means, and the
// list says what was said last.
func TestAJudgementIsReadBeforeItIsSaid(t *testing.T) {
	d := sit(t, 80, 24)
	d.press("Down", "Enter", "End", "Enter", "o", "End", "Up")
	d.want("say: leaking   fluid runs beside the vein", "say: out       the cannula has come out", "say: unsure    you cannot tell yet")
	n := len(d.kept.said)
	d.press("Enter").want("judge right-dorsal-hand out", "What it does: out means that the cannula has come out.", "Enter does it")
	if len(d.kept.said) != n {
		t.Fatalf("it was said before it was read: %v", d.kept.said)
	}
	d.press("Enter").want("say: out       the cannula has come out; said at 0:00", "You judged right-dorsal-hand: out.")
	d.press("Esc", "/", "judge", "Enter").want("sound             nothing is wrong with the line")
}

// TestARequestSaysWhatItAsksFor
func TestARequestSaysWhatItAsksFor(t *testing.T) {
	d := sit(t, 80, 24)
	d.press("Down", "Enter", "End", "Enter", "c", "Down", "Down", "Enter", " ", "Enter")
	d.want("central-access    that somebody places a central line", "advice            what to do next")
}
