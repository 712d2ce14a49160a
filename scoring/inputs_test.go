package scoring

import (
	"testing"

	"blanch/scenarios"
	"blanch/sim"
)

func TestInputsAndTheirScript(t *testing.T) {
	run := &sim.Result{Journal: []sim.Entry{
		{At: 0, Kind: sim.Started, Said: "read the order"},
		{At: 12 * minute, Kind: sim.Refused, Said: "start pump-1"},
		{At: 12*minute + 30*sim.Second + 125, Kind: sim.Started, Said: "glance at left-forearm"},
		{At: 13 * minute, Kind: sim.Done, Said: "glance at left-forearm"},
	}}
	text := Script(Inputs(run))
	if want := "at 0 min: read the order\nat 12 min: start pump-1\nat 750.125 s: glance at left-forearm\n"; text != want {
		t.Fatalf("got\n%swant\n%s", text, want)
	}
	steps, faults := scenarios.ParseSteps("run.txt", []byte(text))
	if len(faults) > 0 || len(steps) != 3 {
		t.Fatal(steps, faults)
	}
	for i, said := range Inputs(run) {
		if steps[i].At != said.At || steps[i].Said != said.Text {
			t.Errorf("%+v comes back as %+v", said, steps[i])
		}
	}
}
