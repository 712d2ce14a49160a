package sum

import (
	"strings"
	"testing"

	"blanch/sim/quantity"
)

func rateOf(t *testing.T) *Sum {
	t.Helper()
	k, _ := Named("rate")
	s, err := k.New(map[string]quantity.Quantity{
		"dose": quantity.Of(0.05, "mcg/kg/min"), "weight": quantity.Of(70, "kg"), "amount": quantity.Of(4, "mg"), "volume": quantity.Of(250, "mL"),
	}, quantity.Unit{}) // 13.125 mL/h
	if err != nil {
		t.Fatal(err)
	}
	return s
}

func bagOf(t *testing.T) *Sum {
	t.Helper()
	k, _ := Named("concentration")
	s, err := k.New(map[string]quantity.Quantity{"amount": quantity.Of(4, "mg"), "volume": quantity.Of(250, "mL")}, quantity.Unit{})
	if err != nil {
		t.Fatal(err)
	}
	return s
}

func activityOf(t *testing.T) *Sum {
	t.Helper()
	k, _ := Named("amount")
	s, err := k.New(map[string]quantity.Quantity{"volume": quantity.Of(2.5, "mL"), "concentration": quantity.Of(20, "units/mL")}, quantity.Unit{})
	if err != nil {
		t.Fatal(err) // 50 units (vasopressin label, table 1)
	}
	return s
}

func lastsOf(t *testing.T) *Sum {
	t.Helper()
	k, _ := Named("run_out")
	s, err := k.New(map[string]quantity.Quantity{"volume": quantity.Of(250, "mL"), "rate": quantity.Of(12.5, "mL/h")}, quantity.Unit{})
	if err != nil {
		t.Fatal(err) // 20 h
	}
	return s
}

// Answers are taken as people write them; what is unsafe in them is told.
func TestAnswersAreReadAsPeopleWriteThem(t *testing.T) {
	for _, c := range []struct {
		of      func(*testing.T) *Sum
		text    string
		verdict Verdict
		unsafe  string // part of what is told
	}{
		{rateOf, "13.1 mL/h", Right, ""},
		{rateOf, "13.1 ml/hr", Right, ""},
		{rateOf, "13.1 mL per hour.", Right, ""},
		{rateOf, " = 13.1 mL/h ", Right, ""},
		{rateOf, "13.1mL/h", Right, "put a space between"},
		{rateOf, "13.10 mL/h", Right, "trailing zero"},
		{rateOf, "13.125 mL/h", Right, ""},
		{rateOf, "0.21875 mL/min", Right, ""},
		{rateOf, "13.1", NoUnit, ""},
		{rateOf, "13.1 mmHg", WrongUnit, ""},
		{rateOf, "13.1 mcg/min", WrongUnit, ""},
		{rateOf, "13,1 mL/h", Unreadable, ""},
		{rateOf, "1,000 mL/h", Unreadable, ""},
		{rateOf, "1.000,5 mL/h", Unreadable, ""},
		{rateOf, "about 13", Unreadable, ""},
		{rateOf, "", Unreadable, ""},
		{rateOf, "13.0 mL/h", Wrong, "trailing zero"},
		{rateOf, "788 mL/h", Wrong, ""},
		{bagOf, "16mcg/ml", Right, "put a space between"},
		{bagOf, "16 \u00b5g/mL", Right, "Greek letter"},
		{bagOf, "16 \u03bcg/mL", Right, "Greek letter"},
		{bagOf, "16 ug/mL", Right, "ug can be read as mg"},
		{bagOf, "0.016 mg/mL", Right, ""},
		{bagOf, ".016 mg/mL", Right, "leading zero"},
		{bagOf, "16 mg/L", Right, ""},
		{bagOf, "16 mg/mL", Wrong, ""},
		{activityOf, "50 units", Right, ""},
		{activityOf, "50 U", Right, "U can be read"},
		{activityOf, "50 IU", Right, "IU can be read"},
		{lastsOf, "20 hrs", Right, ""},
		{lastsOf, "1200 mins", Right, ""},
		{lastsOf, "20 h", Right, ""},
	} {
		m := c.of(t).Mark(c.text)
		if m.Verdict != c.verdict {
			t.Errorf("%q is %s (%s), want %s", c.text, m.Verdict, m.Reason, c.verdict)
		}
		told := strings.Join(m.Answer.Unsafe, "; ")
		if c.unsafe == "" && told != "" || !strings.Contains(told, c.unsafe) {
			t.Errorf("%q: told %q, want %q", c.text, told, c.unsafe)
		}
		refused := m.Verdict == NoUnit || m.Verdict == WrongUnit || m.Verdict == Unreadable
		if refused != (m.Reason != "") {
			t.Errorf("%q is %s with the reason %q", c.text, m.Verdict, m.Reason)
		}
	}
}

