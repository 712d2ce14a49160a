package scoring

import (
	"strings"
	"testing"

	"blanch/scenarios"
)

// exactText is a text whose first line begins at column 11 of line 7, as a
// literal block would.
func exactText(source string) scenarios.Text {
	t := scenarios.Text{Source: source, Pos: scenarios.Pos{File: "case.yaml", Line: 7, Column: 11}, Exact: true}
	for range strings.Split(source, "\n") {
		t.Columns = append(t.Columns, 11)
	}
	return t
}

func TestFaultsInExpressions(t *testing.T) {
	for _, tc := range []struct {
		source       string
		code         string
		line, column int
		meant        string
		said         string // part of it
	}{
		// Names.
		{`fist("feel").known`, "unknown-fact", 7, 11, "first", `"fist"`},
		{`did("feel") and stert.known`, "unknown-fact", 7, 27, "start", `"stert"`},
		{"did(\"feel\")\n  and polisy.check_early <= minutes(3)", "unknown-fact", 8, 17, "policy.check_early", ""},
		{`line.share_in_vein >= percent(65)`, "unknown-fact", 7, 11, "first_line.share_in_vein", ""},
		{`start - ordered <= policy.check_erly`, "unknown-fact", 7, 30, "policy.check_early", ""},
		{`did("fell")`, "unknown-name", 7, 15, "feel", `no action called "fell"`},
		{`did_on("feel", "leeking line")`, "unknown-name", 7, 26, "leaking line", "role of a line"},
		{`visible("swellin").known`, "unknown-name", 7, 19, "swelling", "no sign"},
		{`right_first("rate")`, "unknown-fact", 7, 11, "", `"right_first"`}, // a sum takes one answer
		{`right("rote")`, "unknown-name", 7, 17, "rate", "sum that this case asks for"},
		{`asked("central-acess").known`, "unknown-name", 7, 17, "central-access", "request"},
		{`told("doctor", "presure")`, "unknown-name", 7, 26, "pressure", "fact"},
		{`lapsed_call("bed-5")`, "unknown-name", 7, 23, "bed-4", "call of this case"},
		{`did(start)`, "not-a-name", 7, 15, "", "an action in double quotes"},
		{`did`, "missing-argument", 7, 11, "", ""},
		{`did()`, "wrong-arguments", 7, 11, "", "0 arguments"},
		{`did("feel", "feel")`, "wrong-arguments", 7, 11, "", "2 arguments"},
		{`start("feel").known`, "too-many-arguments", 7, 11, "", ""},
		{`start.late`, "unknown-fact", 7, 11, "", ""},
		{`first("feel").at`, "no-such-part", 7, 25, "", ""},
		{`(start - seconds(1)).known`, "known-of-result", 7, 32, "", ""},
		{nestedChains(35), "unlike-kinds", 7, 114, "", ""},
		{`outcome.ischaemic_time <= minutes(5)`, "outcome-in-rule", 7, 11, "", ""},

		// Kinds.
		{`start`, "not-a-condition", 7, 11, "", "a moment"},
		{`count("feel")`, "not-a-condition", 7, 11, "", "a count"},
		{`start <= minutes(15)`, "unlike-kinds", 7, 17, "", "a moment and a span"},
		{`start + start <= minutes(5)`, "unlike-kinds", 7, 17, "", ""},
		{`first_line.share_in_vein >= 0.65`, "unlike-kinds", 7, 36, "", "a share and a number"},
		{`highest_dose <= policy.most_concentration`, "unlike-kinds", 7, 24, "", "a dose and a concentration"},
		{`minutes("15") <= drug_free`, "text-refused", 7, 19, "", ""},
		{`minutes(start) <= drug_free`, "wrong-kind", 7, 19, "", "a moment"},
		{`start and did("feel")`, "wrong-kind", 7, 11, "", "conditions on both sides"},
		{`not start`, "wrong-kind", 7, 11, "", "wants a condition"},
		{`-drug_free <= minutes(3)`, "wrong-kind", 7, 11, "", ""},
		{`start == ordered`, "equality-refused", 7, 17, "", ""},
		{`policy.rate_step_mlh == 0.1`, "equality-refused", 7, 32, "", "a number and a number"},
		{`0.1 != 0.2`, "equality-refused", 7, 15, "", ""},
		{`count("feel") == 3.5`, "equality-refused", 7, 25, "", ""},

		// What the language leaves out.
		{`count("feel") in [1, 2]`, "operator-refused", 7, 25, "", `"in"`},
		{`1..1000000000 == 3`, "operator-refused", 7, 12, "", ""},
		{`2 ** 1000 > 3`, "operator-refused", 7, 13, "", ""},
		{`"a" matches "b"`, "operator-refused", 7, 15, "", ""},
		{`let x = 1; x > 0`, "operator-refused", 7, 11, "", ""},
		{`start | did("feel")`, "operator-refused", 7, 17, "", ""},
		{`did("feel") ? true : false`, "operator-refused", 7, 23, "", ""},
		{`{"a": 1}.a == 1`, "operator-refused", 7, 11, "", ""},
		{`policy["check_early"].known`, "operator-refused", 7, 17, "", ""},
		{`all([1], {# > 0})`, "operator-refused", 7, 15, "", ""},
		{`count("feel") / 2 > 1`, "operator-refused", 7, 25, "", ""},
		{`first("feel")?.known`, "operator-refused", 7, 24, "", ""},
		{`$env.start.known`, "unknown-fact", 7, 11, "", ""},
		{`now() == now()`, "unknown-fact", 7, 11, "", ""},
		{`len("x") > 0`, "unknown-fact", 7, 11, "", ""},
		{`repeat("x", 99999) == "x"`, "unknown-fact", 7, 11, "", ""},
		{`fromJSON("1") == 1`, "unknown-fact", 7, 11, "", ""},
		{`sum(start).known`, "unknown-fact", 7, 11, "", ""},
		{`nil == nil`, "not-in-rules", 7, 11, "", ""},
		{`b"x" == b"x"`, "bytes-refused", 7, 11, "", ""},
		{`minutes(1e9) <= drug_free`, "number-too-large", 7, 19, "", ""},
		{`count("feel") + 2000000000 > 0`, "number-too-large", 7, 27, "", ""},

		// Writing.
		{`did("feel"`, "expression-unreadable", 7, 20, "", "too early"},
		{`did("feel") did("stop")`, "expression-unreadable", 7, 23, "", `unexpected "did"`},
		{`did("feel`, "expression-unreadable", 7, 20, "", ""},
		{"did(\"feel\") and\n  (start.known", "expression-unreadable", 8, 24, "", ""},
		{` `, "empty-expression", 7, 11, "", ""},
		{`did("feel")` + strings.Repeat(` or did("feel")`, 150), "expression-too-long", 7, 11, "", ""},
		{strings.Repeat("(", 900) + "true" + strings.Repeat(")", 900), "", 0, 0, "", ""},
		{`true` + strings.Repeat(` or true`, 150), "expression-unreadable", 7, 816, "", "nodes"},
	} {
		text := exactText(tc.source)
		_, faults := compile(referenceCase(), testPolicy(), text, false, text.At)
		if tc.code == "" {
			if len(faults) != 0 {
				t.Errorf("%.40s: %s", tc.source, faults[0].Said)
			}
			continue
		}
		if len(faults) == 0 {
			t.Errorf("%s: passed", tc.source)
			continue
		}
		f := faults[0]
		if f.Code != tc.code || f.Meant != tc.meant || !strings.Contains(f.Said, tc.said) {
			t.Errorf("%.60s:\n  said %s: %s; meant %q", tc.source, f.Code, f.Said, f.Meant)
		}
		if f.Pos.Line != tc.line || f.Pos.Column != tc.column {
			t.Errorf("%.60s: at %d:%d, want %d:%d", tc.source, f.Pos.Line, f.Pos.Column, tc.line, tc.column)
		}
		if f.Level != scenarios.Error || f.Allowed == "" && f.Code != "expression-unreadable" {
			t.Errorf("%.60s: level %d, allowed %q", tc.source, f.Level, f.Allowed)
		}
	}
}

