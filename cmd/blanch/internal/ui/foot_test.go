package ui

import (
	"strings"
	"testing"
)

// TestWhatWasSaidIsFirstOnesOwn and whole where it fits; what finds no room is
// counted, with the key that shows it, and that key leads to it.
func TestWhatWasSaidIsFirstOnesOwn(t *testing.T) {
	d := sit(t, 80, 24)
	d.press("Down", "Enter", "End", "Enter")
	const own = "Fluid around the vein at right-dorsal-hand: a dark rim of fluid."
	came := []string{"Meanwhile: The patient says: \"I am cold.\"", strings.Repeat("The right groin bleeds at the cannula. ", 3), "Bed 4 rings."}
	for rows := 1; rows <= 4; rows++ {
		d.u.flash, d.u.came = own, came
		said := d.u.message(74, rows)
		all := strings.Join(said, "\n")
		if len(said) > rows {
			t.Errorf("%d rows where there are %d:\n%s", len(said), rows, all)
		}
		if rows > 1 && !strings.HasPrefix(said[0], own) {
			t.Errorf("%d rows: one's own finding is not first and whole:\n%s", rows, all)
		}
		if whole := strings.Contains(all, "Bed 4 rings."); whole == d.u.missed || !whole && !strings.Contains(all, "more: p") {
			t.Errorf("%d rows: missed is %t:\n%s", rows, d.u.missed, all)
		}
		for _, row := range said {
			if width(row) > 74 {
				t.Errorf("a row of %d columns: %q", width(row), row)
			}
		}
	}
	d.u.flash, d.u.came = own, came
	d.draw()
	d.want(own, "I am cold", "more: p").press("p").want(">All so far")
}

// TestAHelpersFindingIsTold while one's own hands are busy: in the message and
// in the list beside the steps.
func TestAHelpersFindingIsTold(t *testing.T) {
	d := sit(t, 80, 24)
	d.press("Down", "Enter", "End", "Enter")
	d.say("send for second-nurse", "wait 10 min")
	d.say("ask second-nurse to fetch the extravasation kit")
	for !strings.Contains(d.text(), "Extravasation kit") {
		if d.clock() > "0:20" {
			t.Fatalf("the kit was never told:\n%s", d.text())
		}
		d.say("feel around right-dorsal-hand")
	}
	d.want("-- Swelling at right-dorsal-hand")
	if said := strings.Join(append(d.u.came, d.u.flash), " "); !strings.Contains(said, "Extravasation kit") {
		t.Errorf("the foot says %q", said)
	}
	d.press("p").want("Extravasation kit: ")
}

// TestHelpSaysWhatQDoesHere: at home it leaves, in a case it opens the pause;
// and that the clock stands is said once.
func TestHelpSaysWhatQDoesHere(t *testing.T) {
	d := sit(t, 100, 50)
	d.press("?").want("q            leave")
	if strings.Contains(d.text(), "pause, and from there") {
		t.Errorf("at home q is said to open the pause:\n%s", d.text())
	}
	d.press("Esc", "Down", "Enter", "End", "Enter")
	for _, open := range []string{"", "p", "b"} {
		d.press("Esc", "Esc", "Esc").u.bedside()
		if open != "" {
			d.press(open)
		}
		d.press("?").want("pause, and from there leave")
		if n := strings.Count(strings.Join(strings.Fields(d.text()), " "), "The clock stands"); n != 1 {
			t.Errorf("%q: said %d times\n%s", open, n, d.text())
		}
	}
}

// TestTheWaitBox takes a time as it is written, and says what it cannot read.
func TestTheWaitBox(t *testing.T) {
	d := sit(t, 80, 24)
	d.press("Down", "Enter", "End", "Enter", "w", "-5", "Enter").want("\"-5\" is not a time to wait: write a span such as 10 min, or a time of the", "such as until 0:45")
	d.press("Esc", "w", "to 0:04", "Enter").settle()
	if got := d.clock(); got != "0:04:00" {
		t.Errorf("waited to %s", got)
	}
	d.say("choose left-cephalic-forearm with 20 gauge 47.8 mm at 30 degrees")
	d.press("/", "insert the cannula by feel", "Enter").want("How long: 3 min, holds your hands.")
}

// TestAShortNewsIsNotHiddenByALongOne in the list beside the steps.
func TestAShortNewsIsNotHiddenByALongOne(t *testing.T) {
	d := sit(t, 80, 24)
	d.press("Down", "Enter", "End", "Enter")
	d.u.from = d.u.s().Entries()
	s := d.u.s()
	for _, said := range []string{"judge right-dorsal-hand sound", "write in the notes: " + strings.Repeat("The line was looked at and felt. ", 14), "judge right-dorsal-hand unsure"} {
		s.Handle(said)
		for s.Running() {
			s.Pass(beat)
		}
	}
	d.draw()
	d.want("sound.\n", "unsure.\n", "and 1 more: p")
}
