package main

import (
	"bytes"
	"encoding/json"
	"strings"
	"testing"

	"blanch/cmd/blanch/internal/cohort"
	"blanch/sim/symbol"
)

// A sign that never comes is told as never and has no number: a reader of the
// JSON would take -1 for a time.
func TestAnOutcomeThatNeverComesHasNoNumber(t *testing.T) {
	rows := []cohort.Assumption{{Symbol: symbol.Symbol{Name: "floor"}, Part: "sim/tissue", Drug: "norepinephrine", Base: []float64{-1}, AtLow: []float64{12}, AtHigh: []float64{-1}}}
	outcomes := []cohort.Outcome{{Name: "first sign after", Unit: "min"}}
	var text, document bytes.Buffer
	(&program{out: &text}).assumptionsAsText(rows, outcomes)
	if want := "first sign after: never; 12 at the low end, never at the high end"; !strings.Contains(text.String(), want) {
		t.Errorf("not %q in\n%s", want, text.String())
	}
	if err := (&program{out: &document}).assumptionsAsJSON(rows, outcomes); err != nil {
		t.Fatal(err)
	}
	var read []struct{ Outcomes []map[string]any }
	if err := json.Unmarshal(document.Bytes(), &read); err != nil {
		t.Fatal(err)
	}
	if one := read[0].Outcomes[0]; one["now"] != nil || one["at_low"] != 12.0 || one["at_high"] != nil || len(one) != 5 {
		t.Errorf("got %v, want null now and at the high end", one)
	}
}
