package sim

import (
	"slices"
	"strings"
	"testing"
)

// slip plays the set-up with one line replaced and more after it, in a place
// that alarms for a high pressure.
func slip(t *testing.T, from, to, more string) *Engine {
	t.Helper()
	c, p := testCase(), testPlace()
	c.Leak = Fate{Kind: NoLeak}
	p.AlarmOver = 105
	e, err := New(c, p, luckySeed(t, 1))
	if err != nil {
		t.Fatal(err)
	}
	if !strings.Contains(setUp, from) {
		t.Fatalf("the set-up has no %q", from)
	}
	follow(t, e, strings.Replace(setUp, from, to, 1)+more)
	e.Advance(Hour)
	return e
}

func count(e *Engine, fits func(en Entry) bool) (n int) {
	for _, en := range e.journal {
		if fits(en) {
			n++
		}
	}
	return n
}

// A sixty-fold rate is told by the monitor, again while it stays too high, and
// by the patient once; an ordinary one by neither.
func TestOverdoseIsTold(t *testing.T) {
	for rate, want := range map[string]int{"11.6 mL/h": 0, "696 mL/h": 1} {
		e := slip(t, "set pump-1 to 11.6 mL/h", "set pump-1 to "+rate, "")
		alarms := count(e, func(en Entry) bool { return en.Kind == Alarm && en.What == "high pressure" })
		said := count(e, func(en Entry) bool { return en.Kind == Happened && strings.Contains(en.Word, "head is bursting") })
		if min(alarms, 2) != 2*want || said != want {
			t.Errorf("%s: %d alarms, said %d times", rate, alarms, said)
		}
	}
}

// A second person sees that a label is not what the bag holds: 16 mg/mL for
// 16 mcg/mL is a thousand times off.
func TestSecondPersonReadsTheLabel(t *testing.T) {
	for answer, stops := range map[string]bool{"16 mcg/mL": false, "0.016 mg/mL": false, "16 mg/mL": true, "32 mcg/mL": true} {
		c := testCase()
		c.Leak = Fate{Kind: NoLeak}
		c.Ask = []Question{{ID: "label", When: "mix", What: SumConcentration, Point: "mcg/mL"}}
		e := newEngine(t, c, luckySeed(t, 1))
		lines := "0:00:00 send for second-nurse\n0:05:00 mix 4 mg of norepinephrine in 250 mL, adding to the bag\n0:09:00 give label as " + answer +
			"\n0:09:10 label bag-1\n0:10:00 check the mix in bag-1 with second-nurse\n"
		if n := follow(t, e, lines); n > 0 {
			t.Fatalf("%s: %d steps refused", answer, n)
		}
		e.Advance(20 * Minute)
		told := count(e, func(en Entry) bool { return en.Kind == Replied && strings.HasPrefix(en.Word, "stop") })
		if (told == 1) != stops {
			t.Errorf("label %s: stopped %d times", answer, told)
		}
	}
}

// What was worked out for one bag says nothing of the next: the second person
// works each label out anew, whatever drug is in it, and still stops at the
// bag whose label is wrong.
func TestSecondPersonReadsEachLabelByItself(t *testing.T) {
	c := testCase()
	c.Leak = Fate{Kind: NoLeak}
	c.Ask = []Question{{ID: "label", When: "mix", What: SumConcentration, Point: "mcg/mL"}}
	for answer, stops := range map[string]bool{"16 mcg/mL": false, "32 mcg/mL": true} {
		e := crowd(t, c, testPlace(), 1)
		if n := follow(t, e, `
0:05:00 mix 4 mg of norepinephrine in 250 mL, adding to the bag
0:09:00 give label as `+answer+`
0:09:10 label bag-1
0:10:00 mix 8 mg of norepinephrine in 250 mL, adding to the bag
0:14:00 label bag-2
0:15:00 mix 20 units of vasopressin in 100 mL, withdrawing first
0:19:00 label bag-3
0:20:00 check the mix in bag-1 with second-nurse
0:22:00 check the mix in bag-2 with second-nurse
0:24:00 check the mix in bag-3 with second-nurse`); n > 0 {
			t.Fatalf("%d steps refused", n)
		}
		e.Advance(Hour)
		var said []string
		for _, en := range e.journal {
			if en.Kind == Replied {
				said = append(said, en.Text())
			}
		}
		want := []string{`second-nurse: "I make that 16 mcg/mL"`, `second-nurse: "I make that 32 mcg/mL"`, `second-nurse: "I make that 0.2 units/mL"`}
		if stops {
			want[0] = `second-nurse: "stop, that is not what your label says; I make it 16 mcg/mL"`
		}
		if !slices.Equal(said, want) {
			t.Errorf("%s: %q, want %q", answer, said, want)
		}
	}
}

// An answer without a unit, or of another kind, is asked again and stays open.
func TestSumIsAskedAgain(t *testing.T) {
	e := slip(t, "give rate as 11.6 mL/h", "give rate as 11.6", "0:20:00 give rate as 11.6 mg\n0:21:00 give rate as 11,6 mL/h\n")
	if open := e.Vocabulary("sum"); len(open) != 1 {
		t.Fatalf("open sums %v", open)
	}
	for what, part := range map[string]string{"11.6": "unit is missing", "11.6 mg": "another kind", "11,6": "cannot be read"} {
		if count(e, func(en Entry) bool {
			return en.Kind == Refused && strings.Contains(en.Said, what) && strings.Contains(en.Why, part)
		}) == 0 {
			t.Errorf("%s was not refused with %q", what, part)
		}
	}
	a, _ := ParseAction("give rate as 11.6 mL/h")
	if e.Do(a)[0].Kind == Refused || len(e.Vocabulary("sum")) != 0 {
		t.Error("a good answer did not close the sum")
	}
}