// A number without its unit is told whether it would have been right.
func TestAMissingUnitIsNotAWrongNumber(t *testing.T) {
	s := rateOf(t)
	if m := s.Mark("13.1"); !m.Fits || m.Diagnosis.Slips != nil {
		t.Errorf("13.1: %+v", m)
	}
	if m := s.Mark("787.5"); m.Fits || len(m.Diagnosis.Slips) != 1 || m.Diagnosis.Slips[0].Name != "60 twice" {
		t.Errorf("787.5: %s", m.Diagnosis.Sentence())
	}
	// The right number with a unit a thousand times as large.
	if m := bagOf(t).Mark("16 mg/mL"); m.Diagnosis.Sentence() != "You have written the right number with another unit, mg/mL for mcg/mL." {
		t.Errorf("16 mg/mL: %q", m.Diagnosis.Sentence())
	}
}

// A number that is the key but for its rounding, with the unit of another
// size.
func TestTheRightNumberWithAnotherUnit(t *testing.T) {
	if m := lastsOf(t).Mark("20.1 min"); m.Diagnosis.Sentence() != "You have written the right number with another unit, min for h." {
		t.Errorf("20.1 min: %q", m.Diagnosis.Sentence())
	}
	if m := lastsOf(t).Mark("19 min"); m.Verdict != Wrong || m.Diagnosis.Slips != nil {
		t.Errorf("19 min: %q", m.Diagnosis.Sentence())
	}
}

// A count is a bare number, with or without a word behind it.
func TestACountIsABareNumber(t *testing.T) {
	k, _ := Named("vials")
	s, err := k.New(map[string]quantity.Quantity{"total": quantity.Of(68, "mg"), "per_vial": quantity.Of(4, "mg")}, quantity.Unit{})
	if err != nil {
		t.Fatal(err) // 17 (norepinephrine prescribing information)
	}
	for text, want := range map[string]Verdict{"17": Right, "17 vials": Right, "17 ampoules": Right, "16": Wrong, "17 mL": WrongUnit} {
		if m := s.Mark(text); m.Verdict != want {
			t.Errorf("%q is %s (%s), want %s", text, m.Verdict, m.Reason, want)
		}
	}
}

// Nobody opens a part of a vial, or counts a part of a drop; a share that is
// rounded to whole hundredths may be given with more of them.
func TestWhatIsCountedIsWhole(t *testing.T) {
	made := func(kind string, given map[string]quantity.Quantity) *Sum {
		k, _ := Named(kind)
		s, err := k.New(given, quantity.Unit{})
		if err != nil {
			t.Fatal(err)
		}
		return s
	}
	vials := made("vials", map[string]quantity.Quantity{"total": quantity.Of(15, "mg"), "per_vial": quantity.Of(4, "mg")})                                         // 3.75
	drops := made("drops", map[string]quantity.Quantity{"drop_factor": quantity.Of(20, "gtt/mL"), "rate": quantity.Of(40, "mL/h")})                                // 13.33
	share := made("vein_share", map[string]quantity.Quantity{"length": quantity.Of(30, "mm"), "depth": quantity.Of(7, "mm"), "angle": quantity.Of(30, "degrees")}) // 53.33
	for _, c := range []struct {
		of      *Sum
		text    string
		verdict Verdict
		says    string
	}{
		{vials, "4", Right, ""},
		{vials, "4 vials", Right, ""},
		{vials, "3.8", Wrong, "You cannot open 0.8 of a vial: give the whole number"},
		{vials, "3.8 vials", Wrong, "You cannot open 0.8 of a vial"},
		{vials, "3.75", Wrong, "You cannot open 0.75 of a vial"},
		{vials, "3.4", Wrong, "You cannot open 0.4 of a vial"},
		{drops, "13 gtt/min", Right, ""},
		{drops, "13.3 gtt/min", Wrong, "You cannot count 0.3 of a drop"},
		{share, "53 %", Right, ""},
		{share, "53.3 %", Right, ""},
	} {
		if m := c.of.Mark(c.text); m.Verdict != c.verdict || !strings.Contains(m.Reason, c.says) || (c.says == "") != (m.Reason == "") {
			t.Errorf("%s: %q is %s (%s), want %s (%s)", tell(c.of), c.text, m.Verdict, m.Reason, c.verdict, c.says)
		}
	}
	// Before it is rounded it may have parts.
	if stages, _ := drops.MarkStages(Attempt{Computed: "13.33 gtt/min", Set: "13 gtt/min"}); stages[0].Verdict != Right || stages[1].Verdict != Right {
		t.Errorf("%+v", stages)
	}
}

