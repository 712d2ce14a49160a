package quiz

import (
	"testing"

	"blanch/cmd/blanch/internal/review"
	"blanch/sim/quantity"
)

func TestThreeStages(t *testing.T) {
	s := at70(t, Options{}, true)
	has(t, text(s.Ask()), "Set it up")
	say(t, s, "0.1 x 70 x 60 / 16")
	has(t, text(s.Ask()), "not yet rounded")
	say(t, s, "26.25 mL/h")
	has(t, text(s.Ask()), "set on the pump")
	has(t, say(t, s, "26.3 mL/h"), "Right.")
	if !card(t, s).Passed {
		t.Error("not passed")
	}
}

// A slip is carried forward: it counts once. In a critical question nothing is.
// The weight of another patient is taken, 83 kg for 70 kg.
func TestErrorIsCarriedForwardButNotWhenCritical(t *testing.T) {
	for _, critical := range []bool{false, true} {
		s := at70(t, Options{}, critical)
		say(t, s, "0.1 x 83 x 60 / 16")
		say(t, s, "31.125 mL/h")
		said := say(t, s, "31.1 mL/h")
		has(t, said, "Not right.", "Set up: 0.1 x 83 x 60 / 16 comes to about 31.13 mL/h: not right.", "Set the pump: 31.1 mL/h follows from the number before it, and is wrong with it.")
		if critical {
			has(t, said, "In a critical question only the right number counts")
			hasNot(t, said, "A slip counts once")
		} else {
			has(t, said, "A slip counts once")
		}
		if card(t, s).Passed {
			t.Error("passed with a wrong number")
		}
	}
}

// Whoever computes it right and then sets another number slipped at the device,
// whichever way would lead there.
func TestSlipAtTheDevice(t *testing.T) {
	s := at70(t, Options{}, true)
	say(t, s, "0.1 x 70 x 60 / 16")
	say(t, s, "26.25 mL/h")
	said := say(t, s, "1575 mL/h")
	has(t, said, "Compute: 26.25 mL/h: right.", "Set the pump: 1575 mL/h: not right. The number before it was right: 26.25 mL/h.", "  6. set the pump: 26.25 mL/h, rounded half up to 0.1: 26.3 mL/h\n     You left the path here: all before was right, and then you set 1575 mL/h, 60 times as much.")
	hasNot(t, said, "multiplied by 60 twice")
}

// The headline follows the number that is set, whatever went before it.
func TestTheNumberThatIsSetDecides(t *testing.T) {
	for _, before := range [][2]string{{"0.1 x 70 / 16", ""}, {"0.1 x 70 / 16", "26.25 mL/h"}, {"0.1 x 70 x 60 / 16", "2.6 mL/h"}, {"", "2.6 mL/h"}} {
		s := at70(t, Options{}, true)
		say(t, s, before[0])
		say(t, s, before[1])
		said := say(t, s, "26.3 mL/h")
		has(t, said, "Right.\n", "26.3 mL/h", "does not count as right first time", "Step by step")
		hasNot(t, said, "Not right.", "harm", "26.3 mL/h: not right", "26.25 mL/h: not right", "is set as")
		if c := card(t, s); c.Passed || c.Grade != review.Hard {
			t.Errorf("%q: %+v", before, c)
		}
	}
	for _, set := range []string{"2.6 mL/h", "105 mL/h"} {
		s := at70(t, Options{}, true)
		say(t, s, "0.1 x 70 x 60 / 16")
		say(t, s, "2.6 mL/h")
		said := say(t, s, set)
		has(t, said, "Not right. This question is critical", "Compute: 2.6 mL/h: not right. Your set-up was right: 26.25 mL/h.")
		hasNot(t, said, "is set as", "Right.")
	}
}

// What was set up is diagnosed first; the number that is set is not explained by
// another slip that happens to lead near it.
func TestSetUpIsDiagnosedFirst(t *testing.T) {
	s := at70(t, Options{}, true)
	say(t, s, "0.1 / 70")
	say(t, s, "10 mL/h")
	said := say(t, s, "10 mL/h")
	has(t, said, "Set up: 0.1 / 70 comes to about 0.001429 mL/h: not right.", "Compare your own steps")
	hasNot(t, said, "You have read")

	s = at70(t, Options{}, true)
	say(t, s, "0.1 x 70 / 16")
	say(t, s, "10 mL/h")
	has(t, say(t, s, "10 mL/h"), "you have left out the 60 min in 1 h", "420 mcg/h\n     Your set-up left the path here.")
}

// What was typed stands in the stages that follow.
func TestEarlierStagesAreShown(t *testing.T) {
	s := at70(t, Options{}, true)
	say(t, s, "0.1 x 70 x 60 / 16")
	has(t, text(s.Ask()), "Your set-up: 0.1 x 70 x 60 / 16")
	say(t, s, "26.25 mL/h")
	has(t, text(s.Ask()), "Your set-up: 0.1 x 70 x 60 / 16", "You computed: 26.25 mL/h")
}

// A warning of harm is kept for what can harm.
func TestNearMissIsNoHarm(t *testing.T) {
	for answer, want := range map[string]string{
		"26 mL/h": "Close: not rounded as asked.", "26.2 mL/h": "Close: not rounded as asked.", "26.4 mL/h": "Close: look where you rounded.",
		"1575 mL/h": harms, "30 mL/h": harms, "2.6 mL/h": harms,
	} {
		s := at70(t, Options{}, true)
		said := say(t, s, answer)
		has(t, said, "Not right. "+want)
		if want != harms {
			hasNot(t, said, "harm")
		}
		if c := card(t, s); c.Passed || c.Grade != review.Again {
			t.Errorf("%s: %+v", answer, c)
		}
	}
}

// Each stage has its own notes, and none drops another.
func TestNotesOnNotationOfEachStage(t *testing.T) {
	s := at70(t, Options{}, true)
	say(t, s, "")
	say(t, s, "26.30 mL/h")
	said := say(t, s, "26.3ml/h")
	has(t, said, "what you computed was taken as 26.3 mL/h", "a trailing zero", "what you set was taken as 26.3 mL/h", "a number run into its unit")
}

// Whoever types the answer where the sum is to be set up has answered.
func TestAnswerInPlaceOfSettingUp(t *testing.T) {
	s := at70(t, Options{}, true)
	has(t, say(t, s, "26.3 mL/h"), "Right.")
	s = at70(t, Options{}, true)
	has(t, say(t, s, "dose x weight"), "numbers only")
	if s.Answered() != 0 {
		t.Error("it was marked")
	}
}

// A factor that harms is named; any other distance is not.
func TestTimes(t *testing.T) {
	key := quantity.Of(26.25, "mL/h")
	for set, want := range map[float64]string{1575: ", 60 times as much", 263: ", 10 times as much", 0.4375: ", a sixtieth of it", 26.2: "", 52.5: "", 30: ""} {
		if got := times(quantity.Of(set, "mL/h"), key); got != want {
			t.Errorf("%g: got %q, want %q", set, got, want)
		}
	}
}
