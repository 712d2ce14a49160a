package sim

import (
	"strings"
	"testing"

	"blanch/sim/quantity"
)

// at carries out one sentence at a time and gives its refusal, or what the
// pump warned of.
func at(t *testing.T, e *Engine, when Time, said string) (refused, warned string) {
	t.Helper()
	e.Advance(when)
	a, err := ParseAction(said)
	if err != nil {
		t.Fatal(err)
	}
	from := len(e.journal)
	if en := e.Do(a)[0]; en.Kind == Refused {
		return en.Why, ""
	}
	e.Advance(e.HandsFree())
	for _, en := range e.journal[from:] {
		if en.Kind == Alarm && strings.Contains(en.What, "limit") {
			warned = en.Text()
		}
	}
	return "", warned
}

// changed builds an engine in a place that a test changed.
func changed(t *testing.T, change func(p *Place)) *Engine {
	t.Helper()
	p := testPlace()
	change(p)
	e, err := New(testCase(), p, 1)
	if err != nil {
		t.Fatal(err)
	}
	return e
}

// bagHung is a bag of 16 mcg/mL on pump-1.
const bagHung = `
0:00:00 mix 4 mg of norepinephrine in 250 mL, adding to the bag
0:04:00 hang bag-1 on pump-1
`

// 50 mL/h of 16 mcg/mL is 13.3 mcg/min (NHS Fife emergency department, Emerg
// Med J 10.1136/emermed-2023-213848), on a pump whose step is 1 mL/h.
func TestLibraryWarnsAndRefuses(t *testing.T) {
	e := changed(t, func(p *Place) {
		p.Pumps[0].StepMLH = 1
		p.Pumps[0].Library = []DrugLimit{{Drug: "norepinephrine",
			Soft: DoseRange{Least: quantity.Of(2, "mcg/min"), Most: quantity.Of(13.3, "mcg/min")},
			Hard: DoseRange{Most: quantity.Of(13.6, "mcg/min")}}}
	})
	follow(t, e, bagHung)
	for i, tc := range []struct{ rate, refused, warned string }{
		{"49 mL/h", "", ""}, // 13.1 mcg/min
		{"50 mL/h", "", "Alarm on pump-1: 13.3 mcg/min of norepinephrine is over its soft limit of 13.3 mcg/min; it takes the rate all the same."},
		{"51 mL/h", "", "Alarm on pump-1: 13.6 mcg/min of norepinephrine is over its soft limit of 13.3 mcg/min; it takes the rate all the same."}, // 13.6 exactly
		{"52 mL/h", "pump-1 refuses: 13.9 mcg/min of norepinephrine is over its hard limit of 13.6 mcg/min", ""},
		{"51.4 mL/h", "", ""}, // rounds to 51, which it has warned of
		{"51.6 mL/h", "pump-1 refuses: 13.9 mcg/min of norepinephrine is over its hard limit of 13.6 mcg/min", ""},
		{"7 mL/h", "", "Alarm on pump-1: 1.87 mcg/min of norepinephrine is under its soft limit of 2 mcg/min; it takes the rate all the same."},
		{"0 mL/h", "pump-1 takes no rate under 1 mL/h; to give nothing, stop pump-1", ""},
	} {
		refused, warned := at(t, e, 10*Minute+Time(i)*Minute, "set pump-1 to "+tc.rate)
		if refused != tc.refused || warned != tc.warned {
			t.Errorf("%s: refused %q, warned %q", tc.rate, refused, warned)
		}
	}
	if refused, _ := at(t, e, 30*Minute, "set pump-2 to 900 mL/h"); refused != "" {
		t.Errorf("a pump without a library refuses: %s", refused)
	}
}

// 0.5 mcg/kg/min programmed for 0.5 mcg/min is a slip that has stopped a
// heart (AHRQ PSNet, May 2021): 31 mcg/min at 62 kg, where the order ends at
// 12.4. A limit per kg catches it at that weight.
func TestLibraryReckonsByWeight(t *testing.T) {
	e := changed(t, func(p *Place) {
		p.Pumps[0].Library = []DrugLimit{{Drug: "norepinephrine",
			Soft: DoseRange{Most: quantity.Of(0.25, "mcg/kg/min")}, Hard: DoseRange{Most: quantity.Of(0.4, "mcg/kg/min")}}}
	})
	follow(t, e, bagHung)
	// 0.25 x 62 x 60 / 16 = 58.125 mL/h; 0.4 x 62 x 60 / 16 = 93 mL/h.
	for i, tc := range []struct {
		rate            string
		refused, warned bool
	}{{"58.1 mL/h", false, false}, {"58.2 mL/h", false, true}, {"93 mL/h", false, true}, {"93.1 mL/h", true, false}, {"116.3 mL/h", true, false}} {
		refused, warned := at(t, e, 10*Minute+Time(i)*Minute, "set pump-1 to "+tc.rate)
		if (refused != "") != tc.refused || (warned != "") != tc.warned {
			t.Errorf("%s: refused %q, warned %q", tc.rate, refused, warned)
		}
	}
	refused, _ := at(t, e, 20*Minute, "set pump-1 to 116.3 mL/h")
	if want := "pump-1 refuses: 0.5 mcg/kg/min of norepinephrine is over its hard limit of 0.4 mcg/kg/min"; refused != want {
		t.Errorf("it says %q, want %q", refused, want)
	}
}

// A rate that was set before the bag hung is held to the library at the start.
func TestLibraryLooksAgainAtTheStart(t *testing.T) {
	limits := []DrugLimit{{Drug: "norepinephrine", Soft: DoseRange{Most: quantity.Of(5, "mcg/min")}, Hard: DoseRange{Most: quantity.Of(10, "mcg/min")}}}
	for _, tc := range []struct {
		rate            string
		refused, warned bool
	}{{"18 mL/h", false, false}, {"30 mL/h", false, true}, {"40 mL/h", true, false}} {
		e := changed(t, func(p *Place) { p.Pumps[0].Library = limits })
		early := strings.Replace(setUp, "0:16:40 set pump-1 to 11.6 mL/h\n0:16:55 start pump-1\n", "", 1)
		early = strings.Replace(early, "0:14:30 hang", "0:14:20 set pump-1 to "+tc.rate+"\n0:14:36 hang", 1)
		early = strings.Replace(early, "0:15:10 give rate as 11.6 mL/h\n0:15:10 prime", "0:15:20 prime", 1)
		early = strings.Replace(early, "0:16:10 connect", "0:16:25 connect", 1)
		follow(t, e, early)
		refused, warned := at(t, e, 18*Minute, "start pump-1")
		if (refused != "") != tc.refused || (warned != "") != tc.warned {
			t.Errorf("%s: refused %q, warned %q", tc.rate, refused, warned)
		}
		if e.pumps[0].running == tc.refused {
			t.Errorf("%s: running is %v", tc.rate, e.pumps[0].running)
		}
	}
}
