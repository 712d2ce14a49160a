package trial

import (
	"slices"
	"testing"

	"blanch/scenarios"
	"blanch/sim"
)

// bleeds has the patient bleed and run dry at once, as one thing leads to
// another.
func bleeds(c *scenarios.Case, _ *sim.Place) {
	c.Strains = []sim.Strain{
		{ID: "bleeding", At: 60 * sim.Minute, Over: 5 * sim.Minute, MmHg: -12, By: "press", Eases: 6 * sim.Minute, Found: "The groin bleeds; nothing else is new."},
		{ID: "dry", At: 60 * sim.Minute, Over: 5 * sim.Minute, MmHg: -10, By: "fluid", Eases: 6 * sim.Minute, Found: "The veins of the neck are flat."},
	}
}

// The arm, then the pump, then the patient, then every reason that was found,
// and a doctor hears of it.
func TestTheExpertFindsEveryReason(t *testing.T) {
	for seed := uint64(1); seed <= 5; seed++ {
		h := opened(t, Expert, seed, running(180, 15), bleeds)
		feel, pump := h.first("feel", 60*sim.Minute), h.first("read-pump", 60*sim.Minute)
		over := h.first("look-over", 60*sim.Minute)
		if feel > pump || pump > over {
			t.Errorf("seed %d: arm %s, pump %s, patient %s", seed, feel.Exact(), pump.Exact(), over.Exact())
		}
		for _, act := range []string{"press", "fluid", "call"} {
			if at := h.first(act, over); at > 95*sim.Minute {
				t.Errorf("seed %d: %s at %s", seed, act, at.Exact())
			}
		}
		for _, act := range []string{"lay-flat", "less-sedation"} {
			if at := h.first(act, 0); at < sim.Never {
				t.Errorf("seed %d: %s at %s, which nothing calls for", seed, act, at.Exact())
			}
		}
		if got := h.treated(); len(got) > 0 {
			t.Errorf("seed %d: taken for a leak: %q", seed, got)
		}
	}
}

// raises are the times at which the rate of a running infusion went up through
// an arm.
func (h hour) raises() (out []sim.Run) {
	last := map[string]float64{}
	for _, run := range h.Runs {
		before, ran := last[run.Pump]
		last[run.Pump] = run.McgMin
		if ran && before > 0 && run.McgMin > before && run.Subject != "central" {
			out = append(out, run)
		}
	}
	return out
}

// since is how long before a time an act was last done.
func (h hour) since(act string, at sim.Time) sim.Time {
	last := -sim.Never
	for _, en := range h.Journal {
		if en.Kind == sim.Done && en.Act == act && en.At <= at {
			last = en.At
		}
	}
	return at - last
}

// No rate goes up before a hand was on the arm and somebody looked at the
// patient, nor past order and policy; where the range ends, a doctor is told.
func TestTheExpertLooksBeforeTheRateGoesUp(t *testing.T) {
	raised := 0
	for seed := uint64(1); seed <= 5; seed++ {
		h := opened(t, Expert, seed, running(180, 15), func(c *scenarios.Case, _ *sim.Place) {
			c.Patient.Untreated = []sim.Point{{At: 0, MmHg: 50}, {At: 40 * sim.Minute, MmHg: 22}, {At: 4 * sim.Hour, MmHg: 22}}
		})
		for _, run := range h.raises() {
			raised++
			if arm, patient := h.since("feel", run.From), h.since("look-over", run.From); arm > 10*sim.Minute || patient > 30*sim.Minute {
				t.Errorf("seed %d: raised at %s, arm %s and patient %s before", seed, run.From.Exact(), arm.Exact(), patient.Exact())
			}
			if run.McgMin > 14.41 {
				t.Errorf("seed %d: %v mcg/min at %s", seed, run.McgMin, run.From.Exact())
			}
		}
		if !has(h.said(), "asking for review") {
			t.Errorf("seed %d: nobody hears that the range ends", seed)
		}
	}
	if raised < 10 {
		t.Errorf("raised %d times", raised)
	}
	if h := opened(t, "turns-it-up", 1, running(180, 15), bleeds); !slices.ContainsFunc(h.raises(), func(run sim.Run) bool { return h.since("look-over", run.From) > 30*sim.Minute }) {
		t.Error("turns-it-up looks first")
	}
}

// A habit that blames the arm stops the drug for it.
func TestBlamesTheArm(t *testing.T) {
	for seed := uint64(1); seed <= 3; seed++ {
		h := opened(t, "blames-the-arm", seed, running(200, 20), bleeds)
		if got := h.treated(); !slices.Contains(got, "stop") || !slices.Contains(got, "judge") {
			t.Errorf("seed %d: %q", seed, got)
		}
		if at := h.first("stop", 0); at < 60*sim.Minute {
			t.Errorf("seed %d: stopped at %s, before the pressure fell", seed, at.Exact())
		}
		quiet := opened(t, "blames-the-arm", seed, running(180, 20), func(c *scenarios.Case, _ *sim.Place) {
			c.Patient.Untreated = []sim.Point{{At: 0, MmHg: 62}, {At: 4 * sim.Hour, MmHg: 62}}
		})
		if got := quiet.treated(); len(got) > 0 {
			t.Errorf("seed %d: %q though nothing fell", seed, got)
		}
	}
}

// The words of a finding call for what treats it; what is denied does not.
func TestWordsThatCall(t *testing.T) {
	for said, want := range map[string]string{
		"She sits bolt upright, the head of the bed raised. She is pale. Nothing bleeds; the drain is as it was.": "lay-flat",
		"The propofol runs at 15 mL/h, and the chart says 5.":                                                     "less-sedation",
		"Under the sheet he lies in blood.":                                                                       "press",
		"The veins of the neck are flat, and the palms are pale.":                                                 "fluid",
		"Something else.": "",
	} {
		best, most := "", 0
		for _, r := range remedies {
			if n := calls(said, r.words); n > most {
				best, most = r.act, n
			}
		}
		if best != want {
			t.Errorf("%q calls for %q, want %q", said, best, want)
		}
	}
}