// A time is taken in hours and minutes, and is right to the minute: 2 h 17 min
// for 2.288 h, of which 0.288 h are 17.3 min.
func TestTimeInHoursAndMinutesIsAnAnswer(t *testing.T) {
	k, _ := Named("run_out")
	s, err := k.New(map[string]quantity.Quantity{"volume": quantity.Of(57.2, "mL"), "rate": quantity.Of(25, "mL/h")}, quantity.Unit{})
	if err != nil {
		t.Fatal(err)
	}
	for text, want := range map[string]Verdict{
		"2 h 17 min": Right, "2 hours and 17 minutes": Right, "2h 17min": Right, "2.29 h": Right, "137 min": Wrong,
		"2 h 16 min": Wrong, "2 h 29 min": Wrong, "2.5 h 17 min": Unreadable, "1 h 77 min": Unreadable,
	} {
		if m := s.Mark(text); m.Verdict != want {
			t.Errorf("%q is %s (%s), want %s", text, m.Verdict, m.Reason, want)
		}
	}
	if m := rateOf(t).Mark("2 h 17 min"); m.Verdict != WrongUnit {
		t.Errorf("a time for a rate is %s", m.Verdict)
	}
	// Minutes are too coarse for a delay that is wanted to a tenth of one.
	k, _ = Named("first_drug")
	s, err = k.New(map[string]quantity.Quantity{"dead_volume": quantity.Of(1, "mL"), "rate": quantity.Of(28, "mL/h")}, quantity.MustUnit("min"))
	if err != nil {
		t.Fatal(err) // 2.143 min
	}
	if m := s.Mark("0 h 2 min"); m.Verdict != Wrong {
		t.Errorf("0 h 2 min is %s", m.Verdict)
	}
}

