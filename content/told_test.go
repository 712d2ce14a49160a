package content

import (
	"slices"
	"strings"
	"testing"

	"blanch/scenarios"
	"blanch/sim"
)

func eachCase(t *testing.T, hold func(t *testing.T, c *scenarios.Case)) {
	t.Helper()
	for _, id := range Cases() {
		c, _, err := LoadCase(id)
		if err != nil || c == nil {
			t.Fatalf("case %s: %v", id, err)
		}
		t.Run(id, func(t *testing.T) { hold(t, c) })
	}
}

// Nobody is surprised by the handover or by the end: both are told at the bed.
func TestHandoverAndEndAreTold(t *testing.T) {
	eachCase(t, func(t *testing.T, c *scenarios.Case) {
		tells := func(from, to sim.Time) bool {
			return slices.ContainsFunc(c.Planned, func(h sim.Happening) bool { return h.Does == sim.Tells && from <= h.At && h.At <= to })
		}
		if !tells(c.Relief, c.Relief) {
			t.Errorf("nothing tells at %s that the patient can be handed over", c.Relief.Clock())
		}
		if !tells(c.Ends-10*sim.Minute, c.Ends-5*sim.Minute) {
			t.Errorf("nothing tells 5 to 10 min before %s that the case ends", c.Ends.Clock())
		}
	})
}

// What calls are told is shown in quotes, as said by whoever called.
func TestCallsDoNotSayYou(t *testing.T) {
	eachCase(t, func(t *testing.T, c *scenarios.Case) {
		for _, call := range c.Calls {
			for _, said := range []string{call.Answered, call.Declined} {
				if strings.HasPrefix(said, "You ") {
					t.Errorf("%s: %q reads as if the caller had done it", call.ID, said)
				}
			}
		}
	})
}

// A bag that runs when a case opens has lost what filled the tubing, and the
// briefing's hours at the opening rate: about that, for the rate may have been
// another before.
func TestOpeningBagsFitTheHours(t *testing.T) {
	hours := map[string]float64{"two-pumps": 2, "bay-four": 1, "early-shift": 2.5, "deep-vein": 40.0 / 60}
	eachCase(t, func(t *testing.T, c *scenarios.Case) {
		place, _, err := LoadPlace(c.Place)
		if err != nil {
			t.Fatal(err)
		}
		for _, r := range c.Running {
			h, known := hours[c.ID]
			if !known {
				t.Fatalf("no hours are known for %s: read its briefing", c.ID)
			}
			gone := r.BagML - r.LeftML
			if want := h*r.MLH + place.TubingML; gone < want-6 || gone > want+6 {
				t.Errorf("%s: %g mL are gone, and %g h at %g mL/h with the tubing come to %g mL", r.Pump, gone, h, r.MLH, want)
			}
		}
	})
}
