package scoring

import (
	"testing"

	"blanch/sim"
)

func TestVerdictsOnAnyLine(t *testing.T) {
	r := testRun()
	did(r, 50*minute, "judge", "left-forearm", "sound", 0)
	did(r, 100*minute, "judge", "right-hand", "blocked", 0) // before it carried anything
	for _, tc := range []struct{ hole, want string }{
		{`judged("sound")`, "0:50"},
		{`judged("leaking")`, "1:42"},
		{`judged("blocked")`, "never"},
	} {
		if got := under(t, testPolicy(), r, tc.hole); got != tc.want {
			t.Errorf("%s: %s, want %s", tc.hole, got, tc.want)
		}
	}
	if got := under(t, testPolicy(), emptyRun(), `judged("sound")`); got != "never" {
		t.Errorf("nothing was judged, and it says %s", got)
	}
}

// In the test run the dose is raised once through the arm, at 1:20; it is
// felt at 0:35 and 1:40, and raised again only through the central line.
func TestRaisesWithoutALook(t *testing.T) {
	for _, tc := range []struct {
		hole, want string
		add        func(r *sim.Result)
	}{
		{`raised_without("feel", minutes(10))`, "1", nil},
		{`raised_without("feel", minutes(45))`, "0", nil},
		{`raised_without("feel", minutes(44))`, "1", nil},
		{`raised_without("look-over", hours(4))`, "1", nil},
		{`raised_without("feel", minutes(10))`, "0", func(r *sim.Result) { did(r, 75*minute, "feel", "left-forearm", "", 0) }},
		{`raised_without("feel", minutes(10))`, "1", func(r *sim.Result) { did(r, 75*minute, "feel", "right-hand", "", 0) }},
		{`raised_without("feel", minutes(10))`, "1", func(r *sim.Result) { did(r, 81*minute, "feel", "left-forearm", "", 0) }},
		{`raised_without("look-over", minutes(10))`, "0", func(r *sim.Result) { did(r, 75*minute, "look-over", "patient", "", 0) }},
		{`raised_without("read-pump", minutes(10))`, "0", func(r *sim.Result) { did(r, 75*minute, "read-pump", "pump-1", "", 0) }},
		{`raised_without("feel", minutes(10))`, "0", func(r *sim.Result) { r.Runs[1].McgMin = 3 }},
		{`raised_without("feel", minutes(10))`, "0", func(r *sim.Result) { r.Runs[1].Pump = "pump-3" }},
	} {
		r := testRun()
		if tc.add != nil {
			tc.add(r)
		}
		if got := under(t, testPolicy(), r, tc.hole); got != tc.want {
			t.Errorf("%s: %s, want %s", tc.hole, got, tc.want)
		}
	}
}

func TestPulledWhileInUse(t *testing.T) {
	for _, tc := range []struct {
		at   sim.Time
		line string
		want string
	}{
		{60 * minute, "left-forearm", "1"},                // the drug ran through it
		{105*minute + 30*sim.Second, "left-forearm", "1"}, // it stood
		{130 * minute, "left-forearm", "0"},               // it ran through the hand
		{130 * minute, "right-hand", "1"},
		{200 * minute, "right-hand", "0"}, // it ran through the central line
		{65 * minute, "right-hand", "0"},  // it had carried nothing yet
	} {
		r := testRun()
		did(r, tc.at, "pull", tc.line, "", 0)
		if got := under(t, testPolicy(), r, "pulled_in_use"); got != tc.want {
			t.Errorf("%s pulled at %s: %s, want %s", tc.line, tc.at.Clock(), got, tc.want)
		}
	}
}

// In the test run the pumps stand from 1:45 to 1:46 and while the infusion
// moves to the central line, at 2:30.
func TestTimeWithoutInfusion(t *testing.T) {
	for _, tc := range []struct {
		want   string
		change func(r *sim.Result)
	}{
		{"1 min 45 s", func(r *sim.Result) {}},
		{"1 min", func(r *sim.Result) { r.Runs[2].To = 151 * minute }},
		{"0 s", func(r *sim.Result) { r.Runs[0].To = 240 * minute }}, // two pumps at once
		{"31 min 45 s", func(r *sim.Result) { r.Runs[3].To = 210 * minute }},
		{"6 min 45 s", func(r *sim.Result) { r.Lines[1].Removed = 100 * minute }}, // it ran on into the bed
	} {
		r := testRun()
		tc.change(r)
		if got := under(t, testPolicy(), r, "time_without_infusion"); got != tc.want {
			t.Errorf("%s, want %s", got, tc.want)
		}
	}
	if got := under(t, testPolicy(), emptyRun(), "time_without_infusion"); got != "never" {
		t.Errorf("where nothing ran: %s", got)
	}
}

// One drug may go from pump to pump and from line to line: what counts is
// whether some pump ran it.
func TestLongestWithoutADrug(t *testing.T) {
	for _, tc := range []struct {
		hole, want string
		change     func(r *sim.Result)
	}{
		{`longest_without("norepinephrine", start, ended)`, "1 min", func(r *sim.Result) {}},
		{`longest_without("norepinephrine", start + hours(2), ended)`, "45 s", func(r *sim.Result) {}},
		{`longest_without("norepinephrine", ordered, start)`, "20 min", func(r *sim.Result) {}},
		{`longest_without("norepinephrine", start, ended)`, "45 s", func(r *sim.Result) { r.Runs[1].To = 107 * minute }}, // the next pump ran before this one stopped
		{`longest_without("norepinephrine", start, ended)`, "30 min", func(r *sim.Result) { r.Runs[3].To = 210 * minute }},
		{`longest_without("norepinephrine", start, ended)`, "44 min 45 s", func(r *sim.Result) { r.Bags[1].Drug = "vasopressin"; r.Runs[1].To, r.Runs[3].Bag = 106*minute, "bag-1" }},
		{`longest_without("norepinephrine", recognised, ended)`, "never", func(r *sim.Result) { r.Journal = nil }},
	} {
		r := testRun()
		tc.change(r)
		if got := under(t, testPolicy(), r, tc.hole); got != tc.want {
			t.Errorf("%s: %s, want %s", tc.hole, got, tc.want)
		}
	}
	if got := under(t, testPolicy(), emptyRun(), `longest_without("norepinephrine", ordered, ended)`); got != "4 h" {
		t.Errorf("where nothing ran: %s", got)
	}
}
