package quantity_test

import (
	"errors"
	"math"
	"strings"
	"testing"

	"blanch/sim/quantity"
)

func TestParseReadsWhatPeopleWrite(t *testing.T) {
	for in, want := range map[string]string{
		"16mcg/mL":               "16 mcg/mL",
		"16 mcg/ml":              "16 mcg/mL",
		"16 MCG/ML":              "16 mcg/mL",
		"16 ug/mL":               "16 mcg/mL",
		"16 \u00b5g/mL":          "16 mcg/mL",
		"16 \u03bcg/mL":          "16 mcg/mL",
		"13.1 ml/hr":             "13.1 mL/h",
		"13.1 mL per hour":       "13.1 mL/h",
		"0.05 mcg/kg/min":        "0.05 mcg/kg/min",
		".05 mcg/min/kg":         "0.05 mcg/kg/min",
		"0.03 units/min":         "0.03 units/min",
		"0.03 U/min":             "0.03 units/min",
		"1 unit/mL":              "1 unit/mL",
		"1 units":                "1 unit",
		"0.4 unit/mL":            "0.4 units/mL",
		"90 min":                 "90 min",
		"4 h":                    "4 h",
		"4hours":                 "4 h",
		"20 s":                   "20 s",
		"64 kg":                  "64 kg",
		"141 lb":                 "141 lb",
		"141 lbs":                "141 lb",
		"2.9 mm":                 "2.9 mm",
		"5 %":                    "5 %",
		"5%":                     "5 %",
		"40 degrees":             "40 degrees",
		"40\u00b0":               "40 degrees",
		"65 mmHg":                "65 mmHg",
		"65 mmhg":                "65 mmHg",
		"120 mmHg x min":         "120 mmHg x min",
		"65 mm Hg":               "65 mmHg",
		"68 y":                   "68 y",
		"250 cc":                 "250 mL",
		"5.0 mg":                 "5 mg",
		"5. mg":                  "5 mg",
		"-0 mL":                  "0 mL",
		"+3 mL":                  "3 mL",
		"-2 mmHg":                "-2 mmHg",
		"\u22122 mmHg":           "-2 mmHg",
		"  250\u00a0mL ":         "250 mL",
		"31 gtt/min":             "31 gtt/min",
		"0.0000001 g":            "0.0000001 g",
		"1000000 mcg":            "1000000 mcg",
		"100 beats per minute":   "100 beats/min",
		"40 mEq":                 "40 mEq",
		"0.01 mL / kg / min":     "0.01 mL/kg/min",
		"12 g":                   "12 g",
		"3 cm":                   "3 cm",
		"1.5 L":                  "1.5 L",
		"2 micrograms/kg/minute": "2 mcg/kg/min",
	} {
		q, err := quantity.Parse(in)
		if err != nil {
			t.Errorf("Parse(%q): %v", in, err)
			continue
		}
		if got := q.String(); got != want {
			t.Errorf("Parse(%q) prints %q, want %q", in, got, want)
		}
		again, err := quantity.Parse(q.String())
		if err != nil || again != q {
			t.Errorf("%q reads back as %v, %v", q, again, err)
		}
	}
}

