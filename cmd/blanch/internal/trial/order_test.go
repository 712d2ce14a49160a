package trial

import (
	"testing"

	"blanch/scenarios"
	"blanch/sim"
	"blanch/sim/quantity"
)

// tooMuch is an order in the wrong unit, put right when somebody asks.
func tooMuch(away sim.Time) func(*scenarios.Case, *sim.Place) {
	return func(c *scenarios.Case, _ *sim.Place) {
		c.Leak = sim.Fate{Kind: sim.NoLeak}
		c.Away = nil
		if away > 0 {
			c.Away = []sim.Absence{{Person: "doctor", Until: away, Heard: "Not now."}}
		}
		right := c.Order
		right.Text = "Norepinephrine 4 mg in 250 mL, 4 mcg/min, 2 to 12 mcg/min."
		right.Start, right.Least, right.Most = quantity.Of(4, "mcg/min"), quantity.Of(2, "mcg/min"), quantity.Of(12, "mcg/min")
		c.Mended = &sim.Mended{Says: "By the minute, of course.", Order: right}
		c.Order.Text = "Norepinephrine 4 mg in 250 mL, 4 mcg/kg/min, 2 to 12 mcg/kg/min."
		c.Order.Start, c.Order.Least, c.Order.Most = quantity.Of(4, "mcg/kg/min"), quantity.Of(2, "mcg/kg/min"), quantity.Of(12, "mcg/kg/min")
	}
}

func TestTheExpertAsksBeforeAnythingRuns(t *testing.T) {
	for name, away := range map[string]sim.Time{"at once": 0, "after a while": 12 * sim.Minute} {
		for seed := uint64(1); seed <= 5; seed++ {
			h := opened(t, Expert, seed, tooMuch(away))
			asked, answered := 0, sim.Never
			for _, en := range h.Journal {
				if en.Act != "query-order" {
					continue
				}
				asked++
				if en.Kind == sim.Done {
					answered = min(answered, en.At)
				}
			}
			start := h.first("start", 0)
			if answered > start || start > 30*sim.Minute {
				t.Errorf("%s, seed %d: answered at %s, started at %s", name, seed, answered.Exact(), start.Exact())
			}
			if away > 0 {
				h.within(0, answered, "prime pump-1", "flush right-dorsal-hand with 10 mL") // meanwhile the hands were at work
				if asked < 3 {
					t.Errorf("%s, seed %d: asked %d times", name, seed, asked)
				}
			}
			if again := h.first("read-order", answered); again > answered+2*sim.Minute {
				t.Errorf("%s, seed %d: the changed order is read at %s", name, seed, again.Exact())
			}
			for _, run := range h.Runs {
				if run.McgMin > 12.01 {
					t.Errorf("%s, seed %d: ran at %v mcg/min", name, seed, run.McgMin)
				}
			}
		}
	}
}

// Where nobody can be asked in time, what was surely meant is run, low, and
// the question stays open.
func TestAnOrderThatNobodyAnswersFor(t *testing.T) {
	for seed := uint64(1); seed <= 3; seed++ {
		h := opened(t, Expert, seed, tooMuch(70*sim.Minute))
		if h.Outcome.FirstDrug > 30*sim.Minute {
			t.Errorf("seed %d: first drug at %s", seed, h.Outcome.FirstDrug.Exact())
		}
		if len(h.Runs) == 0 || h.Runs[0].McgMin < 3.9 || h.Runs[0].McgMin > 4.1 {
			t.Errorf("seed %d: runs %+v", seed, h.Runs[:1])
		}
		if at := h.first("query-order", 70*sim.Minute); at > 73*sim.Minute {
			t.Errorf("seed %d: asked again at %s", seed, at.Exact())
		}
	}
}

func TestWhatAnOrderSays(t *testing.T) {
	p := &papers{weightKG: 70}
	p.ordered = []prescription{p.prescribed(sim.Order{Drug: "norepinephrine"})}
	for text, want := range map[string]prescription{
		"Add now: vasopressin 0.03 units/min.":                                        {},
		"Vasopressin 0.03 units/min when norepinephrine exceeds 10 mcg/min.":          {fromDose: 10},
		"Once norepinephrine is at more than 0.1 mcg/kg/min: vasopressin, fixed dose": {fromDose: 7, fixed: true},
		"Vasopressin 20 units in 100 mL, if the pressure does not hold.":              {onDemand: true, askedAmount: 20, askedML: 100},
		"Vasopressin 0.03 units/min. Tell the doctor if the urine falls.":             {},
		"Vasopressin 0.03 units/min should the pressure stay low.":                    {onDemand: true},
		"Vasopressin 0.03 units/min, not titrated.":                                   {fixed: true},
	} {
		got := p.prescribed(sim.Order{Drug: "vasopressin", Text: text})
		if d := got.fromDose - want.fromDose; d > 1e-9 || d < -1e-9 || got.onDemand != want.onDemand || got.fixed != want.fixed || got.askedAmount != want.askedAmount || got.askedML != want.askedML {
			t.Errorf("%q: from %v, on demand %t, fixed %t, %v in %v", text, got.fromDose, got.onDemand, got.fixed, got.askedAmount, got.askedML)
		}
	}
}
