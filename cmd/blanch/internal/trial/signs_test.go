package trial

import (
	"slices"
	"testing"

	"blanch/scenarios"
	"blanch/sim"
)

// bruised gives every vein of the case findings of the patient's own.
func bruised(c *scenarios.Case, _ *sim.Place) {
	c.Veins = slices.Clone(c.Veins)
	for i := range c.Veins {
		c.Veins[i].AsFound = map[string]string{
			"at a glance": "a blue patch", "colour": "blue and yellow, an old bruise", "warmth": "cool",
			"compared": "the bruise is on this arm; both are equally cool", "pain": "it has been sore since yesterday",
		}
	}
}

// treated are the acts of whoever takes an arm for leaking.
func (h hour) treated() (out []string) {
	for _, act := range []string{"stop", "draw-up", "infiltrate", "nitrate", "tell-harm"} {
		if h.first(act, 0) < sim.Never {
			out = append(out, act)
		}
	}
	if has(h.said(), " leaking") {
		out = append(out, "judge")
	}
	return out
}

// What was there at the first look and does not change is no leak.
func TestTheExpertTellsOldFromNew(t *testing.T) {
	for seed := uint64(1); seed <= 5; seed++ {
		for name, start := range map[string]func(*scenarios.Case, *sim.Place){"taken over": running(180, 15), "started": noLeak} {
			h := opened(t, Expert, seed, start, bruised)
			if got := h.treated(); len(got) > 0 {
				t.Errorf("%s, seed %d: a bruise is treated: %q", name, seed, got)
			}
			if name == "taken over" {
				h.within(0, 15*sim.Minute, "compare right-cephalic-forearm with the other arm", "judge right-cephalic-forearm sound")
			}
		}
	}
}

// What is old does not hide a leak that comes.
func TestTheExpertFindsALeakInABruisedArm(t *testing.T) {
	for name, probe := range map[string]bool{"with a probe": true, "without": false} {
		for seed := uint64(1); seed <= 5; seed++ {
			h := opened(t, Expert, seed, running(180, 15), bruised, func(c *scenarios.Case, p *sim.Place) {
				c.Leak = sim.Fate{Kind: sim.Placed, Begins: 60 * sim.Minute, Over: 10 * sim.Minute, Fraction: 0.9}
				p.Ultrasound = probe
			})
			named := sim.Never
			for _, en := range h.Journal {
				if en.Kind == sim.Done && en.Act == "judge" && en.Word == "leaking" {
					named = min(named, en.At)
				}
			}
			if named < 60*sim.Minute || named > 95*sim.Minute {
				t.Errorf("%s, seed %d: named at %s", name, seed, named.Exact())
			}
		}
	}
}

// Where nothing of the sort is the patient's own, a sign at the first look is
// looked into and is a leak.
func TestTheExpertFindsALeakAtTheFirstLook(t *testing.T) {
	for seed := uint64(1); seed <= 3; seed++ {
		h := opened(t, Expert, seed, running(180, 15), func(c *scenarios.Case, p *sim.Place) {
			c.Leak = sim.Fate{Kind: sim.Placed, Begins: sim.Second, Over: sim.Second, Fraction: 0.95}
			p.Ultrasound = seed != 2
		})
		if at := h.first("infiltrate", 0); at > 45*sim.Minute {
			t.Errorf("seed %d: treated at %s", seed, at.Exact())
		}
	}
}

// A hurried novice takes a bruise for a leak at times.
func TestTheHurriedTakeABruiseForALeak(t *testing.T) {
	n := 0
	for seed := uint64(1); seed <= 12; seed++ {
		if len(opened(t, Hurried, seed, running(180, 15), bruised).treated()) > 0 {
			n++
		}
	}
	if n == 0 || n == 12 {
		t.Errorf("%d of 12 treat a bruise", n)
	}
}

func TestWordsOfThePast(t *testing.T) {
	for said, want := range map[string]bool{
		"swollen": false, "swollen since the operation": true, "both arms are equally cool": true, "tight": false, "an old scar": true, "cool": false,
	} {
		if got := ofThePast(said); got != want {
			t.Errorf("%q: %t", said, got)
		}
	}
	for said, want := range map[string]bool{
		"“It aches again,” she says, and looks at her arm.": true, "A door slams in the corridor.": false, "The porter brings a blanket.": false,
	} {
		if got := ofTheArm(said); got != want {
			t.Errorf("%q: %t", said, got)
		}
	}
}
