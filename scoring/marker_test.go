package scoring

import (
	"reflect"
	"slices"
	"strings"
	"sync"
	"testing"

	"blanch/scenarios"
)

func ruleOf(id, serves string, points float64, critical bool, applies, when string) scenarios.Rule {
	r := scenarios.Rule{ID: id, Serves: serves, Points: points, Critical: critical, When: exactText(when),
		Met: exactText("Yes, " + id + "."), NotMet: exactText("No: {found(\"leak\") - visible(\"leak\")}, against {policy.check_early}.")}
	if applies != "" {
		r.Applies = exactText(applies)
	}
	return r
}

func markedCase() *scenarios.Case {
	c := referenceCase()
	c.Title, c.PassPoints = "A bridge by hand", 0.6
	c.Objectives = []scenarios.Objective{
		{ID: "site", Text: "Choose a vein and cannula that keep two thirds of the cannula in the vein, and use it for no longer than the policy allows"},
		{ID: "watch", Text: "Find the leak in time"},
		{ID: "unused", Text: "Nothing serves this"},
	}
	c.Rules = []scenarios.Rule{
		ruleOf("share", "site", 5, false, "", `first_line.share_in_vein >= policy.least_share`),
		ruleOf("found-in-time", "watch", 3, false, `visible("leak").known`, `found("leak") - visible("leak") <= policy.check_early`),
		ruleOf("painless", "watch", 2, false, `visible("pain").known`, `found("pain") - visible("pain") <= policy.check_early`),
		ruleOf("stopped", "watch", 0, true, `recognised.known`, `leak_ran_after_recognised <= minutes(5)`),
		ruleOf("pressure", "", 1.5, false, "", `shown_under(order.target) <= hours(3)`),
	}
	return c
}

func markOf(t *testing.T, c *scenarios.Case) Sheet {
	t.Helper()
	m, faults := Compile(c, testPolicy())
	if m == nil {
		t.Fatalf("does not compile: %v", faults)
	}
	return m.Mark(testRun())
}

func TestMarks(t *testing.T) {
	s := markOf(t, markedCase())
	type brief struct {
		rule    string
		verdict Verdict
		earned  float64
		said    string
		rests   []int
	}
	var got []brief
	for _, m := range s.Marks {
		got = append(got, brief{m.Rule, m.Verdict, m.Earned, m.Said, m.Evidence})
	}
	want := []brief{
		{"share", Met, 5, "Yes, share.", []int{1}},
		{"found-in-time", NotMet, 0, "No: 25 min, against 15 min.", []int{13}},
		{"painless", DidNotApply, 0, "", nil},
		{"stopped", Met, 0, "Yes, stopped.", []int{10, 13, 15}},
		{"pressure", Met, 1.5, "Yes, pressure.", []int{3, 6, 12}},
	}
	for i := range want {
		if i >= len(got) || !reflect.DeepEqual(got[i], want[i]) && !(len(got[i].rests)+len(want[i].rests) == 0 && got[i].verdict == want[i].verdict) {
			t.Errorf("mark %d: got %+v, want %+v", i, got[i], want[i])
		}
	}
	// 6.5 of 9.5: what did not apply is in neither.
	if s.Earned != 6.5 || s.OutOf != 9.5 || !s.Passed || len(s.Why) != 0 {
		t.Errorf("earned %v of %v, passed %v, why %v", s.Earned, s.OutOf, s.Passed, s.Why)
	}
}

func TestPassing(t *testing.T) {
	for _, tc := range []struct {
		name   string
		change func(c *scenarios.Case)
		passed bool
		why    []string
	}{
		{"as it is", func(c *scenarios.Case) {}, true, nil},
		{"a critical rule is not made up for", func(c *scenarios.Case) { c.Rules[1].Critical = true }, false, []string{"critical, not met: found-in-time"}},
		{"a critical rule that did not apply is no bar", func(c *scenarios.Case) { c.Rules[2].Critical = true }, true, nil},
		{"too few points", func(c *scenarios.Case) { c.PassPoints = 0.7 }, false, []string{"6.5 of 9.5 points, and 6.65 are needed to pass"}},
		{"both", func(c *scenarios.Case) { c.PassPoints = 0.7; c.Rules[1].Critical = true }, false,
			[]string{"critical, not met: found-in-time", "6.5 of 9.5 points, and 6.65 are needed to pass"}},
		{"just enough", func(c *scenarios.Case) { c.PassPoints = 6.5 / 9.5 }, true, nil},
		{"nothing applied", func(c *scenarios.Case) { c.Rules = c.Rules[2:3] }, false, []string{"no rule with points applied"}},
	} {
		c := markedCase()
		tc.change(c)
		s := markOf(t, c)
		if s.Passed != tc.passed || !slices.Equal(s.Why, tc.why) {
			t.Errorf("%s: passed %v, why %q", tc.name, s.Passed, s.Why)
		}
	}
}

