package trial

import (
	"testing"

	"blanch/scenarios"
	"blanch/scoring"
	"blanch/sim"
	"blanch/sim/quantity"
	"blanch/sim/vein"
)

// running has norepinephrine run through the forearm when the case opens.
func running(leftML, mlh float64) func(*scenarios.Case, *sim.Place) {
	return func(c *scenarios.Case, _ *sim.Place) {
		c.Leak, c.Away = sim.Fate{Kind: sim.NoLeak}, nil
		c.InPlace = append(c.InPlace, sim.InPlace{Vein: "right-cephalic-forearm", Cannula: vein.Cannula{Gauge: 20, LengthMM: 47.8}, AngleDeg: 30})
		c.Running = []sim.Running{{
			Pump: "pump-2", Drug: "norepinephrine", Amount: quantity.Of(4, "mg"), BagML: 250, LeftML: leftML, Line: "right-cephalic-forearm", MLH: mlh,
		}}
	}
}

// opened plays a kind in the shipped case, changed.
func opened(t *testing.T, kind string, seed uint64, changes ...func(*scenarios.Case, *sim.Place)) hour {
	t.Helper()
	s := varied(t, func(c *scenarios.Case, p *sim.Place) {
		for _, change := range changes {
			change(c, p)
		}
	})
	r, err := s.Show(kind, seed)
	if err != nil {
		t.Fatal(err)
	}
	return hour{r, t}
}

func (h hour) said() (out []string) {
	for _, s := range scoring.Inputs(h.Result) {
		out = append(out, s.Text)
	}
	return out
}

// at is when these words were first said; Never when they were not.
func (h hour) at(text string) sim.Time {
	for _, s := range scoring.Inputs(h.Result) {
		if s.Text == text {
			return s.At
		}
	}
	return sim.Never
}

// within wants things said between two times.
func (h hour) within(from, to sim.Time, texts ...string) {
	h.t.Helper()
	for _, text := range texts {
		if at := h.at(text); at < from || at > to {
			h.t.Errorf("seed %d: %q at %s, want it between %s and %s", h.Seed, text, at.Exact(), from.Exact(), to.Exact())
		}
	}
}

// longestStop is the longest that nothing of a drug ran once it had begun.
func (h hour) longestStop(drug string) (longest sim.Time) {
	last := sim.Never
	for _, run := range h.Runs {
		if run.MLH == 0 || h.drugOf(run.Bag) != drug {
			continue
		}
		if last < run.From {
			longest = max(longest, run.From-last)
		}
		if last == sim.Never || run.To > last {
			last = min(run.To, h.Ended)
		}
	}
	return max(longest, h.Ended-last)
}

func (h hour) drugOf(bag string) string {
	for _, b := range h.Bags {
		if b.ID == bag {
			return b.Drug
		}
	}
	return ""
}

// What others started is taken over: the arm, the pump and the line at once,
// no bag before one is wanted, the rate from where it stands, a line to spare.
func TestTheExpertTakesOver(t *testing.T) {
	for seed := uint64(1); seed <= 5; seed++ {
		h := opened(t, Expert, seed, running(180, 15))
		h.within(0, 5*sim.Minute, "uncover right-cephalic-forearm", "feel around right-cephalic-forearm", "read pump-2",
			"press and watch refill at right-cephalic-forearm")
		h.within(0, 15*sim.Minute, "look at the tip of right-cephalic-forearm with ultrasound", "judge right-cephalic-forearm sound", "tell the patient what to report",
			"trace and label right-cephalic-forearm", "test blood return at right-dorsal-hand")
		for _, wrong := range []string{"mix", "hang", "start", "flush right-cephalic-forearm"} {
			if at := h.first(wrong, 0); at < sim.Never {
				t.Errorf("seed %d: %s at %s", seed, wrong, at.Exact())
			}
		}
		if stop := h.longestStop("norepinephrine"); stop > sim.Minute {
			t.Errorf("seed %d: nothing ran for %s", seed, stop.Exact())
		}
		spare := 0
		for _, l := range h.Lines {
			if l.Placed > 0 && !l.Central {
				spare++
			}
		}
		if spare == 0 {
			t.Errorf("seed %d: no line to spare", seed)
		}
	}
}

// The bag that hangs runs out on the way: the next one is ready before.
func TestTheNextBagIsReadyInTime(t *testing.T) {
	for seed := uint64(1); seed <= 5; seed++ {
		h := opened(t, Expert, seed, running(25, 20))
		for _, en := range h.Journal {
			if en.Kind == sim.Alarm && en.What == "bag empty" {
				t.Errorf("seed %d: the bag ran empty at %s", seed, en.At.Exact())
			}
		}
		h.within(20*sim.Minute, 75*sim.Minute, "mix 4 mg of norepinephrine in 250 mL, adding to the bag", "label bag-2", "check the mix in bag-2 with second-nurse", "hang bag-2 on pump-2")
		if stop := h.longestStop("norepinephrine"); stop > 3*sim.Minute {
			t.Errorf("seed %d: nothing ran for %s", seed, stop.Exact())
		}
	}
}

// A stronger bag runs at a lower rate, at the same dose.
func TestANewStrengthKeepsTheDose(t *testing.T) {
	h := opened(t, Expert, 1, running(25, 20), func(c *scenarios.Case, p *sim.Place) {
		p.BagsML = []float64{500}
		c.Patient.Untreated = []sim.Point{{At: 0, MmHg: 55}, {At: 4 * sim.Hour, MmHg: 55}}
	})
	before, after := 0.0, 0.0
	for _, run := range h.Runs {
		if run.Bag == "bag-1" && run.MLH > 0 {
			before = run.McgMin
		}
		if run.Bag == "bag-2" && run.MLH > 0 && run.To-run.From > 2*sim.Minute && after == 0 {
			after = run.McgMin
		}
	}
	if before == 0 || after < before*0.98 || after > before*1.02 {
		t.Errorf("%v mcg/min before, %v mcg/min from the new bag", before, after)
	}
}

// Whoever treats every arm treats this one too, and does what is needless.
func TestTreatsEverythingOfOthers(t *testing.T) {
	h := opened(t, Everything, 1, running(180, 15))
	for _, act := range []string{"stop", "draw-back", "infiltrate", "pull"} {
		if h.first(act, 0) == sim.Never {
			t.Errorf("%s is not done", act)
		}
	}
	if h.longestStop("norepinephrine") < 5*sim.Minute {
		t.Error("the drug was hardly stopped")
	}
}