func TestParseRefusesWithTheReason(t *testing.T) {
	for in, want := range map[string]string{
		"":                              "no number",
		"mL":                            "no number",
		"NaN mL":                        "no number",
		"Inf mL":                        "no number",
		"-inf mL":                       "no number",
		"-":                             "no number",
		".":                             "no number",
		"- 5 mL":                        "no number",
		"0x10 mL":                       `"x10 ml" is not known`,
		"1e3 mL":                        "exponent",
		"1E-3 mL":                       "exponent",
		"1e+400 mL":                     "exponent",
		"1,000 mL":                      "comma",
		"0,5 mL":                        "comma",
		"1 000 mL":                      "two numbers",
		"1.2.3 mL":                      "more than one decimal point",
		"5-10 mg":                       "range",
		"5 - 10 mg":                     "range",
		"5 mgg":                         "did you mean mcg or mg",
		"5 mcg/kg/mim":                  "did you mean min",
		"5 mcg/kg/":                     "incomplete",
		"5 /min":                        "incomplete",
		"5 furlongs":                    `"furlongs" is not known`,
		"5 mg/mg":                       "twice",
		"5 mL/h/h":                      "twice",
		"5\x00 mL":                      "U+0000",
		"5\n mL":                        "U+000A",
		"5\u200b mL":                    "U+200B",
		"5 \u202emL":                    "U+202E",
		"5 m\xffL":                      "not readable text",
		"1234567890123456 mL":           "16 digits",
		"0.1234567890123456 mL":         "16 digits",
		strings.Repeat("9", 100) + " g": "characters long",
		"12\u0663 mL":                   "two numbers",
	} {
		q, err := quantity.Parse(in)
		if err == nil {
			t.Errorf("Parse(%q) = %v, want a refusal", in, q)
			continue
		}
		if !strings.Contains(err.Error(), want) {
			t.Errorf("Parse(%q): %v; want it to say %q", in, err, want)
		}
		if errors.Is(err, quantity.ErrNoUnit) {
			t.Errorf("Parse(%q) says that only the unit is missing", in)
		}
		for _, r := range err.Error() {
			if r < ' ' {
				t.Errorf("Parse(%q): the reason holds the control character %U", in, r)
			}
		}
	}
}

func TestABareNumberIsToldApart(t *testing.T) {
	q, err := quantity.Parse(" 13.1 ")
	if !errors.Is(err, quantity.ErrNoUnit) || q.Value != 13.1 || !q.Unit.IsZero() {
		t.Errorf("got %v, %v; want the number 13.1 and ErrNoUnit", q, err)
	}
	if _, err := quantity.ParseUnit(" "); !errors.Is(err, quantity.ErrNoUnit) {
		t.Errorf("ParseUnit of nothing: %v, want ErrNoUnit", err)
	}
}

func TestUnsafeNamesWhatIsUnsafe(t *testing.T) {
	for in, want := range map[string][]string{
		"16 \u00b5g/mL": {"Greek"},
		"16 \u03bcg/mL": {"Greek"},
		"16 ug/mL":      {"ug can"},
		"4 U":           {"U can"},
		"0.04 u/min":    {"U can"},
		"10 IU":         {"IU can"},
		"5 cc":          {"cc can"},
		"5.0 mg":        {"trailing zero"},
		"2.50 mg":       {"trailing zero"},
		".5 mg":         {"leading zero"},
		"5. mg":         {"nothing after"},
		"5mg":           {"space between"},
		".50\u00b5g":    {"Greek", "trailing zero", "leading zero", "space between"},

		"0.5 mg": nil, "10 mL": nil, "100 mcg/mL": nil, "0.05 mcg/kg/min": nil,
		"1.05 mL": nil, "5 %": nil, "0.03 units/min": nil, "5%": nil, "": nil,
	} {
		got := quantity.Unsafe(in)
		if len(got) != len(want) {
			t.Errorf("Unsafe(%q) = %q, want %d: %q", in, got, len(want), want)
			continue
		}
		for i := range want {
			if !strings.Contains(got[i], want[i]) {
				t.Errorf("Unsafe(%q)[%d] = %q, want it to say %q", in, i, got[i], want[i])
			}
		}
	}
}

// What is printed must never be what Unsafe warns of.
func TestPrintingIsSafe(t *testing.T) {
	for _, u := range []string{"mcg/kg/min", "units/min", "units", "mL/h", "mmHg", "%", "degrees", "kg"} {
		for _, v := range []float64{0, 1, 10, 0.5, 0.05, 100, 12.5, 1e6, 1e-7, 2.50, 1e21, -3} {
			s := quantity.Of(v, u).String()
			if bad := quantity.Unsafe(s); bad != nil {
				t.Errorf("%q: %q", s, bad)
			}
			if strings.ContainsAny(s, "e,") && strings.ContainsAny(strings.Fields(s)[0], "eE,") {
				t.Errorf("%q has an exponent or a comma", s)
			}
		}
	}
}

