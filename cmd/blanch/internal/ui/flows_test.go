package ui

import (
	"strings"
	"testing"

	"blanch/cmd/blanch/internal/session"
)

// TestWhatRunsStaysInSight with the rate of each, at any height that has a row
// for each of them, and what carries nothing gives way first.
func TestWhatRunsStaysInSight(t *testing.T) {
	runs := func(name, pump, drug, rate string) session.Flow {
		return session.Flow{
			Name: name, About: "20 gauge, 47.8 mm", Pump: pump, Drug: drug, What: pump + ", bag-1, " + drug + " 16 mcg/mL",
			Rate: rate + ", running", Empties: "bag empties in 19 h 20 min", Looked: "looked at 18 min ago, not felt yet", Felt: "not felt yet", Runs: true,
		}
	}
	still := session.Flow{Name: "right-dorsal-hand", About: "22 gauge, 25.4 mm", What: "nothing connected", Looked: "looked at 2 min ago, not felt yet"}
	b := session.Board{Flows: []session.Flow{
		runs("left-cephalic-forearm", "pump-1", "norepinephrine", "12 mL/h = 3.2 mcg/min"), runs("central", "pump-2", "vasopressin", "9 mL/h = 0.03 units/min"), still,
	}}
	for h := 2; h <= 30; h++ {
		rows := flowsIn(b, 38, h)
		var text []string
		for _, r := range rows {
			text = append(text, r.text)
		}
		all := strings.Join(text, "\n")
		if len(rows) > h {
			t.Errorf("%d rows where there are %d:\n%s", len(rows), h, all)
		}
		for _, want := range []string{"left-cephalic-forearm", "12 mL/h", "central", "9 mL/h"} {
			if !strings.Contains(all, want) {
				t.Errorf("%d rows have no %q:\n%s", h, want, all)
			}
		}
		for _, want := range map[int][]string{
			6:  {"norepinephrine", "vasopressin", "pump-1, 12 mL/h = 3.2 mcg/min", "pump-2, 9 mL/h = 0.03 units/min", "looked at 18 min ago"},
			7:  {"right-dorsal-hand"},
			20: {"bag empties", "right-dorsal-hand"},
		}[h] {
			if !strings.Contains(all, want) {
				t.Errorf("%d rows have no %q:\n%s", h, want, all)
			}
		}
	}
}

// TestTwoPumpsAtTheBed are both on a screen of 80 by 24.
func TestTwoPumpsAtTheBed(t *testing.T) {
	d := sit(t, 80, 24)
	d.press("Down", "Enter", "End", "Enter").start()
	d.say("choose left-cephalic-forearm with 20 gauge 47.8 mm at 30 degrees", "insert the cannula under ultrasound",
		"mix 4 mg of norepinephrine in 250 mL, adding to the bag", "hang bag-2 on pump-2", "prime pump-2", "set pump-2 to 7.5 mL/h", "connect pump-2 to left-cephalic-forearm primed to the tip", "start pump-2")
	d.want("pump-1, 12 mL/h", "pump-2, 7.5 mL/h", "right-dorsal-hand", "left-cephalic-forearm")
}