// Inputs that do not go together are refused, with what would be right.
func TestSumsRefuseWhatDoesNotGoTogether(t *testing.T) {
	of := quantity.Of
	for _, c := range []struct {
		kind  string
		given map[string]quantity.Quantity
		unit  string
		input string
		says  string
	}{
		{"rate", map[string]quantity.Quantity{"dose": of(8, "mcg/min")}, "", "", "rate needs dose, concentration; or dose, amount, volume"},
		{"rate", map[string]quantity.Quantity{"dose": of(8, "mcg/kg/min"), "concentration": of(16, "mcg/mL")}, "", "weight", "weight is missing"},
		{"rate", map[string]quantity.Quantity{"dose": of(8, "mcg/min"), "concentration": of(1, "units/mL")}, "", "concentration", "both must be mass, or both units"},
		{"rate", map[string]quantity.Quantity{"dose": of(8, "mL"), "concentration": of(1, "units/mL")}, "", "dose", "dose cannot be 8 mL: give it in mcg/min"},
		{"rate", map[string]quantity.Quantity{"dose": of(8, "mcg/min"), "concentration": of(0, "mcg/mL")}, "", "concentration", "must be more than 0"},
		{"rate", map[string]quantity.Quantity{"dose": of(8, "mcg/min"), "concentration": of(16, "mcg/mL"), "colour": of(1, "mL")}, "", "colour", "rate takes no colour: it takes dose, weight"},
		{"rate", map[string]quantity.Quantity{"dose": of(8, "mcg/min"), "concentration": of(16, "mcg/mL")}, "mg", "", "the answer to rate cannot be in mg: ask for it in mL/h"},
		{"rate", map[string]quantity.Quantity{"dose": of(0.001, "mcg/min"), "concentration": of(16, "mcg/mL")}, "", "", "less than can be set"},
		{"dose", map[string]quantity.Quantity{"rate": of(8, "mL/h"), "concentration": of(16, "mcg/mL")}, "units/min", "", "concentration is in mcg/mL"},
		{"dose", map[string]quantity.Quantity{"rate": of(8, "mL/h"), "concentration": of(16, "mcg/mL")}, "mcg/kg/min", "weight", "weight is missing"},
		{"new_rate", map[string]quantity.Quantity{"dose": of(8, "mcg/min"), "new_dose": of(0.1, "mcg/kg/min"), "rate": of(30, "mL/h")}, "", "new_dose", "give both alike"},
		{"hang_next", map[string]quantity.Quantity{"volume": of(10, "mL"), "rate": of(20, "mL/h"), "lead": of(40, "min")}, "", "lead", "longer than the bag lasts: that is 0.5 h"},
		{"vein_share", map[string]quantity.Quantity{"length": of(25, "mm"), "depth": of(20, "mm"), "angle": of(30, "degrees")}, "", "length", "does not reach the vein"},
		{"vein_share", map[string]quantity.Quantity{"length": of(25, "mm"), "depth": of(2, "mm"), "angle": of(100, "degrees")}, "", "angle", "between 0 and 90"},
		{"split", map[string]quantity.Quantity{"whole": of(10, "mL"), "parts": {Value: 2.5}}, "", "parts", "whole number"},
		{"split", map[string]quantity.Quantity{"whole": of(10, "mL"), "parts": of(2, "mL")}, "", "parts", "bare number"},
		{"convert", map[string]quantity.Quantity{"value": of(10, "mL")}, "", "", "unit to convert 10 mL into is missing"},
		{"weight", map[string]quantity.Quantity{"weight": of(70, "kg")}, "kg", "", "in kg already"},
		{"draw_up", map[string]quantity.Quantity{"order": of(70, "mg"), "have": of(20, "units"), "in": of(1, "mL")}, "", "have", "both must be measured alike"},
		{"round", map[string]quantity.Quantity{"value": {Value: 1.243}, "places": {Value: 1.5}}, "", "places", "whole number from 0 to 9"},
		{"stock_needed", map[string]quantity.Quantity{"stock": of(5, "%"), "target": of(1, "mg/mL"), "final_volume": of(100, "mL")}, "", "target", "measured alike"},
	} {
		k, ok := Named(c.kind)
		if !ok {
			t.Fatalf("no kind %s", c.kind)
		}
		u := quantity.Unit{}
		if c.unit != "" {
			u = quantity.MustUnit(c.unit)
		}
		_, err := k.New(c.given, u)
		bad, ok := err.(*InputError)
		if !ok || bad.Input != c.input || !strings.Contains(bad.Said, c.says) {
			t.Errorf("%s of %v: %#v, want %q of input %q", c.kind, c.given, err, c.says, c.input)
		}
	}
}

func FuzzMark(f *testing.F) {
	for _, s := range []string{"13.1 mL/h", "1,000", "787.5 ml/hr", "=3 x", ".5 mg", "17 vials", "-1 mL/h"} {
		f.Add(s)
	}
	k, _ := Named("rate")
	s, err := k.New(map[string]quantity.Quantity{"dose": quantity.Of(8, "mcg/min"), "amount": quantity.Of(4, "mg"), "volume": quantity.Of(250, "mL")}, quantity.Unit{})
	if err != nil {
		f.Fatal(err)
	}
	f.Fuzz(func(t *testing.T, text string) {
		m := s.Mark(text)
		if m.Verdict == 0 || m.Verdict == Unreadable && m.Reason == "" {
			t.Fatalf("%q: %+v", text, m)
		}
		m.Diagnosis.Sentence()
		if _, err := Evaluate(text); err != nil && err.Error() == "" {
			t.Fatal(text)
		}
	})
}
