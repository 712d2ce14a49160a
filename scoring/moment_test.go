package scoring

import (
	"reflect"
	"testing"

	"blanch/sim"
)

// Never is later than every moment, and a span with never in it is never
// over: it fails <= and <, and passes >= and >.
func TestNever(t *testing.T) {
	known, never := momentAt(5*minute), Moment{}
	for _, tc := range []struct {
		name        string
		left, right any
		less        bool
		more        bool
	}{
		{"a known moment before never", known, never, true, false},
		{"never after a known moment", never, known, false, true},
		{"never against never", never, never, false, true},
		{"a known span under one never over", spanOf(minute), never.since(known), true, false},
		{"found never", never.since(known), spanOf(minute), false, true},
		{"visible never", known.since(never), spanOf(minute), false, true},
		{"both never", never.since(never), never.since(never), false, true},
		{"never and a span", never.plus(spanOf(minute)), known, false, true},
		{"a moment and a span never over", known.plus(Span{}), known, false, true},
	} {
		for _, orEqual := range []bool{false, true} {
			if got := compared("<", tc.left, tc.right, orEqual); got != tc.less {
				t.Errorf("%s: less (or equal %v) is %v", tc.name, orEqual, got)
			}
			if got := compared(">", tc.left, tc.right, orEqual); got != tc.more {
				t.Errorf("%s: more (or equal %v) is %v", tc.name, orEqual, got)
			}
		}
	}
	if compared("<", known, known, false) || !compared("<", known, known, true) || compared(">", known, known, false) || !compared(">", known, known, true) {
		t.Error("a moment is at most and at least itself, and neither before nor after")
	}
}

// compared is what a comparison of the table says of two values.
func compared(symbol string, left, right any, orEqual bool) bool {
	if orEqual {
		symbol += "="
	}
	return operationFor(symbol, reflect.TypeOf(left), reflect.TypeOf(right)).do(left, right).(bool)
}

func TestUnknownAmountFailsEveryComparison(t *testing.T) {
	for _, orEqual := range []bool{false, true} {
		for _, pair := range [][2]any{
			{Share{unknown}, Share{0.5}}, {Share{0.5}, Share{unknown}}, {Dose{v: unknown}, Dose{v: unknown}},
		} {
			if compared("<", pair[0], pair[1], orEqual) || compared(">", pair[0], pair[1], orEqual) {
				t.Errorf("%v against %v holds", pair[0], pair[1])
			}
		}
	}
}

func TestValuesAsText(t *testing.T) {
	for _, tc := range []struct {
		value any
		want  string
	}{
		{momentAt(65*minute + 59*sim.Second), "1:05"},
		{momentAt(0), "0:00"},
		{Moment{}, "never"},
		{spanOf(45 * sim.Second), "45 s"},
		{spanOf(12 * minute), "12 min"},
		{spanOf(65 * minute), "1 h 5 min"},
		{spanOf(15*minute + sim.Second), "15 min 1 s"}, // just over a limit, not at it
		{spanOf(3 * sim.Hour), "3 h"},
		{spanOf(2*minute + 400), "2 min 0.4 s"}, // fails <= 2 min, and says why
		{spanOf(2*minute + 1), "2 min 0.1 s"},
		{spanOf(2*minute - 1), "1 min 59.9 s"}, // fails >= 2 min
		{spanOf(59*sim.Second + 640), "59.6 s"},
		{spanOf(400), "0.4 s"},
		{spanOf(0), "0 s"},
		{spanOf(-90 * sim.Second), "minus 1 min 30 s"},
		{Span{}, "never"},
		{Share{0.81}, "81 %"},
		{Share{0.646}, "64.6 %"},
		{Share{0.005}, "0.5 %"},
		{Share{unknown}, "not known"},
		{Dose{v: 3.2}, "3.2 mcg/min"},
		{Dose{0.03, true}, "0.03 units/min"},
		{Concentration{v: 16}, "16 mcg/mL"},
		{Concentration{0.2, true}, "0.2 units/mL"},
		{Pressure{64.6}, "65 mmHg"},
		{Mass{5}, "5 mg"},
		{Mass{0.3}, "300 mcg"},
		{Volume{9.95}, "10 mL"},
		{Length{29.5}, "29.5 mm"},
		{true, "yes"},
		{3, "3"},
		{0.1, "0.1"},
	} {
		if got := format(tc.value); got != tc.want {
			t.Errorf("%#v is written %q, want %q", tc.value, got, tc.want)
		}
	}
}

// Sums of times stop at a bound instead of wrapping.
func TestTimesDoNotWrap(t *testing.T) {
	far := spanOfSeconds(1e300)
	for range 200 {
		far = far.plus(far).times(1e6)
	}
	if !far.Known || far.long <= 0 {
		t.Errorf("a very long span became %v", far.long)
	}
	if m := momentAt(0).minus(far).minus(far); m.at >= 0 {
		t.Errorf("a very early moment became %v", m.at)
	}
}

func TestOrNever(t *testing.T) {
	for source, want := range map[string]string{
		`or_never(drug_free)`:                      "1 min 30 s",
		`or_never(gap_in_changeover)`:              "1 min",
		`or_never(shown_under(mmHg(40)))`:          "never",
		`or_never(central_line - order_mended)`:    "not known",
		`or_never(order_mended - order_mended)`:    "not known",
		`or_never(start - start)`:                  "never",
		`or_never(seconds(1) - seconds(1))`:        "never",
		`or_never(time_peripheral - minutes(129))`: "never",
		`or_never(time_peripheral - minutes(128))`: "1 min",
		`or_never(time_peripheral - minutes(130))`: "minus 1 min",
	} {
		if got := under(t, testPolicy(), testRun(), source); got != want {
			t.Errorf("%s: %s, want %s", source, got, want)
		}
	}
}