// A time is read as it is said at a bedside; what could be misread is refused.
func TestTimeInHoursAndMinutes(t *testing.T) {
	for in, want := range map[string]string{
		"1 h 20 min": "80 min", "1h 20 min": "80 min", "2 h 17 min": "137 min", "2 hours and 17 minutes": "137 min",
		"2 hr 5 mins": "125 min", "0 h 20 min": "20 min", " 2 h 17 min ": "137 min", "1 h 05 min": "65 min",
	} {
		q, _, err := quantity.ParseSpan(in)
		if err != nil || q.String() != want {
			t.Errorf("%q is %v (%v), want %s", in, q, err, want)
		}
	}
	for in, want := range map[string]string{
		"1.5 h 20 min": "decimal point as well as minutes", "1 h 2.5 min": "decimal point as well as minutes",
		"1 h 75 min": "write it like 2 h 15 min", "1. h 20 min": "decimal point",
	} {
		if q, _, err := quantity.ParseSpan(in); err == nil || !strings.Contains(err.Error(), want) {
			t.Errorf("%q is %v (%v), want it to say %q", in, q, err, want)
		}
	}
	for _, in := range []string{"1h20", "1:20", "20 min 1 h", "2.29 h", "137 min", "1 mg 20 min", "1 h 20 mL", "1 h, 20 min", "-1 h 20 min", ""} {
		if q, _, err := quantity.ParseSpan(in); err != nil || !q.Unit.IsZero() {
			t.Errorf("%q is taken for hours and minutes: %v (%v)", in, q, err)
		}
	}
	if _, unsafe, _ := quantity.ParseSpan("1h 20min"); len(unsafe) != 1 {
		t.Errorf("a number run into its unit is told as %q", unsafe)
	}
}

func FuzzParseSpan(f *testing.F) {
	for _, s := range []string{"1 h 20 min", "1h20", "1.5 h 20 min", "999999 hours and 59 minutes", "h min"} {
		f.Add(s)
	}
	f.Fuzz(func(t *testing.T, s string) {
		q, unsafe, err := quantity.ParseSpan(s)
		switch {
		case err != nil && err.Error() == "", err != nil && !q.Unit.IsZero():
			t.Fatalf("ParseSpan(%q) = %v, %v", s, q, err)
		case err != nil:
		case q.Unit.IsZero():
			if q.Value != 0 || unsafe != nil {
				t.Fatalf("ParseSpan(%q) = %v, %q", s, q, unsafe)
			}
		case q.Value < 0 || q.Value != math.Floor(q.Value) || q.Unit != quantity.MustUnit("min"):
			t.Fatalf("ParseSpan(%q) = %v", s, q)
		}
	})
}

func FuzzParse(f *testing.F) {
	for _, s := range []string{"16 mcg/mL", "1e9", "0.05 mcg/kg/min", "5 % x", "\u22125 mL", "1 unit x min/h", "5.mg", "1 000"} {
		f.Add(s)
	}
	f.Fuzz(func(t *testing.T, s string) {
		quantity.Unsafe(s)
		q, err := quantity.Parse(s)
		if err != nil {
			return
		}
		if math.IsNaN(q.Value) || math.IsInf(q.Value, 0) || q.Unit.IsZero() {
			t.Fatalf("Parse(%q) = %v", s, q)
		}
		again, err := quantity.Parse(q.String())
		if err != nil || again != q {
			t.Fatalf("%q prints %q, which reads back as %v, %v", s, q, again, err)
		}
	})
}
