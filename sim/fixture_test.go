package sim

import (
	"fmt"
	"strings"
	"testing"

	"blanch/sim/quantity"
	"blanch/sim/vein"
)

// An invented patient in an invented ward, for tests.

func testPlace() *Place {
	return &Place{
		ID: "test-ward", Name: "Test Ward",
		Pumps:    []Pump{{"pump-1", 0.1, 999, 20 * Minute, nil}, {"pump-2", 0.1, 999, 20 * Minute, nil}},
		TubingML: 15, ExtensML: 0.9,
		Cannulae: []vein.Cannula{{Gauge: 18, LengthMM: 29.5}, {Gauge: 20, LengthMM: 25.4}, {Gauge: 20, LengthMM: 29.5}, {Gauge: 20, LengthMM: 47.8}, {Gauge: 22, LengthMM: 25.4}},
		BagsML:   []float64{100, 250},
		Vials:    []Vial{{"norepinephrine", 4, 4, 6, false}, {"vasopressin", 20, 1, 6, false}, {"phentolamine", 5, 1, 4, false}, {"terbutaline", 1, 1, 4, false}},
		Nitrate:  true,
		KitAt:    "the nurses' station", KitWalk: 2 * Minute, KitReady: true, Ultrasound: true,
		Cuff: 5 * Minute, AlarmMmHg: 58,
		People: []Person{
			{ID: "second-nurse", Role: Nurse, Arrives: 2 * Minute},
			{ID: "doctor", Role: Doctor, Arrives: 10 * Minute, Grants: []string{"central-access", "antidote", "review"}, Needs: []string{"who", "pressure"}},
		},
		Central: Central{DeadML: 0.4, Lead: 30 * Minute, Takes: 25 * Minute, DelayChance: 0.2, Delay: 20 * Minute},
	}
}

func testCase() *Case {
	return &Case{
		ID: "test",
		Patient: Patient{
			Name: "Test Patient", AgeY: 70, Sex: "female", WeightKG: 62, SAPS2: 40,
			Untreated: []Point{{0, 52}, {90 * Minute, 55}, {4 * Hour, 50}},
			HeartRate: 105, PulseMmHg: 38,
			Tells: true, SaysAfter: 10 * Minute, Skin: "brown",
		},
		Order: Order{
			Text: "norepinephrine", Drug: "norepinephrine",
			Start: quantity.Of(0.05, "mcg/kg/min"), Least: quantity.Of(0.02, "mcg/kg/min"), Most: quantity.Of(0.2, "mcg/kg/min"),
			TargetMmHg: 65, CeilMmHg: 80,
		},
		Veins: []VeinOffer{
			{ID: "left-cephalic-forearm", Side: Left, Look: "A straight vein, easily felt.", Vein: vein.Vein{Site: vein.Forearm, DiameterMM: 3.4, DepthMM: 5, StraightMM: 60}},
			{ID: "right-hand", Side: Right, Look: "Plain to see.", Vein: vein.Vein{Site: vein.Hand, DiameterMM: 2.3, DepthMM: 2, StraightMM: 25}},
			{ID: "right-basilic-arm", Side: Right, Look: "Cannot be felt.", Vein: vein.Vein{Site: vein.UpperArm, DiameterMM: 4.6, DepthMM: 12, StraightMM: 80}},
		},
		CuffArm: Right,
		Leak:    Fate{Kind: Placed, Begins: 70 * Minute, Over: 15 * Minute, Fraction: 0.9},
		Calls:   []CallOn{{ID: "bed-4", Text: "The bell of bed 4 rings.", At: 50 * Minute, Patience: 4 * Minute, Takes: 6 * Minute, Answered: "Thank you.", Lapsed: "Bed 4 rang in vain.", Declined: "Someone else goes."}},
		Planned: []Happening{{At: 40 * Minute, Text: "The blanket slips over the arm.", Does: Covers}},
		Ask:     []Question{{ID: "rate", Text: "What rate gives the ordered dose?", When: "hang", What: SumRate, Point: "mL/h"}},
		Ends:    4 * Hour,
	}
}

// setUp gets norepinephrine running through the forearm by half past.
const setUp = `
0:00:00 read the order
0:01:00 scan left-cephalic-forearm with ultrasound
0:03:00 choose left-cephalic-forearm with 20 gauge 47.8 mm at 30 degrees
0:03:10 insert the cannula under ultrasound
0:08:20 test blood return at left-cephalic-forearm
0:09:10 flush left-cephalic-forearm with 10 mL
0:10:00 mix 4 mg of norepinephrine in 250 mL, adding to the bag
0:14:00 label bag-1
0:14:30 hang bag-1 on pump-1
0:15:10 give rate as 11.6 mL/h
0:15:10 prime pump-1
0:16:10 connect pump-1 to left-cephalic-forearm
0:16:40 set pump-1 to 11.6 mL/h
0:16:55 start pump-1
`

// play runs lines of "h:mm:ss sentence" and then on to the end.
func play(t testing.TB, e *Engine, script string) []Entry {
	t.Helper()
	for line := range strings.Lines(script) {
		line = strings.TrimSpace(line)
		if line == "" {
			continue
		}
		var h, m, s int
		if _, err := fmt.Sscanf(line, "%d:%d:%d", &h, &m, &s); err != nil {
			t.Fatalf("%q: %v", line, err)
		}
		a, err := ParseAction(line[8-1:])
		if err != nil {
			t.Fatalf("%q: %v", line, err)
		}
		e.Advance(Time(h)*Hour + Time(m)*Minute + Time(s)*Second)
		if en := e.Do(a)[0]; en.Kind == Refused {
			t.Fatalf("%q refused: %s", line, en.Why)
		}
	}
	e.Advance(Never - 1)
	return e.Result().Journal
}

func newEngine(t testing.TB, c *Case, seed uint64) *Engine {
	t.Helper()
	e, err := New(c, testPlace(), seed)
	if err != nil {
		t.Fatal(err)
	}
	return e
}
