package quiz

import (
	"testing"

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
		has(t, said, "Not right.", "Set up: not right.")
		if critical {
			has(t, said, "in a critical question only the right number counts")
			hasNot(t, said, "going on from your own number. A slip")
		} else {
			has(t, said, "Set the device: right, going on from your own number. A slip counts once.")
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
	has(t, said, "Compute: right.", "  6. set the pump: 26.25 mL/h, rounded half up to 0.1: 26.3 mL/h\n     You left the path here: all before was right, and then you set 1575 mL/h, 60 times as much.")
	hasNot(t, said, "multiplied by 60 twice")
}

func TestRightNumberFromAWrongWayIsMissed(t *testing.T) {
	s := at70(t, Options{}, true)
	say(t, s, "0.1 x 70 / 16")
	say(t, s, "")
	has(t, say(t, s, "26.3 mL/h"), "Not right.", "the right one, and what came before does not lead to it")
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
