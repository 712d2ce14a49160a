package sim

import (
	"math"
	"strings"
	"testing"
)

// First drug at the tip: 1 mL of dead volume at 3.75 mL/h takes 16 min (dead
// volume over flow, arithmetic), on a pump that can be set so finely.
func TestFirstDrugDelay(t *testing.T) {
	c, p := testCase(), testPlace()
	c.Leak = Fate{Kind: NoLeak}
	p.ExtensML = 1 - cannulaML(p.Cannulae[3])
	p.Pumps[0].StepMLH = 0.05
	e, err := New(c, p, luckySeed(t, 1))
	if err != nil {
		t.Fatal(err)
	}
	play(t, e, strings.ReplaceAll(setUp, "set pump-1 to 11.6 mL/h", "set pump-1 to 3.75 mL/h"))
	r := e.Result()
	got := (r.Outcome.FirstDrug - r.Runs[0].From).Seconds() / 60
	if r.Runs[0].MLH != 3.75 || math.Abs(got-16) > 1e-4 {
		t.Errorf("first drug after %v min at %v mL/h, want 16 min at 3.75", got, r.Runs[0].MLH)
	}
}

// Run-out: 1,000 mL at 125 mL/h lasts 8 h (volume over rate, arithmetic); the
// bag empties then, the pump alarms and stops.
func TestBagRunsOut(t *testing.T) {
	c, p := testCase(), testPlace()
	c.Leak, c.Ends = Fate{Kind: NoLeak}, 12*Hour
	p.TubingML = 0
	p.BagsML = []float64{1000}
	e, err := New(c, p, luckySeed(t, 1))
	if err != nil {
		t.Fatal(err)
	}
	lines := strings.ReplaceAll(setUp, "250 mL, adding to the bag", "1000 mL, withdrawing first")
	lines = strings.ReplaceAll(lines, "set pump-1 to 11.6 mL/h", "set pump-1 to 125 mL/h")
	journal := play(t, e, lines)
	run := e.Result().Runs[0]
	if got := (run.To - run.From).Seconds() / 3600; math.Abs(got-8) > 1e-6 {
		t.Errorf("the bag lasted %v h, want 8", got)
	}
	var warned, empty Time
	for _, en := range journal {
		switch en.What {
		case "bag nearly empty":
			warned = en.At
		case "bag empty":
			empty = en.At
		}
	}
	if empty != run.To || empty-warned != p.Pumps[0].EmptyWarn {
		t.Errorf("warned at %s, empty at %s, run ended %s", warned.Exact(), empty.Exact(), run.To.Exact())
	}
}

// Nominal and true concentration: 4 mg in 4 mL added to 250 mL is labelled
// 16 mcg/mL (ISMP, "the need for standardizing critical care drug
// infusions") and is 15.75 mcg/mL in the bag (4 / 254, arithmetic).
func TestTheArmSeesTheTrueConcentration(t *testing.T) {
	c := testCase()
	c.Leak = Fate{Kind: NoLeak}
	e := newEngine(t, c, luckySeed(t, 1))
	play(t, e, setUp)
	b := e.Result().Bags[0]
	if b.Nominal != 16 || math.Abs(b.True-15.748) > 0.001 {
		t.Errorf("nominal %v, true %v", b.Nominal, b.True)
	}
	if r := e.Result().Runs[0]; math.Abs(r.McgMin-11.6*16/60) > 1e-9 {
		t.Errorf("the run is booked at %v mcg/min", r.McgMin)
	}
	if book := e.Book().Drugs[0]; math.Abs(book.Pumped-b.True*(254-bagLeft(e))) > 1e-6 {
		t.Errorf("%v mcg left a bag that gave %v mL", book.Pumped, 254-bagLeft(e))
	}
}

func bagLeft(e *Engine) float64 { return e.View().Infusions[0].LeftML }

// Rate of an order: 0.05 mcg/kg/min for 70 kg at 16 mcg/mL is 13.1 mL/h
// (dose x kg x 60 / concentration, the formula of the dopamine and dobutamine
// labels); a steady 50 mL/h at 16 mcg/mL is 13.3 mcg/min (Emerg Med J
// 10.1136/emermed-2023-213848).
func TestSumsFromTheEngine(t *testing.T) {
	c := testCase()
	c.Leak = Fate{Kind: NoLeak}
	c.Patient.WeightKG = 70
	c.Ask = []Question{
		{ID: "rate", When: "hang", What: SumRate, Point: "mL/h"},
		{ID: "dose", When: "start", What: SumDose, Point: "mcg/min"},
		{ID: "conc", When: "label", What: SumConcentration, Point: "mcg/mL"},
		{ID: "empty", When: "start", What: SumRunOut, Point: "h"},
	}
	e := newEngine(t, c, luckySeed(t, 1))
	play(t, e, strings.ReplaceAll(setUp, "set pump-1 to 11.6 mL/h", "set pump-1 to 50 mL/h"))
	want := map[string]float64{"rate": 13.125, "dose": 13.333, "conc": 16, "empty": 239.0 / 50}
	for _, a := range e.Result().Answers {
		if math.Abs(a.Key.Value-want[a.ID]) > 0.001 {
			t.Errorf("%s is %v, want %v", a.ID, a.Key, want[a.ID])
		}
		delete(want, a.ID)
	}
	if len(want) > 0 {
		t.Errorf("never asked: %v", want)
	}
}
