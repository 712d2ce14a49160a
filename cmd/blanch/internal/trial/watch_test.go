package trial

import (
	"testing"

	"blanch/scenarios"
	"blanch/sim"
	"blanch/sim/quantity"
	"blanch/sim/vein"
)

// deep has the drug run through a vein that lies deep, and leak there.
func deep(c *scenarios.Case, _ *sim.Place) {
	c.Away = nil
	c.InPlace = append(c.InPlace, sim.InPlace{Vein: "left-basilic-arm", Cannula: vein.Cannula{Gauge: 20, LengthMM: 63.5}, AngleDeg: 45})
	c.Running = []sim.Running{{Pump: "pump-1", Drug: "norepinephrine", Amount: quantity.Of(4, "mg"), BagML: 250, LeftML: 180, Line: "left-basilic-arm", MLH: 15}}
	c.Leak = sim.Fate{Kind: sim.Placed, Begins: 60 * sim.Minute, Over: 10 * sim.Minute, Fraction: 0.9}
}

// Over a deep vein hands, the question, the other arm and the probe find what
// eyes do not; what lies beyond is felt, and a surgeon hears of it.
func TestTheExpertOverADeepVein(t *testing.T) {
	for name, probe := range map[string]bool{"with a probe": true, "without": false} {
		for seed := uint64(1); seed <= 4; seed++ {
			h := opened(t, Expert, seed, deep, func(_ *scenarios.Case, p *sim.Place) { p.Ultrasound = probe })
			h.within(0, 10*sim.Minute, "feel around left-basilic-arm", "ask how left-basilic-arm feels", "compare left-basilic-arm with the other arm")
			named := sim.Never
			for _, en := range h.Journal {
				if en.Kind == sim.Done && en.Act == "judge" && en.Word == "leaking" {
					named = min(named, en.At)
				}
			}
			if named < 60*sim.Minute || named > 100*sim.Minute {
				t.Errorf("%s, seed %d: found at %s", name, seed, named.Exact())
				continue
			}
			for _, act := range []string{"beyond", "draw-back"} {
				if at := h.first(act, named); at > named+15*sim.Minute {
					t.Errorf("%s, seed %d: %s at %s, found at %s", name, seed, act, at.Exact(), named.Exact())
				}
			}
			if !has(h.said(), "asking for surgical-opinion") || !has(h.said(), "call surgeon") {
				t.Errorf("%s, seed %d: no surgeon hears of it", name, seed)
			}
			if again := h.first("feel", h.first("infiltrate", 0)+5*sim.Minute); again > h.Ended {
				t.Errorf("%s, seed %d: nobody feels the arm again", name, seed)
			}
		}
	}
	if has(opened(t, Expert, 1).said(), "surgical-opinion") {
		t.Error("a surgeon is called for a leak that lies under the skin")
	}
}