// nestedChains is a short expression whose middles the library's reader uses
// twice at every depth: checked without care it takes 2 to the depth steps.
func nestedChains(depth int) string {
	return strings.Repeat("1<(", depth) + "1<1" + strings.Repeat(")<1", depth)
}

func TestAllFaultsOfAnExpressionAreReported(t *testing.T) {
	text := exactText(`did("fell") and stert.known and first_line.share_in_vein >= 0.65`)
	_, faults := compile(referenceCase(), testPolicy(), text, false, text.At)
	if len(faults) != 3 {
		t.Fatalf("%d faults, want 3: %v", len(faults), faults)
	}
}

func TestLimitThatThePolicyDoesNotSet(t *testing.T) {
	c := referenceCase()
	c.Order.Drug = "vasopressin"
	text := exactText(`highest_dose <= policy.most_dose`)
	_, faults := compile(c, testPolicy(), text, false, text.At)
	if len(faults) != 1 || faults[0].Code != "no-such-limit" || faults[0].Pos.Column != 27 {
		t.Fatalf("got %v", faults)
	}
}

func TestConditionsThatHold(t *testing.T) {
	for source, want := range map[string]bool{
		`found("leak") - visible("leak") <= minutes(25)`:                                     true,
		`found("leak") - visible("leak") <= policy.check_early`:                              false,
		`found("blanching") - visible("leak") <= hours(100)`:                                 false,
		`found("blanching") - visible("leak") > hours(100)`:                                  true,
		`not (found("blanching") - visible("leak") <= hours(100))`:                           true,
		`minutes(20) < found("leak") - visible("leak") <= minutes(25)`:                       true,
		`first("feel") < first("pull")`:                                                      true,
		`first("pull") <= first("pull")`:                                                     false,
		`start.known && !first("pull").known`:                                                true,
		`count("feel") + count("pull") == 2`:                                                 true,
		`count("feel") >= 1.5`:                                                               true,
		`wrongly_named == did("feel")`:                                                       true,
		`drug_free * 2 <= minutes(3)`:                                                        true,
		`drug_free * 0.5 < seconds(45)`:                                                      false,
		`antidote_mg >= policy.least_antidote_mg and antidote_mg <= policy.most_antidote_mg`: true,
	} {
		text := exactText(source)
		x, faults := compile(referenceCase(), testPolicy(), text, false, text.At)
		if len(faults) > 0 {
			t.Errorf("%s: %s", source, faults[0].Said)
			continue
		}
		if got := x.of(&record{Result: testRun(), policy: testPolicy()}).holds(); got != want {
			t.Errorf("%s is %v", source, got)
		}
	}
}

func FuzzCompile(f *testing.F) {
	for _, fact := range facts {
		f.Add(fact.Example)
	}
	f.Add("((((")
	f.Add("-1 + -1 > {}")
	c, p, run := referenceCase(), testPolicy(), testRun()
	f.Fuzz(func(t *testing.T, source string) {
		text := scenarios.Text{Source: source}
		x, faults := compile(c, p, text, false, text.At)
		if (x == nil) != (len(faults) > 0) {
			t.Fatalf("%q: neither or both of a rule and a complaint", source)
		}
		if x == nil {
			return
		}
		bothAgree(t, x, run, p)
		constancy(x, c, p, false)
	})
}
