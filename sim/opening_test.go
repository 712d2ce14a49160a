package sim

import (
	"math"
	"strings"
	"testing"

	"blanch/sim/quantity"
	"blanch/sim/vein"
)

// handedOver is a case that opens with norepinephrine running.
func handedOver() *Case {
	c := testCase()
	c.InPlace = []InPlace{{Vein: "left-cephalic-forearm", Cannula: vein.Cannula{Gauge: 20, LengthMM: 47.8}, AngleDeg: 30}}
	c.Running = []Running{{Pump: "pump-1", Drug: "norepinephrine", Amount: quantity.Of(4, "mg"), BagML: 250, LeftML: 150, Line: "left-cephalic-forearm", MLH: 14}}
	c.Patient.Untreated = []Point{{0, 52}, {4 * Hour, 52}}
	return c
}

// What has run for long stands at its steady state, dose rate over clearance,
// and stays there while nothing is touched.
func TestRunningWhenItOpensIsSettled(t *testing.T) {
	c := handedOver()
	c.Leak = Fate{Kind: NoLeak}
	e := newEngine(t, c, 1)
	clearance := e.agents[e.ordered].K * e.agents[e.ordered].VolumeL // L/s
	want := 14.0 / 3600 * e.bags[0].True / clearance
	for _, at := range []Time{0, Minute, Hour, 3 * Hour} {
		e.Advance(at)
		f := e.fork()
		f.change(at)
		if got := f.blood[f.ordered]; math.Abs(got.Effect/want-1) > 1e-9 || math.Abs(got.Amount/e.agents[e.ordered].VolumeL/want-1) > 1e-9 {
			t.Errorf("at %s: effect site %g, blood %g, want %g per L", at.Clock(), got.Effect, got.Amount/e.agents[e.ordered].VolumeL, want)
		}
		if off := balance(t, e.Book()); off > 1e-9 {
			t.Errorf("at %s the books are off by %g", at.Clock(), off)
		}
	}
	r := e.Result()
	if len(r.Runs) != 1 || r.Runs[0].From != 0 || r.Lines[0].Pressor != 0 || r.Outcome.FirstDrug != 0 {
		t.Errorf("runs %+v, pressor from %d, first drug %d; want all from 0:00", r.Runs, r.Lines[0].Pressor, r.Outcome.FirstDrug)
	}
	if why := e.inStock("norepinephrine", 24); why != "" {
		t.Errorf("the bag that hung there is taken from the stock: %s", why)
	}
}

func TestRunningIsRefused(t *testing.T) {
	for want, change := range map[string]func(r *Running){
		"no pump called":        func(r *Running) { r.Pump = "pump-9" },
		"no line that is free":  func(r *Running) { r.Line = "right-hand" },
		"no dopamine in stock":  func(r *Running) { r.Drug = "dopamine" },
		"pump-1 runs already":   nil,
		"running when it opens": func(r *Running) { r.Pump = "" },
	} {
		c := handedOver()
		if change != nil {
			change(&c.Running[0])
		} else {
			c.Running = append(c.Running, c.Running[0])
		}
		if _, err := New(c, testPlace(), 1); err == nil || !strings.Contains(err.Error(), want) {
			t.Errorf("got %v, want an error with %q", err, want)
		}
	}
}

// A patient's own finding is shown where nothing is wrong, and a sign of a leak
// over it.
func TestFindingsOfThePatientsOwn(t *testing.T) {
	c := handedOver()
	c.Leak = Fate{Kind: Placed, Begins: 30 * Minute, Over: Minute, Fraction: 0.9}
	c.Veins[0].AsFound = map[string]string{"warmth": "cool, as all her skin is"}
	e := newEngine(t, c, 1)
	var before, after Entry
	for _, en := range play(t, e, `
0:01:00 feel around left-cephalic-forearm
1:30:00 feel around left-cephalic-forearm`) {
		if en.Kind == Found && en.What == "warmth" {
			if en.At < 30*Minute {
				before = en
			} else {
				after = en
			}
		}
	}
	if before.Word != "cool, as all her skin is" || !before.Own {
		t.Errorf("before the leak: %+v", before)
	}
	if after.Word != "cool" || after.Own {
		t.Errorf("after the leak: %+v", after)
	}
}

// An order that was not meant as written is put right once, by the prescriber
// alone.
func TestOrderIsMended(t *testing.T) {
	c := testCase()
	c.Mended = &Mended{Says: "I meant mcg/min.", Order: c.Order}
	c.Mended.Text, c.Mended.Start = "norepinephrine 4 mcg/min", quantity.Of(4, "mcg/min")
	e := newEngine(t, c, 1)
	var replies, orders []string
	for _, en := range play(t, e, `
0:00:30 send for second-nurse
0:03:00 query the order with second-nurse
0:05:00 query the order with doctor
0:07:00 query the order with doctor
0:09:00 read the order`) {
		switch {
		case en.Kind == Replied && en.Act == "query-order":
			replies = append(replies, en.Word)
		case en.Kind == Found && en.What == "order":
			orders = append(orders, en.Word)
		}
	}
	want := "That is not my order to change.|I meant mcg/min.|The order stands as I have just changed it."
	if got := strings.Join(replies, "|"); got != want {
		t.Errorf("got %q, want %q", got, want)
	}
	if len(orders) != 1 || orders[0] != "norepinephrine 4 mcg/min" || e.View().Order.Start != c.Mended.Start {
		t.Errorf("read %q, want the mended order", orders)
	}
}

