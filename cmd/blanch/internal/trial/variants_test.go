package trial

import (
	"slices"
	"strings"
	"testing"

	"blanch/scenarios"
	"blanch/scoring"
	"blanch/sim"
	"blanch/sim/quantity"
	"blanch/sim/vein"
)

// variant plays the expert in a case that was changed, and gives what it did.
func variant(t *testing.T, seed uint64, change func(*scenarios.Case, *sim.Place)) (*sim.Result, []string) {
	t.Helper()
	return expertIn(t, varied(t, change), seed)
}

func varied(t *testing.T, change func(*scenarios.Case, *sim.Place)) *Study {
	t.Helper()
	c, place, policy := shipped(t)
	change(c, place)
	return studyOf(t, c, place, policy)
}

func expertIn(t *testing.T, s *Study, seed uint64) (*sim.Result, []string) {
	t.Helper()
	r, err := s.Show(Expert, seed)
	if err != nil {
		t.Fatal(err)
	}
	var said []string
	for _, s := range scoring.Inputs(r) {
		said = append(said, s.Text)
	}
	return r, said
}

func has(said []string, words string) bool {
	return slices.ContainsFunc(said, func(s string) bool { return strings.Contains(s, words) })
}

func noLeak(c *scenarios.Case, _ *sim.Place) { c.Leak = sim.Fate{Kind: sim.NoLeak} }

func TestTheExpertDoesNotTreatASoundArm(t *testing.T) {
	for seed := uint64(1); seed <= 5; seed++ {
		_, said := variant(t, seed, noLeak)
		for _, wrong := range []string{"leaking", "draw up", "infiltrate", "tell the patient what happened"} {
			if has(said, wrong) {
				t.Errorf("seed %d: %q in an arm that never leaks", seed, wrong)
			}
		}
		if !has(said, "to central") || !has(said, "hand over to") {
			t.Errorf("seed %d: did not get to the end: %q", seed, said)
		}
	}
}

// The pressure falls and the arm is sound: the arm first, then the patient,
// then what is found.
func TestTheExpertLooksAtTheArmThenAtThePatient(t *testing.T) {
	for _, tc := range []struct{ by, found, does string }{
		{"press", "The dressing on the hip is soaked.", "press on the bleeding"},
		{"less-sedation", "She does not rouse; the sedation was turned up.", "turn the sedation down"},
		{"lay-flat", "She sits bolt upright.", "lay the patient flat"},
		{"fluid", "Something that no word of ours describes.", "give a fluid bolus"},
	} {
		r, said := variant(t, 3, func(c *scenarios.Case, p *sim.Place) {
			noLeak(c, p)
			c.Strains = []sim.Strain{{ID: "s", At: 65 * sim.Minute, Over: 3 * sim.Minute, MmHg: -22, By: tc.by, Eases: 8 * sim.Minute, Found: tc.found}}
		})
		if !has(said, "look the patient over") || !has(said, tc.does) {
			t.Errorf("%s: not found or not treated", tc.by)
		}
		if has(said, "leaking") {
			t.Errorf("%s: taken for a leak", tc.by)
		}
		arm := sim.Time(-1)
		for _, en := range r.Journal {
			if en.Kind == sim.Started && en.Act == "feel" && en.At > 65*sim.Minute && arm < 0 {
				arm = en.At
			}
			if en.Kind == sim.Started && en.Act == "look-over" && en.At > 65*sim.Minute && (arm < 0 || arm > en.At) {
				t.Errorf("%s: the patient was looked over before the arm", tc.by)
			}
		}
	}
}

// An alpha blocker does not undo vasopressin.
func TestTheExpertTreatsWhatTheDrugDoes(t *testing.T) {
	r, said := variant(t, 2, func(c *scenarios.Case, p *sim.Place) {
		c.Order.Drug, c.Order.Text = "vasopressin", "Vasopressin 20 units in 250 mL, 0.03 units/min."
		c.Order.Start, c.Order.Least, c.Order.Most = quantity.Of(0.03, "units/min"), quantity.Of(0.01, "units/min"), quantity.Of(0.04, "units/min")
		p.Vials = append(p.Vials, sim.Vial{Drug: "vasopressin", MG: 20, ML: 1, Number: 4})
	})
	if !has(said, "mix 20 units of vasopressin in 250 mL") || !has(said, "set pump-1 to 22.5 mL/h") {
		t.Errorf("mixed or set otherwise: %q", said)
	}
	if has(said, "phentolamine") || !has(said, "put nitrate ointment") || !has(said, "a warm pack") {
		t.Errorf("treated otherwise: %q", said)
	}
	if r.Outcome.FirstDrug >= 30*sim.Minute {
		t.Errorf("first drug at %s", r.Outcome.FirstDrug.Exact())
	}
}

