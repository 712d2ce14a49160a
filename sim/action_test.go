package sim

import (
	"math/rand/v2"
	"strings"
	"testing"
)

// Every row of the table reads back what it writes, also when asked of
// someone else.
func TestTableRoundTrips(t *testing.T) {
	e := newEngine(t, testCase(), luckySeed(t, 1))
	play(t, e, script("right-basilic-arm"))
	rng := rand.New(rand.NewPCG(1, 1))
	seen := map[string]bool{}
	for range 4000 {
		a := randomAction(e, rng)
		line := a.String()
		back, err := ParseAction(line)
		if err != nil {
			t.Fatalf("%q: %v", line, err)
		}
		if back.Name != a.Name || back.By != a.By || back.String() != line {
			t.Fatalf("%q reads back as %s %q", line, back.Name, back)
		}
		seen[a.Name] = true
	}
	for _, s := range Actions() {
		if !seen[s.Name] {
			t.Errorf("%s was never tried", s.Name)
		}
	}
}

// The table is what help, scripts and rules read: each row says what it
// does, how long it takes and what makes it impossible.
func TestTableIsComplete(t *testing.T) {
	steps := map[int]bool{}
	for _, s := range Actions() {
		if s.Does == "" || s.Step < 1 || s.Step > 12 || s.Holds == 0 || s.Duration() == "" {
			t.Errorf("row %s is not complete: %+v", s.Name, s)
		}
		if s.refuse != nil && s.Impossible == "" && !strings.Contains(s.Sentence, "ultrasound") {
			t.Errorf("row %s can be refused but does not say when", s.Name)
		}
		if s.Holds != Instant && s.Takes == 0 && s.takes == nil {
			t.Errorf("row %s holds hands or voice for no time", s.Name)
		}
		steps[s.Step] = true
	}
	for step := 1; step <= 11; step++ {
		if !steps[step] {
			t.Errorf("no action serves step %d of the job", step)
		}
	}
}

// Names that differ only in a hole must not shadow each other.
func TestParseActionSaysWhatIsNear(t *testing.T) {
	for line, want := range map[string]string{
		"":                           "nothing was said",
		"feel left-forearm":          "feel around LINE",
		"set pump-1 to 13":           "unit is missing",
		"dance":                      "not something you can do",
		"connect pump-1 with a line": "connect PUMP to LINE",
	} {
		_, err := ParseAction(line)
		if err == nil || !strings.Contains(err.Error(), want) {
			t.Errorf("%q: %v, want %q", line, err, want)
		}
	}
	a, err := ParseAction("connect pump-1 to right-hand primed to the tip")
	if err != nil || a.Name != "connect-primed" {
		t.Errorf("primed connection reads as %s, %v", a.Name, err)
	}
	a, err = ParseAction("ask second-nurse to feel around right-hand")
	if err != nil || a.By != "second-nurse" || a.Name != "feel" {
		t.Errorf("delegation reads as %+v, %v", a, err)
	}
	a, err = ParseAction("ask the patient about the arms")
	if err != nil || a.By != "" || a.Name != "ask-arms" {
		t.Errorf("asking the patient reads as %+v, %v", a, err)
	}
}
