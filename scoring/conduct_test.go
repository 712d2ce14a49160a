package scoring

import (
	"testing"

	"blanch/scenarios"
	"blanch/sim"
	"blanch/sim/quantity"
)

// fullPolicy says everything that a policy may leave out.
func fullPolicy() *scenarios.Policy {
	p := testPolicy()
	p.LeastVeinMM, p.DosingWeight, p.SharedWith = 4, "ideal", "flush"
	p.ChangeBagAfter, p.BloodReturn = 2*sim.Hour, "never"
	p.AntidoteFor, p.Scale = []string{"blanching", "coolness"}, "infiltration scale"
	p.OtherAntidotes = map[string][2]float64{"terbutaline": {0.5, 1}}
	p.SecondChecks = scenarios.SecondCheckMoments
	p.CallFor = scenarios.CallFor{Over: map[string]float64{"norepinephrine": 6}, Vasopressors: 2, Tries: 2}
	return p
}

// under reads what a hole shows of a run under a policy.
func under(t *testing.T, p *scenarios.Policy, r *sim.Result, source string) string {
	t.Helper()
	text := scenarios.Text{Source: source}
	x, faults := compile(referenceCase(), p, text, true, text.At)
	if len(faults) > 0 {
		t.Fatalf("%s: %s", source, faults[0].Said)
	}
	return format(x.of(&record{Result: r, policy: p}).answer())
}

// did adds what was done to the test run.
func did(r *sim.Result, at sim.Time, act, subject, word string, value float64) {
	r.Journal = append(r.Journal, sim.Entry{At: at, Kind: sim.Done, Act: act, Subject: subject, Word: word, Value: value})
}

func TestSecondChecksAtEachMoment(t *testing.T) {
	hang := func(r *sim.Result) { did(r, 100*minute, "hang", "pump-2", "", 0) }
	for _, tc := range []struct {
		what   string
		missed string // in the test run, where bag-1 alone was checked
		mend   func(r *sim.Result)
		first  string // second_check once mended
	}{
		{"bag", "1", func(r *sim.Result) { did(r, 104*minute, "check-bag", "bag-2", "", 0) }, "0:15"},
		{"pump", "2", func(r *sim.Result) {
			did(r, 19*minute, "check-pump", "pump-1", "", 0)
			did(r, 104*minute, "check-pump", "pump-2", "", 0)
		}, "0:19"},
		{"set-up", "1", func(r *sim.Result) { did(r, 19*minute, "check-pump", "pump-1", "", 0) }, "0:19"},
		{"new-bag", "1", func(r *sim.Result) { did(r, 104*minute, "check-bag", "bag-2", "", 0) }, "1:44"},
		{"new-concentration", "1", func(r *sim.Result) { hang(r); did(r, 104*minute, "check-pump", "pump-2", "", 0) }, "1:44"},
		{"changeover", "1", func(r *sim.Result) { did(r, 160*minute, "check-pump", "pump-2", "", 0) }, "2:40"},
		{"handover", "1", func(r *sim.Result) { did(r, 230*minute, "check-pump", "pump-2", "", 0) }, "3:50"},
	} {
		missed := `missed_second_checks("` + tc.what + `")`
		if got := under(t, fullPolicy(), testRun(), missed); got != tc.missed {
			t.Errorf("%s: missed %s, want %s", tc.what, got, tc.missed)
		}
		r := testRun()
		tc.mend(r)
		if got := under(t, fullPolicy(), r, missed); got != "0" {
			t.Errorf("%s: missed %s once it was checked", tc.what, got)
		}
		if got := under(t, fullPolicy(), r, `second_check("`+tc.what+`")`); got != tc.first {
			t.Errorf("%s: first checked %s, want %s", tc.what, got, tc.first)
		}
		if got := under(t, fullPolicy(), emptyRun(), missed); got != "0" {
			t.Errorf("%s: missed %s where nothing ran", tc.what, got)
		}
		if got := under(t, fullPolicy(), emptyRun(), `policy.wants_second_check("`+tc.what+`")`); got != "yes" {
			t.Errorf("%s is not wanted", tc.what)
		}
	}
	// What ran when the case opened was for others to check.
	taken := testRun()
	taken.Bags[0].Entry = -1
	for what, want := range map[string]string{"bag": "1", "pump": "1", "set-up": "0", "new-bag": "1", "new-concentration": "1", "changeover": "1"} {
		if got := under(t, fullPolicy(), taken, `missed_second_checks("`+what+`")`); got != want {
			t.Errorf("%s, of an infusion that was taken over: missed %s, want %s", what, got, want)
		}
	}
	// Checked too early or too late, or on the other pump, is not checked.
	for _, late := range []struct {
		what, act, subject string
		at                 sim.Time
	}{
		{"bag", "check-bag", "bag-2", 107 * minute},
		{"set-up", "check-pump", "pump-2", 19 * minute},
		{"new-concentration", "check-pump", "pump-2", 99 * minute}, // before it was hung
		{"changeover", "check-pump", "pump-2", 149 * minute},
		{"handover", "check-pump", "pump-2", 150 * minute}, // the line has changed since
	} {
		r := testRun()
		hang(r)
		did(r, late.at, late.act, late.subject, "", 0)
		if got := under(t, fullPolicy(), r, `missed_second_checks("`+late.what+`")`); got != "1" {
			t.Errorf("%s: %s of %s at %s passes", late.what, late.act, late.subject, late.at.Clock())
		}
	}
}