// An order beyond the policy is queried, and not run as it stands.
func TestTheExpertQueriesAFlawedOrder(t *testing.T) {
	for name, change := range map[string]func(*scenarios.Case, *sim.Place){
		"ten times the dose": func(c *scenarios.Case, _ *sim.Place) { c.Order.Start = quantity.Of(0.5, "mcg/kg/min") },
		"too strong a mix":   func(c *scenarios.Case, _ *sim.Place) { c.Order.Text = "Norepinephrine 16 mg in 250 mL." },
	} {
		r, said := variant(t, 1, func(c *scenarios.Case, p *sim.Place) { c.Away = nil; change(c, p) })
		if !has(said, "query the order with doctor") {
			t.Errorf("%s: not queried", name)
		}
		for _, run := range r.Runs {
			if run.McgMin > 15 || run.McgMin/run.MLH*60 > 16.01 {
				t.Errorf("%s: ran at %v mcg/min, %v mL/h", name, run.McgMin, run.MLH)
			}
		}
	}
	if _, said := variant(t, 1, noLeak); has(said, "query the order") {
		t.Error("a sound order was queried")
	}
}

func TestTheExpertFeelsOverADeepVein(t *testing.T) {
	_, said := variant(t, 1, func(c *scenarios.Case, p *sim.Place) {
		c.InPlace = nil
		for _, v := range c.Veins {
			if v.Site == vein.UpperArm {
				c.Veins = []sim.VeinOffer{v}
			}
		}
	})
	if !has(said, "feel around left-basilic-arm") || !has(said, "look at the tip of left-basilic-arm") {
		t.Errorf("a deep line was not looked at as one: %q", said)
	}
}