func TestMarkingIsRepeatable(t *testing.T) {
	m, _ := Compile(markedCase(), testPolicy())
	first := m.Mark(testRun())
	m.Mark(emptyRun())
	if again := m.Mark(testRun()); !reflect.DeepEqual(first, again) {
		t.Errorf("two sheets of one run differ:\n%+v\n%+v", first, again)
	}
	if first.Text(testRun()) != m.Mark(testRun()).Text(testRun()) {
		t.Error("the text of two sheets of one run differs")
	}
}

// One marker marks many runs at a time, each as if it were alone.
func TestMarkingSideBySide(t *testing.T) {
	m, faults := Compile(markedCase(), testPolicy())
	if m == nil {
		t.Fatal(faults)
	}
	full, empty := m.Mark(testRun()), m.Mark(emptyRun())
	var all sync.WaitGroup
	for range 8 {
		all.Go(func() {
			for range 50 {
				if !reflect.DeepEqual(m.Mark(testRun()), full) || !reflect.DeepEqual(m.Mark(emptyRun()), empty) {
					t.Error("side by side the sheets differ")
					return
				}
			}
		})
	}
	all.Wait()
}

func TestCheckReportsEveryFaultOfACase(t *testing.T) {
	c := markedCase()
	c.Rules[0].When = exactText(`first_line.share_in_vien >= policy.least_share`)
	c.Rules[1].NotMet = exactText(`{outcome.nothing}`)
	c.Rules[2].Applies = exactText(`true`)
	c.Rules[3].When = exactText(`1 > 2`)
	c.Rules[4].Applies = exactText(`policy.withdraw_first`) // may hang on the policy
	var codes []string
	for _, f := range Check(c, testPolicy()) {
		codes = append(codes, f.Code)
	}
	want := []string{"unknown-fact", "unknown-fact", "constant-condition", "constant-condition"}
	if !slices.Equal(codes, want) {
		t.Errorf("got %q, want %q", codes, want)
	}
	if m, _ := Compile(c, testPolicy()); m != nil {
		t.Error("a case with faults gives a marker")
	}
}

func TestMarksForLuckAreRefused(t *testing.T) {
	for source, column := range map[string]int{
		`visible("leak") - start > hours(1)`:                          11,
		`not visible("leak").known`:                                   11,
		`did("feel") and visible("leak") >= ended`:                    27,
		`found("leak") - visible("leak") <= policy.check_early`:       0,
		`not visible("leak").known or did("stop")`:                    0,
		`first_since("feel", visible("leak")).known`:                  0,
		`first_drug - ordered <= policy.start_by`:                     0,
		`did("feel") or not (visible("leak") - start <= seconds(10))`: 31,
	} {
		c := markedCase()
		c.Rules[0].When = exactText(source)
		faults := Check(c, testPolicy())
		switch {
		case column == 0 && len(faults) > 0:
			t.Errorf("%s: %s", source, faults[0].Said)
		case column > 0 && (len(faults) != 1 || faults[0].Code != "mark-for-luck" || faults[0].Pos.Column != column):
			t.Errorf("%s: %+v", source, faults)
		}
	}
	c := markedCase()
	c.Rules[0].Applies = exactText(`visible("leak") - start > hours(1)`)
	if faults := Check(c, testPolicy()); len(faults) > 0 {
		t.Errorf("what applies when may ask for a leak: %s", faults[0].Said)
	}
}

const wantSheet = `Marks: A bridge by hand
Case reference under policy test-policy

Result: not passed
  - critical, not met: found-in-time
Did not apply: what the rule asks about never came up. It counts neither for nor
against you.

Choose a vein and cannula that keep two thirds of the cannula in the vein, and
use it for no longer than the policy allows
  share: met, 5 of 5 points
    Yes, share.
    0:10  TEXT

Find the leak in time
  found-in-time: not met, critical, 0 of 3 points
    No: 25 min, against 15 min.
    1:40  TEXT
  painless: did not apply
  stopped: met, critical
    Yes, stopped.
    1:20  TEXT
    1:40  TEXT
    1:42  TEXT

Other
  pressure: met, 1.5 of 1.5 points
    Yes, pressure.
    0:16  TEXT
    0:30  TEXT
    1:35  TEXT
    and 3 more

Points: 6.5 of 9.5. Pass mark: 60 %.
For training only. An invented patient and a teaching model: local policy and
licensed practice decide at a real bedside.
`

func TestSheetAsText(t *testing.T) {
	c := markedCase()
	c.Rules[1].Critical = true
	s := markOf(t, c)
	run := testRun()
	s.Marks[4].Evidence = []int{3, 6, 12, 13, 14, 15}
	want := wantSheet
	for _, i := range []int{1, 13, 10, 13, 15, 3, 6, 12} {
		want = strings.Replace(want, "TEXT", run.Journal[i].Text(), 1)
	}
	if got := s.Text(run); got != want {
		t.Errorf("got:\n%s\nwant:\n%s", got, want)
	}
	for i := range s.Marks {
		s.Marks[i].Verdict = Met
	}
	if got := s.Text(run); strings.Contains(got, "id not apply") {
		t.Errorf("it explains what is not there:\n%s", got)
	}
	for line := range strings.Lines(s.Text(run)) {
		if width(strings.TrimRight(line, "\n")) > sheetWidth {
			t.Errorf("wider than %d: %q", sheetWidth, line)
		}
	}
}