func TestConductUnderAPolicy(t *testing.T) {
	full, silent := fullPolicy(), testPolicy()
	syringe := func(r *sim.Result, drug string, nominal float64) {
		r.Bags[2].Drug, r.Bags[2].Nominal = drug, nominal
	}
	for _, tc := range []struct {
		source       string
		change       func(r *sim.Result)
		full, silent string // under a policy that says everything, and one that does not
	}{
		{`shared_line("flush")`, nil, "0", "0"},
		{`shared_line("flush")`, func(r *sim.Result) { did(r, 112*minute, "flush", "left-forearm", "", 10) }, "1", "1"},
		{`shared_line("flush")`, func(r *sim.Result) { did(r, 12*minute, "flush", "left-forearm", "", 10) }, "0", "0"}, // nothing had run
		{`shared_line("other-vasopressor")`, nil, "0", "0"},
		{`shared_line("other-vasopressor")`, func(r *sim.Result) { r.Runs[1].Bag, r.Bags[1].Drug = "bag-2", "vasopressin" }, "1", "1"},
		{`policy.may_share("flush")`, nil, "yes", "yes"},
		{`policy.may_share("other-vasopressor")`, nil, "no", "yes"},
		{`oldest_bag`, func(r *sim.Result) { r.Bags[0].MixedAt, r.Bags[1].MixedAt = 14*minute, 95*minute }, "2 h 25 min", "2 h 25 min"},
		{`oldest_bag <= policy.change_bag_after`, func(r *sim.Result) { r.Bags[0].MixedAt, r.Bags[1].MixedAt = 14*minute, 95*minute }, "no", "yes"},
		{`blood_return_while_running`, func(r *sim.Result) {
			did(r, 12*minute, "blood-return", "left-forearm", "", 0)
			did(r, 40*minute, "blood-return", "left-forearm", "", 0)
		}, "1", "1"},
		{`policy.allows_blood_return`, nil, "no", "yes"},
		{`policy.wants_blood_return`, nil, "no", "no"},
		{`longest_gap_without_blood_return(start, start + minutes(60))`, func(r *sim.Result) { did(r, 40*minute, "blood-return", "left-forearm", "", 0) }, "40 min", "40 min"},
		{`antidote_wanted`, nil, "never", "1:40"}, // it swelled and never paled
		{`antidote_wanted`, func(r *sim.Result) {
			r.Journal = append(r.Journal, sim.Entry{At: 104 * minute, Kind: sim.Found, Act: "uncover", Subject: "left-forearm", What: "colour", Word: "pale", Value: 20})
		}, "1:44", "1:40"},
		{`antidote_accepted`, nil, "yes", "yes"}, // 8 mL of 1 mg/mL
		{`antidote_accepted`, func(r *sim.Result) { syringe(r, "phentolamine", 2000) }, "no", "no"},
		{`antidote_accepted`, func(r *sim.Result) { syringe(r, "terbutaline", 100) }, "yes", "no"}, // 0.8 mg
		{`antidote_accepted`, func(r *sim.Result) { syringe(r, "terbutaline", 200) }, "no", "no"},
		{`antidote_mg`, func(r *sim.Result) { syringe(r, "terbutaline", 100) }, "0 mcg", "0 mcg"},
		{`leak_graded`, func(r *sim.Result) { did(r, 110*minute, "write", "notes", "Leak, Grade 4, 3 cm", 0) }, "yes", "yes"},
		{`leak_graded`, func(r *sim.Result) { did(r, 90*minute, "write", "notes", "grade 4", 0) }, "no", "no"}, // before it was recognised
		{`leak_graded`, func(r *sim.Result) { did(r, 110*minute, "write", "notes", "graded by eye", 0) }, "no", "no"},
		{`policy.scale`, nil, "infiltration scale", scenarios.Unsaid},
		{`policy.wants_scale`, nil, "yes", "no"},
		{`central_wanted`, nil, "1:20", "never"},                                                   // 6.4 mcg/min is over 6
		{`central_wanted`, func(r *sim.Result) { r.Lines[2].Placed = sim.Never }, "1:00", "never"}, // two failed tries
		{`central_wanted`, func(r *sim.Result) {
			r.Runs[1].McgMin, r.Runs[2].McgMin, r.Runs[3].McgMin = 5, 5, 5
			r.Bags[1].Drug, r.Runs[2].From = "vasopressin", 104*minute
		}, "1:44", "never"}, // both run for a minute
		{`policy.central_dose`, nil, "6 mcg/min", "not known"},
		{`first_line.vein_wide_enough`, func(r *sim.Result) { r.Lines[1].Vein.DiameterMM = 3.9 }, "no", "yes"},
		{`time_on_poor_line`, func(r *sim.Result) { r.Lines[1].Vein.DiameterMM = 3.9 }, "2 h 9 min", "44 min"},
		{`first_line.vein_width`, func(r *sim.Result) { r.Lines[1].Vein.DiameterMM = 4 }, "4 mm", "4 mm"},
		// 0.05 mcg/kg/min at 64 kg, and at an ideal weight of 50 kg.
		{`order.start_dose`, func(r *sim.Result) { r.Case.Patient.IdealKG = 50 }, "2.5 mcg/min", "3.2 mcg/min"},
		{`order.start_dose`, nil, "3.2 mcg/min", "3.2 mcg/min"}, // the case gives no ideal weight
		{`policy.dosing_weight`, nil, "ideal", "actual"},
		{`time_peripheral <= policy.longest_run`, nil, "yes", "yes"},
	} {
		for i, p := range []*scenarios.Policy{full, silent} {
			r := testRun()
			if tc.change != nil {
				tc.change(r)
			}
			if got, want := under(t, p, r, tc.source), []string{tc.full, tc.silent}[i]; got != want {
				t.Errorf("%s under policy %d: %s, want %s", tc.source, i, got, want)
			}
		}
	}
}