// What runs when the case opens does not give away a sum that is still to be
// answered; a sum about another drug withholds nothing.
func TestTheOpeningWithholdsASum(t *testing.T) {
	c := handedOver()
	c.Ask = []Question{
		{ID: "dose", Text: "Which dose?", When: "read-pump", What: SumDose, Point: "mcg/min"},
		{ID: "empty", Text: "Empty when?", When: "read-pump", What: SumRunOut, Point: "h", Drug: "vasopressin"},
	}
	e := newEngine(t, c, 1)
	if in := e.View().Infusions[0]; in.McgMin != 0 || in.EmptyIn == Never {
		t.Errorf("shows %v mcg/min, empty in %v; want the dose alone withheld", in.McgMin, in.EmptyIn)
	}
	for _, step := range []string{"read pump-1", "give dose as 3.7 mcg/min"} {
		a, err := ParseAction(step)
		if err != nil {
			t.Fatal(err)
		}
		e.Do(a)
		e.Advance(Minute)
	}
	if in := e.View().Infusions[0]; in.McgMin == 0 {
		t.Error("the dose is withheld after the sum was answered")
	}
}

// A placed leak that names a drug comes to the line that carries it, counted
// from when it first ran there; the other line stays sound.
func TestTheLineOfADrugLeaks(t *testing.T) {
	c := handedOver()
	c.InPlace = append(c.InPlace, InPlace{Vein: "right-hand", Cannula: vein.Cannula{Gauge: 22, LengthMM: 25.4}, AngleDeg: 20})
	c.Also = []Order{{Text: "vasopressin", Drug: "vasopressin", Start: quantity.Of(0.03, "units/min"), Least: quantity.Of(0.01, "units/min"), Most: quantity.Of(0.04, "units/min")}}
	const second = `
0:50:00 mix 20 units of vasopressin in 100 mL, adding to the bag
0:55:00 hang bag-2 on pump-2
0:56:00 prime pump-2
0:57:05 connect pump-2 to right-hand
0:58:00 set pump-2 to 9 mL/h
1:00:00 start pump-2
2:00:00 call doctor about who, pressure asking for antidote`
	for _, f := range []struct {
		drug, script, leaks string
		at                  Time
	}{
		{"vasopressin", second, "right-hand", 85*Minute + 5*Second},
		{"norepinephrine", second, "left-cephalic-forearm", 25 * Minute},
		{"vasopressin", "", "", Never},
	} {
		c.Leak = Fate{Kind: Placed, Drug: f.drug, Begins: 25 * Minute, Over: Minute, Fraction: 0.9}
		e := newEngine(t, c, 1)
		reply := ""
		for _, en := range play(t, e, f.script) {
			if en.Kind == Replied {
				reply = en.Word
			}
		}
		if told := strings.Contains(reply, "no alpha blocker undoes"); told != (f.leaks == "right-hand") {
			t.Errorf("of %s: the doctor says %q", f.drug, reply)
		}
		switch tissue := e.Result().Tissue; {
		case f.leaks == "" && len(tissue) > 0, f.leaks != "" && (len(tissue) != 1 || tissue[0].Drug != f.drug || tissue[0].Amount <= 0):
			t.Errorf("of %s: into tissue went %v", f.drug, tissue)
		case f.drug == "norepinephrine" && tissue[0].Amount != e.Result().Outcome.TissueMcg:
			t.Errorf("into tissue went %v and %g mcg", tissue, e.Result().Outcome.TissueMcg)
		}
		for _, l := range e.Result().Lines {
			want := Never
			if l.Subject == f.leaks {
				want = f.at
			}
			if l.Leaks != want {
				t.Errorf("of %s: %s leaks at %s, want %s", f.drug, l.Subject, l.Leaks.Exact(), want.Exact())
			}
		}
	}
}

// A leak that is placed in a vein spares the drug that was moved away from it.
func TestALeakInAVein(t *testing.T) {
	for script, want := range map[string]map[string]Time{
		"":                                  {"left-cephalic-forearm": 25 * Minute, "right-hand": Never},
		"0:10:00 move pump-1 to right-hand": {"left-cephalic-forearm": Never, "right-hand": Never},
		"0:10:00 move pump-1 to right-hand\n0:40:00 move pump-1 to left-cephalic-forearm": {"left-cephalic-forearm": 40*Minute + 45*Second, "right-hand": Never},
	} {
		c := handedOver()
		c.InPlace = append(c.InPlace, InPlace{Vein: "right-hand", Cannula: vein.Cannula{Gauge: 22, LengthMM: 25.4}, AngleDeg: 20})
		c.Leak = Fate{Kind: Placed, Vein: "left-cephalic-forearm", Begins: 25 * Minute, Over: Minute, Fraction: 0.9}
		e := newEngine(t, c, 1)
		play(t, e, script)
		for _, l := range e.Result().Lines {
			if l.Leaks != want[l.Subject] {
				t.Errorf("%q: %s leaks at %s, want %s", script, l.Subject, l.Leaks.Exact(), want[l.Subject].Exact())
			}
		}
	}
}

// A cuff that cycles in no time is no cuff.
func TestACuffNeedsATime(t *testing.T) {
	for _, every := range []Time{0, -Minute} {
		p := testPlace()
		p.Cuff = every
		if _, err := New(testCase(), p, 1); err == nil || !strings.Contains(err.Error(), "the cuff cycles every") {
			t.Errorf("%s: %v", every.Exact(), err)
		}
	}
}
