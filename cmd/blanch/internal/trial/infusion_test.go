package trial

import (
	"slices"
	"testing"

	"blanch/scenarios"
	"blanch/sim"
	"blanch/sim/quantity"
	"blanch/sim/vein"
)

// second orders vasopressin beside the running norepinephrine.
func second(text string) func(*scenarios.Case, *sim.Place) {
	return func(c *scenarios.Case, p *sim.Place) {
		p.Vials = append(slices.Clone(p.Vials), sim.Vial{Drug: "vasopressin", MG: 20, ML: 1, Number: 3}, sim.Vial{Drug: "terbutaline", MG: 1, ML: 1, Number: 2})
		p.BagsML = []float64{100, 250}
		c.InPlace = append(slices.Clone(c.InPlace), sim.InPlace{Vein: "left-cephalic-forearm", Cannula: vein.Cannula{Gauge: 20, LengthMM: 47.8}, AngleDeg: 30})
		c.Also = []sim.Order{{
			Text: text, Drug: "vasopressin",
			Start: quantity.Of(0.03, "units/min"), Least: quantity.Of(0.01, "units/min"), Most: quantity.Of(0.04, "units/min"),
		}}
		c.Ask = append(slices.Clone(c.Ask), sim.Question{ID: "second-rate", When: "hang", What: sim.SumRate, Point: "mL/h", Drug: "vasopressin", Text: "What rate?"})
		c.Patient.Untreated = []sim.Point{{At: 0, MmHg: 46}, {At: 4 * sim.Hour, MmHg: 46}}
	}
}

// firstRun is the first stretch in which a drug ran.
func (h hour) firstRun(drug string) (sim.Run, bool) {
	for _, run := range h.Runs {
		if run.MLH > 0 && h.drugOf(run.Bag) == drug {
			return run, true
		}
	}
	return sim.Run{}, false
}

func TestTheExpertStartsASecondDrug(t *testing.T) {
	for seed := uint64(1); seed <= 5; seed++ {
		h := opened(t, Expert, seed, running(200, 15), second("Add vasopressin 20 units in 100 mL, 0.03 units/min, now."))
		first, _ := h.firstRun("norepinephrine")
		run, ok := h.firstRun("vasopressin")
		if !ok || run.From > 30*sim.Minute {
			t.Fatalf("seed %d: vasopressin runs from %s", seed, run.From.Exact())
		}
		if run.Pump == first.Pump || run.Subject == first.Subject || run.McgMin < 0.0299 || run.McgMin > 0.0301 {
			t.Errorf("seed %d: on %s through %s at %v units/min", seed, run.Pump, run.Subject, run.McgMin)
		}
		h.within(0, run.From, "mix 20 units of vasopressin in 100 mL, adding to the bag", "give second-rate as 9 mL/h",
			"check the mix in bag-2 with second-nurse", "check the settings of pump-1 with second-nurse", "flush left-cephalic-forearm with 10 mL")
		for _, id := range []string{first.Subject, run.Subject} { // both arms, all along
			last, gap := run.From, sim.Time(0)
			for _, en := range h.Journal {
				if en.Kind == sim.Done && en.Act == "feel" && en.Subject == id && en.At > run.From && en.At < run.From+sim.Hour {
					gap, last = max(gap, en.At-last), en.At
				}
			}
			if gap > 30*sim.Minute || last < run.From+30*sim.Minute {
				t.Errorf("seed %d: %s was left for %s", seed, id, gap.Exact())
			}
		}
		if n := len(h.drugsThrough(first.Subject)); n > 1 {
			t.Errorf("seed %d: %d drugs through %s", seed, n, first.Subject)
		}
	}
}

// drugsThrough are the drugs that ran through a line.
func (h hour) drugsThrough(subject string) (out []string) {
	for _, run := range h.Runs {
		if drug := h.drugOf(run.Bag); run.Subject == subject && run.MLH > 0 && !slices.Contains(out, drug) {
			out = append(out, drug)
		}
	}
	return out
}

// An order that says when is kept to.
func TestTheSecondDrugWaitsForItsReason(t *testing.T) {
	const order = "Vasopressin 0.03 units/min when norepinephrine exceeds 7 mcg/min."
	h := opened(t, Expert, 1, running(200, 15), second(order))
	run, ok := h.firstRun("vasopressin")
	if !ok {
		t.Fatal("vasopressin never ran")
	}
	highest := 0.0
	for _, r := range h.Runs {
		if h.drugOf(r.Bag) == "norepinephrine" && r.From < run.From {
			highest = max(highest, r.McgMin)
		}
	}
	if highest < 7 {
		t.Errorf("started at %s, when norepinephrine had come to %v mcg/min", run.From.Exact(), highest)
	}
	h = opened(t, Expert, 1, running(200, 15), second(order), func(c *scenarios.Case, _ *sim.Place) {
		c.Patient.Untreated = []sim.Point{{At: 0, MmHg: 60}, {At: 4 * sim.Hour, MmHg: 60}}
	})
	if run, ok := h.firstRun("vasopressin"); ok {
		t.Errorf("vasopressin ran at %s where nothing called for it", run.From.Exact())
	}
}

// What leaks decides what undoes it, and the other drug goes on.
func TestALeakOfEitherDrug(t *testing.T) {
	for drug, tc := range map[string]struct{ does, not []string }{
		"vasopressin":    {[]string{"nitrate", "warm"}, []string{"infiltrate"}},
		"norepinephrine": {[]string{"infiltrate"}, []string{"nitrate"}},
	} {
		for seed := uint64(1); seed <= 3; seed++ {
			h := opened(t, Expert, seed, running(200, 15), second("Add vasopressin 0.03 units/min now."), func(c *scenarios.Case, _ *sim.Place) {
				c.Leak = sim.Fate{Kind: sim.Placed, Drug: drug, Begins: 50 * sim.Minute, Over: 10 * sim.Minute, Fraction: 0.9}
			})
			for _, act := range tc.does {
				if h.first(act, 50*sim.Minute) == sim.Never {
					t.Errorf("%s, seed %d: no %s", drug, seed, act)
				}
			}
			for _, act := range tc.not {
				if at := h.first(act, 0); at < sim.Never {
					t.Errorf("%s, seed %d: %s at %s", drug, seed, act, at.Exact())
				}
			}
			for _, other := range []string{"norepinephrine", "vasopressin"} {
				if stop := h.longestStop(other); other != drug && stop > sim.Minute {
					t.Errorf("%s, seed %d: %s stood for %s", drug, seed, other, stop.Exact())
				}
			}
		}
	}
	// Where the skin can have no nitrate, a beta agonist; and a habit is a habit.
	leaks := func(c *scenarios.Case, p *sim.Place) {
		c.Leak = sim.Fate{Kind: sim.Placed, Drug: "vasopressin", Begins: 50 * sim.Minute, Over: 10 * sim.Minute, Fraction: 0.9}
		p.Nitrate = false
	}
	if !has(opened(t, Expert, 1, running(200, 15), second("now"), leaks).said(), "draw up 1 mg of terbutaline") {
		t.Error("without nitrate, terbutaline is not given")
	}
	if !has(opened(t, "one-antidote", 1, running(200, 15), second("now"), leaks).said(), "of phentolamine") {
		t.Error("one-antidote does not give phentolamine")
	}
}