// A policy without an end passes every length of run, and says so.
func TestNoEndToARun(t *testing.T) {
	p := testPolicy()
	p.LongestRun = 0
	if got := under(t, p, testRun(), `time_peripheral <= policy.longest_run`); got != "yes" {
		t.Errorf("a run is too long for a policy without an end: %s", got)
	}
	if got := under(t, p, testRun(), `policy.longest_run`); got != "no set time" {
		t.Errorf("no end reads %q", got)
	}
	p.LongestRun = sim.Hour
	if got := under(t, p, testRun(), `time_peripheral <= policy.longest_run`); got != "no" {
		t.Error("two hours fit into one")
	}
}

// The key of a rate follows the policy's weight where its own order is by the
// kilogram: mL/h = dose x kg x 60 / concentration (US dopamine and dobutamine
// labels), so 0.05 x 50 x 60 / 16 = 9.375 where the actual 64 kg give 12. The
// first order of the case is by the kilogram, whatever this sum was asked of.
func TestKeyFollowsTheDosingWeight(t *testing.T) {
	for _, test := range []struct {
		dose           string // of the order that the sum was asked of
		key            float64
		given          string
		actual, ideal  string // the key by each weight
		rightByIdealKG string
	}{
		{"0.05 mcg/kg/min", 12, "9.4 mL/h", "12 mL/h", "9.4 mL/h", "yes"},
		{"3.2 mcg/min", 12, "12 mL/h", "12 mL/h", "12 mL/h", "yes"},
		{"0.03 units/min", 9, "9 mL/h", "9 mL/h", "9 mL/h", "yes"},
		{"0.0005 units/kg/min", 9.6, "9.6 mL/h", "9.6 mL/h", "7.5 mL/h", "no"},
	} {
		r := testRun()
		r.Case.Patient.IdealKG = 50
		dose, err := quantity.Parse(test.dose)
		if err != nil {
			t.Fatal(err)
		}
		given, err := quantity.Parse(test.given)
		if err != nil {
			t.Fatal(err)
		}
		from := &sim.Inputs{Kind: "rate", Given: map[string]quantity.Quantity{"dose": dose, "weight": quantity.Of(64, "kg")}}
		r.Answers = []sim.AnswerRecord{{ID: "rate", Sum: sim.SumRate, From: from, Key: quantity.Of(test.key, "mL/h"), Raw: test.given, Given: given, At: 160 * minute, Entry: 23}}
		if key := under(t, testPolicy(), r, `key_of("rate")`); key != test.actual {
			t.Errorf("%s by the actual weight: key %s, want %s", test.dose, key, test.actual)
		}
		if key, right := under(t, fullPolicy(), r, `key_of("rate")`), under(t, fullPolicy(), r, `right("rate")`); key != test.ideal || right != test.rightByIdealKG {
			t.Errorf("%s by the ideal weight: key %s, right %s; want %s, %s", test.dose, key, right, test.ideal, test.rightByIdealKG)
		}
	}
}