// Whatever a case has or lacks, the expert plays it: something runs, nearly
// nothing is refused, and it ends.
func TestTheExpertPlaysAnyCase(t *testing.T) {
	for name, change := range map[string]func(*scenarios.Case, *sim.Place){
		"no line in place": func(c *scenarios.Case, _ *sim.Place) { c.InPlace = nil },
		"nobody there": func(c *scenarios.Case, p *sim.Place) {
			p.People, c.Away = nil, nil
		},
		"no ultrasound":       func(_ *scenarios.Case, p *sim.Place) { p.Ultrasound = false },
		"no antidote, no kit": func(_ *scenarios.Case, p *sim.Place) { p.Vials, p.KitReady, p.Nitrate = p.Vials[:1], false, false },
		"small bags": func(_ *scenarios.Case, p *sim.Place) {
			p.BagsML = []float64{50}
			p.Vials[0].MG, p.Vials[0].Number = 0.8, 9
		},
		"one pump, coarse": func(_ *scenarios.Case, p *sim.Place) {
			p.Pumps = []sim.Pump{{ID: "the-pump", StepMLH: 1, MostMLH: 200}}
		},
		"sums of every sort":  func(c *scenarios.Case, _ *sim.Place) { c.Ask = everySum() },
		"cannot say it hurts": func(c *scenarios.Case, _ *sim.Place) { c.Patient.Tells = false },
		"no relief":           func(c *scenarios.Case, _ *sim.Place) { c.Relief = 0 },
		"lines fail all about": func(c *scenarios.Case, _ *sim.Place) {
			c.Leak = sim.Fate{Kind: sim.ByHazard, PerHour: 0.1}
			c.Wear = vein.Ends{Occlusion: 0.3, Phlebitis: 0.2, Dislodging: 0.2}
		},
		"taken over":      running(60, 15),
		"nearly empty":    running(4, 15),
		"two drugs":       all(running(200, 15), second("Add vasopressin 0.03 units/min now.")),
		"two taken over":  all(running(200, 15), second("Vasopressin 0.03 units/min, running."), bothRunning),
		"the second runs": all(second("Vasopressin 0.03 units/min, running."), bothRunning),
		"a pump too few":  all(running(200, 15), second("now"), func(_ *scenarios.Case, p *sim.Place) { p.Pumps = p.Pumps[1:] }),
		"no second vial":  all(running(200, 15), second("now"), func(_ *scenarios.Case, p *sim.Place) { p.Vials = slices.DeleteFunc(p.Vials, isVasopressin) }),
		"a pharmacist far": func(_ *scenarios.Case, p *sim.Place) {
			p.Pharmacy = true
			p.People = append(slices.Clone(p.People), sim.Person{ID: "pharmacist", Role: sim.Pharmacist, Arrives: 20 * sim.Minute})
		},
		"premixed alone": func(_ *scenarios.Case, p *sim.Place) {
			p.Vials, p.Premixed = p.Vials[1:], []sim.Premixed{{Drug: "norepinephrine", MG: 4, ML: 250, Number: 1}}
		},
		"an order to query":   tooMuch(10 * sim.Minute),
		"bruised and falling": all(running(180, 15), bruised, bleeds),
		"deep":                deep,
		"veins drawn": func(c *scenarios.Case, _ *sim.Place) {
			for i := range c.Veins {
				c.Veins[i].Kind = []string{"dorsal-hand", "forearm-cephalic", "median-cubital", "forearm-basilic", "arm-basilic"}[i]
			}
		},
	} {
		ran, s := 0, varied(t, change)
		const n = 10
		for seed := uint64(1); seed <= n; seed++ {
			r, said := expertIn(t, s, seed)
			if len(r.Runs) > 0 {
				ran++
			}
			refused := 0
			for _, en := range r.Journal {
				if en.Kind == sim.Refused {
					refused++
				}
			}
			if refused > 3+len(said)/20 {
				prev := ""
				for _, en := range r.Journal {
					if en.Kind == sim.Refused && prev != en.Text() {
						prev = en.Text()
						t.Log(en.At.Exact(), prev)
					}
				}
				t.Errorf("%s, seed %d: %d of %d refused", name, seed, refused, len(said))
			}
			if len(said) >= mostActs {
				t.Errorf("%s, seed %d: %d acts", name, seed, len(said))
			}
		}
		if r := tried(t, s, 2); len(r.Kinds) != len(Kinds()) { // nor does any other kind stumble
			t.Errorf("%s: %d kinds", name, len(r.Kinds))
		}
		if ran < n-1 {
			t.Errorf("%s: something ran in %d of %d", name, ran, n)
		}
	}
}

// all makes several changes.
func all(changes ...func(*scenarios.Case, *sim.Place)) func(*scenarios.Case, *sim.Place) {
	return func(c *scenarios.Case, p *sim.Place) {
		for _, change := range changes {
			change(c, p)
		}
	}
}

// bothRunning has vasopressin run too when the case opens.
func bothRunning(c *scenarios.Case, _ *sim.Place) {
	c.Running = append(c.Running, sim.Running{
		Pump: "pump-1", Drug: "vasopressin", Amount: quantity.Of(20, "units"), BagML: 100, LeftML: 60, Line: "left-cephalic-forearm", MLH: 9,
	})
}

func isVasopressin(v sim.Vial) bool { return v.Drug == "vasopressin" }

func everySum() []sim.Question {
	return []sim.Question{
		{ID: "concentration", When: "mix", What: sim.SumConcentration, Point: "mcg/mL"}, {ID: "rate", When: "hang", What: sim.SumRate, Point: "mL/h"},
		{ID: "empty", When: "start", What: sim.SumRunOut, Point: "h"}, {ID: "first", When: "connect-primed", What: sim.SumFirstDrug, Point: "min"},
		{ID: "dose", When: "start", What: sim.SumDose, Point: "mcg/min"}, {ID: "half-antidote", When: "draw-up", What: sim.SumAntidote, Point: "mL"},
	}
}

func TestWhatIsSaidOfArms(t *testing.T) {
	for said, want := range map[string]bool{
		"A fistula at the wrist.": true, "No fistula, no swelling.": false, "Swollen since the operation.": true,
		"The small drip in the back of the hand went in this morning. No fistula, no swelling.": false,
		"Weak since a stroke. No pain.": true, "": false, "A bruise.": false, "Without a fistula.": false,
	} {
		if got := warns(said); got != want {
			t.Errorf("%q: %t", said, got)
		}
	}
}
