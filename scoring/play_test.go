package scoring

import (
	"fmt"
	"strings"
	"testing"

	"blanch/scenarios"
	"blanch/sim"
	"blanch/sim/vein"
)

func playedCase() (*scenarios.Case, *sim.Place) {
	c := markedCase()
	c.Case.Patient = sim.Patient{Name: "Test Patient", AgeY: 70, Sex: "female", WeightKG: 64, SAPS2: 40, Untreated: []sim.Point{{At: 0, MmHg: 52}}, Tells: true, Skin: "brown"}
	c.Case.CuffArm = sim.Right
	c.Case.Leak = sim.Fate{Kind: sim.Placed, Begins: 70 * minute, Over: 5 * minute, Fraction: 0.9}
	c.Case.Calls, c.Case.Ask = nil, nil
	c.Case.Veins = []sim.VeinOffer{{ID: "left-forearm", Side: sim.Left, Vein: vein.Vein{Site: vein.Forearm, DiameterMM: 4, DepthMM: 5, StraightMM: 60}}}
	place := &sim.Place{
		ID: "test-ward", Pumps: []sim.Pump{{ID: "pump-1", StepMLH: 0.1, MostMLH: 999, EmptyWarn: 20 * minute}},
		TubingML: 15, ExtensML: 0.9, Cannulae: []vein.Cannula{{Gauge: 20, LengthMM: 48}}, BagsML: []float64{250},
		Vials: []sim.Vial{{Drug: "norepinephrine", MG: 4, ML: 4, Number: 2}}, Ultrasound: true, Cuff: 5 * minute, AlarmMmHg: 55,
		People: []sim.Person{{ID: "second-nurse", Role: sim.Nurse, Arrives: 2 * minute}},
	}
	return c, place
}

func steps(t *testing.T, script string) []scenarios.Step {
	t.Helper()
	out, faults := scenarios.ParseSteps("steps.txt", []byte(script))
	if len(faults) > 0 {
		t.Fatalf("line %d: %s", faults[0].Pos.Line, faults[0].Said)
	}
	return out
}

const setUp = `at 1 min: read the order
then: choose left-forearm with 20 gauge 48 mm at 30 degrees
then: insert the cannula under ultrasound
then: mix 4 mg of norepinephrine in 250 mL, adding to the bag
then: label bag-1
then: hang bag-1 on pump-1
then: prime pump-1
then: connect pump-1 to left-forearm
then: set pump-1 to 12 mL/h
then: start pump-1
`

func TestPlayKeepsTheTimesOfSteps(t *testing.T) {
	c, place := playedCase()
	result, faults, err := Play(c, place, insertable(t, c, place), steps(t, setUp+`after 5 min: feel around left-forearm
at 40 min: tell the patient what to report
then: send for second-nurse
at 45 min: ask second-nurse to feel around left-forearm
then: glance at left-forearm
`))
	if err != nil || len(faults) > 0 {
		t.Fatalf("%v, %v", err, faults)
	}
	if result.Ended != c.Ends {
		t.Errorf("ended at %s", result.Ended.Exact())
	}
	began := map[string]sim.Time{}
	for _, e := range result.Journal {
		if e.Kind == sim.Started {
			began[e.Said] = e.At
		}
	}
	for said, want := range map[string]sim.Time{
		"read the order": minute,
		"choose left-forearm with 20 gauge 48 mm at 30 degrees": minute + 30*sim.Second,
		"feel around left-forearm":                              began["start pump-1"] + 5*sim.Second + 5*minute,
		"tell the patient what to report":                       40 * minute,
		"send for second-nurse":                                 40*minute + 40*sim.Second, // once the voice is free
		"ask second-nurse to feel around left-forearm":          45 * minute,
		"glance at left-forearm":                                45 * minute, // the learner's own hands are free
	} {
		if began[said] != want {
			t.Errorf("%s began at %s, want %s", said, began[said].Exact(), want.Exact())
		}
	}
}

// insertable is a seed with which the first stick succeeds.
func insertable(t *testing.T, c *scenarios.Case, place *sim.Place) uint64 {
	t.Helper()
	for seed := range uint64(50) {
		r, _, err := Play(c, place, seed, steps(t, setUp))
		if err != nil {
			t.Fatal(err)
		}
		if len(r.Lines) == 1 && r.Lines[0].Placed < sim.Never {
			return seed
		}
	}
	t.Fatal("no seed lets the cannula in")
	return 0
}

func TestRefusedStepsAreFaultsWithTheirPlace(t *testing.T) {
	c, place := playedCase()
	_, faults, err := Play(c, place, 1, steps(t, "at 1 min: start pump-1\nat 2 min: mix 4 mg of norepinephrine in 250 mL, adding to the bag\nat 3 min: label bag-1\n"))
	if err != nil {
		t.Fatal(err)
	}
	if len(faults) != 2 || !strings.HasPrefix(faults[0], "steps.txt:1:11: refused at 0:01:00: ") || !strings.HasPrefix(faults[1], "steps.txt:3:11: refused at 0:03:00: ") {
		t.Errorf("faults: %q", faults)
	}
}

