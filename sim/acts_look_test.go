package sim

import (
	"testing"

	"blanch/sim/vein"
)

// A leak around a deep vein is felt, by itself and against the other arm, while
// eyes and tape find nothing yet.
func TestADeepLeakIsFeltBeforeItIsSeen(t *testing.T) {
	c := handedOver()
	c.Veins[0].DepthMM = 16
	c.InPlace[0].Cannula.LengthMM, c.InPlace[0].AngleDeg = 63.5, 45
	c.Leak = Fate{Kind: Placed, Begins: Minute, Over: Minute, Fraction: 0.9}
	got := map[string]string{}
	for _, en := range play(t, newEngine(t, c, 1), `
0:30:00 glance at left-cephalic-forearm
0:31:00 uncover left-cephalic-forearm
0:32:00 feel around left-cephalic-forearm
0:33:00 compare left-cephalic-forearm with the other arm
0:34:00 ask how left-cephalic-forearm feels`) {
		if en.Kind == Found {
			got[en.What] = en.Word
		}
	}
	for what, want := range map[string]string{
		"at a glance": "nothing to see", "colour": "like the skin around", "swelling": "none",
		"tension": "tight", "compared": "tenser than the other arm", "pain": "it is sore and tight",
	} {
		if got[what] != want {
			t.Errorf("%s: %q, want %q", what, got[what], want)
		}
	}
}

// A hot pack burns the skin that is short of blood, and only there is a burn
// seen: not under the pack on the other arm.
func TestABurnIsSeenWhereItIs(t *testing.T) {
	c := handedOver()
	c.Leak = Fate{Kind: Placed, Begins: Minute, Over: Minute, Fraction: 0.9}
	c.InPlace = append(c.InPlace, InPlace{Vein: "right-hand", Cannula: vein.Cannula{Gauge: 22, LengthMM: 25.4}, AngleDeg: 30})
	burned := map[string]bool{}
	for _, en := range play(t, newEngine(t, c, 1), `
0:30:00 warm the left arm with a hot pack
0:31:00 warm the right arm with a hot pack
1:10:00 uncover right-hand
1:11:00 uncover left-cephalic-forearm`) {
		if en.Kind == Found && en.What == "skin" {
			burned[en.Subject] = true
		}
	}
	if !burned["left-cephalic-forearm"] || burned["right-hand"] {
		t.Errorf("burns are seen at %v, want at left-cephalic-forearm alone", burned)
	}
}
