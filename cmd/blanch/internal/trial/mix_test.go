package trial

import (
	"slices"
	"testing"

	"blanch/scenarios"
	"blanch/sim"
	"blanch/sim/quantity"
)

// What the place has decides what is done.
func TestTheExpertUsesWhatThereIs(t *testing.T) {
	mcg := func(v float64) quantity.Quantity { return quantity.Of(v, "mcg/min") }
	for name, tc := range map[string]struct {
		change func(*scenarios.Case, *sim.Place)
		says   []string
		never  []string
	}{
		"a premixed bag": {func(_ *scenarios.Case, p *sim.Place) {
			p.Premixed = []sim.Premixed{{Drug: "norepinephrine", MG: 4, ML: 250, Number: 2}, {Drug: "norepinephrine", MG: 16, ML: 250, Number: 2}}
		}, []string{"take a premixed bag of 4 mg of norepinephrine in 250 mL", "check the mix in bag-1", "hang bag-1"}, []string{"mix", "label"}},
		"premixed too strong": {func(_ *scenarios.Case, p *sim.Place) {
			p.Premixed = []sim.Premixed{{Drug: "norepinephrine", MG: 16, ML: 250, Number: 2}}
		}, []string{"mix 4 mg of norepinephrine in 250 mL"}, []string{"premixed"}},
		"a pharmacist": {func(_ *scenarios.Case, p *sim.Place) {
			p.Pharmacy = true
			p.People = append(slices.Clone(p.People), sim.Person{ID: "pharmacist", Role: sim.Pharmacist, Arrives: 3 * sim.Minute})
		}, []string{"send for pharmacist", "ask pharmacist to mix 4 mg of norepinephrine in 250 mL", "label bag-1"}, nil},
		"vials out of date": {func(_ *scenarios.Case, p *sim.Place) {
			p.Vials = append([]sim.Vial{{Drug: "norepinephrine", MG: 8, ML: 4, Number: 9, Past: true}}, p.Vials...)
		}, []string{"mix 4 mg of norepinephrine in 250 mL"}, nil},
		"an antidote out of date": {func(_ *scenarios.Case, p *sim.Place) {
			p.Vials = []sim.Vial{p.Vials[0], {Drug: "phentolamine", MG: 5, ML: 1, Number: 2, Past: true}, {Drug: "terbutaline", MG: 1, ML: 1, Number: 2}}
			p.KitReady, p.KitLacks = false, "the phentolamine is out of date"
		}, []string{"draw up 1 mg of terbutaline", "infiltrate around"}, nil},
		"no antidote in date": {func(_ *scenarios.Case, p *sim.Place) {
			p.Vials = []sim.Vial{p.Vials[0], {Drug: "phentolamine", MG: 5, ML: 1, Number: 2, Past: true}}
		}, []string{"put nitrate ointment", "with a warm pack"}, []string{"draw-up"}},
		"a coarse pump that knows its limits": {func(_ *scenarios.Case, p *sim.Place) {
			p.Pumps = []sim.Pump{{ID: "old", StepMLH: 1, MostMLH: 400}, {
				ID: "new", StepMLH: 1, MostMLH: 400, EmptyWarn: 5 * sim.Minute,
				Library: []sim.DrugLimit{{Drug: "norepinephrine", Soft: sim.DoseRange{Least: mcg(1), Most: mcg(8)}, Hard: sim.DoseRange{Most: mcg(80)}}},
			}}
		}, []string{"set new to 11 mL/h", "start new"}, nil},
	} {
		for seed := uint64(1); seed <= 3; seed++ {
			h := opened(t, Expert, seed, tc.change)
			for _, text := range tc.says {
				if !has(h.said(), text) {
					t.Errorf("%s, seed %d: nobody says %q", name, seed, text)
				}
			}
			for _, act := range tc.never {
				if at := h.first(act, 0); at < sim.Never {
					t.Errorf("%s, seed %d: %s at %s", name, seed, act, at.Exact())
				}
			}
			if h.Outcome.FirstDrug > 30*sim.Minute {
				t.Errorf("%s, seed %d: first drug at %s", name, seed, h.Outcome.FirstDrug.Exact())
			}
			refused := 0
			for _, en := range h.Journal {
				if en.Kind == sim.Refused && en.Act != "query-order" {
					refused++
				}
			}
			if refused > 4 {
				t.Errorf("%s, seed %d: %d refused", name, seed, refused)
			}
		}
	}
}

// A pump whose library refuses a slip makes the learner work it out anew; one
// without a library lets it through.
func TestALibraryStopsASlip(t *testing.T) {
	limits := []sim.DrugLimit{{Drug: "norepinephrine", Hard: sim.DoseRange{Most: quantity.Of(20, "mcg/min")}}}
	for seed := uint64(1); seed <= 8; seed++ {
		h := opened(t, "slips-in-sums", seed, func(_ *scenarios.Case, p *sim.Place) {
			p.Pumps = []sim.Pump{{ID: "pump", StepMLH: 0.1, MostMLH: 999, Library: limits}}
		})
		for _, run := range h.Runs {
			if run.McgMin > 20.01 {
				t.Errorf("seed %d: ran at %v mcg/min", seed, run.McgMin)
			}
		}
		if len(h.Runs) == 0 {
			t.Errorf("seed %d: nothing ran", seed)
		}
	}
}

// Past the order as far as the pump takes it: a habit with a name.
func TestOverridesThePump(t *testing.T) {
	low := func(c *scenarios.Case, p *sim.Place) {
		c.Patient.Untreated = []sim.Point{{At: 0, MmHg: 18}, {At: 4 * sim.Hour, MmHg: 18}}
	}
	highest := func(kind string) (most float64) {
		for _, run := range opened(t, kind, 1, running(200, 15), low).Runs {
			most = max(most, run.McgMin)
		}
		return most
	}
	const order = 0.2 * 72 // mcg/min, for the weight of the case
	if got := highest(Expert); got > 15.01 {
		t.Errorf("the expert goes up to %v mcg/min", got)
	}
	if got := highest("overrides-the-pump"); got < order*1.2 {
		t.Errorf("overrides-the-pump stops at %v mcg/min", got)
	}
}