func TestAFoundLeakIsMarkedFromARealRun(t *testing.T) {
	c, place := playedCase()
	seed := insertable(t, c, place)
	for _, tc := range []struct {
		name, after string
		found       Verdict
	}{
		{"looked in time", "at 98 min: feel around left-forearm\nthen: judge left-forearm leaking\nthen: stop pump-1\n", Met},
		{"looked too late", "at 170 min: feel around left-forearm\nthen: stop pump-1\n", NotMet},
		{"never looked", "", NotMet},
	} {
		r, faults, err := Play(c, place, seed, steps(t, setUp+tc.after))
		if err != nil || len(faults) > 0 {
			t.Fatalf("%s: %v %v", tc.name, err, faults)
		}
		m, wrong := Compile(c, testPolicy())
		if m == nil {
			t.Fatal(wrong)
		}
		for _, mark := range m.Mark(r).Marks {
			if mark.Rule == "found-in-time" && mark.Verdict != tc.found {
				t.Errorf("%s: %s (%s)", tc.name, mark.Verdict, mark.Said)
				for _, s := range r.Sights {
					t.Logf("%s could be found at %s", s.Sign, s.At.Exact())
				}
			}
		}
	}
}

func TestWalkThroughsRepeatNoFault(t *testing.T) {
	c, place := playedCase()
	c.Policy = "test-policy"
	c.Rules[0].When = exactText(`stert.known`)
	c.Rules[1].When = exactText(`highest_dose <= policy.most_dose`)
	c.Walks = []scenarios.Walk{{ID: "own", Policy: "test-policy"}, {ID: "other", Policy: "loose"}, {ID: "third", Policy: "looser"}}
	policy := func(id string) (*scenarios.Policy, bool) {
		p := testPolicy()
		if p.ID != id {
			p.ID, p.MostMcgMin = "loose", nil
		}
		return p, true
	}
	faults := CheckWalks(c, place, policy)
	if len(faults) != 1 || faults[0].Code != "no-such-limit" {
		t.Errorf("want just what only the other policies make faulty: %+v", faults)
	}
}

func TestWalkThroughsAreHeldToTheirMarks(t *testing.T) {
	c, place := playedCase()
	seed := insertable(t, c, place)
	policy := func(id string) (*scenarios.Policy, bool) { return testPolicy(), id == "test-policy" }
	walk := scenarios.Walk{ID: "late", Policy: "test-policy", Seed: seed, Steps: steps(t, setUp+"at 170 min: feel around left-forearm\nthen: stop pump-1\n"),
		Loses: []string{"found-in-time"}, Pos: scenarios.Pos{File: "case.yaml", Line: 90, Column: 3}}
	c.PassPoints = 0.5
	play := func(w scenarios.Walk) []scenarios.Complaint {
		c.Walks = []scenarios.Walk{w}
		return CheckWalks(c, place, policy)
	}
	m, _ := Compile(c, testPolicy())
	r, _, _ := Play(c, place, seed, walk.Steps)
	sheet := m.Mark(r)
	walk.Loses, walk.Passes = lostRules(sheet), sheet.Passed
	if faults := play(walk); len(faults) != 0 {
		t.Fatalf("a true walk-through: %v", faults)
	}
	for _, tc := range []struct {
		name   string
		change func(w *scenarios.Walk)
		code   string
		said   string
	}{
		{"one too many lost", func(w *scenarios.Walk) { w.Loses = append([]string{"share"}, w.Loses...) }, "walk-through-differs", "share should be lost, and is met"},
		{"one lost in silence", func(w *scenarios.Walk) { w.Loses = nil }, "walk-through-differs", "found-in-time is lost, and should not be (No: "},
		{"a rule that is not there", func(w *scenarios.Walk) { w.Loses = append(w.Loses, "shore") }, "walk-through-differs", "there is no rule shore to lose"},
		{"one that did not apply", func(w *scenarios.Walk) { w.Loses = append(w.Loses, "stopped"); w.Steps = w.Steps[:1] }, "walk-through-differs", "stopped should be lost, and did not apply"},
		{"the wrong result", func(w *scenarios.Walk) { w.Passes = !w.Passes }, "walk-through-differs", "pass"},
		{"a policy that is not at hand", func(w *scenarios.Walk) { w.Policy = "other" }, "unknown-policy", `no policy called "other"`},
		{"a step that is refused", func(w *scenarios.Walk) {
			w.Steps = append(w.Steps, scenarios.Step{When: scenarios.Then, Said: "label bag-9", SaidAt: scenarios.Pos{File: "case.yaml", Line: 99, Column: 15}})
		}, "step-refused", fmt.Sprintf("walk-through late (seed %d): refused at", seed)},
	} {
		w := walk
		tc.change(&w)
		faults := play(w)
		if len(faults) != 1 || faults[0].Code != tc.code || !strings.Contains(faults[0].Said, tc.said) {
			t.Errorf("%s: %+v", tc.name, faults)
			continue
		}
		if want := walk.Pos.Line; faults[0].Pos.Line != want && tc.code != "step-refused" {
			t.Errorf("%s: at line %d", tc.name, faults[0].Pos.Line)
		}
	}
}

// A sum takes one answer: what cannot be read as an amount is given back, and
// once there is an answer, right or wrong, another is refused.
func TestASumTakesOneAnswer(t *testing.T) {
	c, place := playedCase()
	c.Ask = []sim.Question{{ID: "concentration", Text: "How strong is it?", When: "mix", What: sim.SumConcentration, Point: "mcg/mL"}}
	result, faults, err := Play(c, place, 1, steps(t, `at 1 min: mix 4 mg of norepinephrine in 250 mL, adding to the bag
at 5 min: give concentration as 16
at 6 min: give concentration as 64 mcg/mL
at 7 min: give concentration as 16 mcg/mL
`))
	if err != nil {
		t.Fatal(err)
	}
	if len(faults) != 2 || !strings.Contains(faults[0], "the unit is missing") || !strings.Contains(faults[1], "answered already") {
		t.Errorf("faults: %q", faults)
	}
	if len(result.Answers) != 1 || result.Answers[0].Raw != "64 mcg/mL" {
		t.Errorf("answers: %+v", result.Answers)
	}
}
