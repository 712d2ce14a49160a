package scoring

import "testing"

func TestConstantConditions(t *testing.T) {
	for _, tc := range []struct {
		source    string
		anyPolicy bool
		decided   bool
		value     bool
	}{
		{`true`, false, true, true},
		{`1 > 2`, false, true, false},
		{`minutes(15) <= hours(1)`, false, true, true},
		{`policy.least_share >= percent(60)`, false, true, true},
		{`policy.least_share >= percent(60)`, true, false, false}, // another policy may differ
		{`policy.wants_second_check("pump")`, false, true, false},
		{`minutes(15) <= hours(1)`, true, true, true},
		{`order.target >= mmHg(65)`, true, false, false},
		{`did("feel") or true`, false, true, true},
		{`did("feel") and policy.withdraw_first == false`, false, true, false},
		{`did("feel") or not did("feel")`, false, true, true},
		{`did("feel") and not did("feel")`, false, true, false},
		{`drug_free <= minutes(2) or drug_free > minutes(2)`, false, true, true},
		{`highest_dose <= order.most_dose or highest_dose > order.most_dose`, false, false, false}, // not known fails both
		{`count("feel") >= 0`, false, true, true},
		{`0 > count("feel")`, false, true, false},
		{`count("feel") == -1`, false, true, false},
		{`count("feel") - count("stop") >= 0`, false, false, false},
		{`count("feel") > 0`, false, false, false},
		{`did("feel")`, false, false, false},
		{`found("leak") - visible("leak") <= policy.check_early`, false, false, false},
		{`start <= start`, false, false, false}, // fails when never
		{`ordered.known`, false, true, true},
	} {
		c, p := referenceCase(), testPolicy()
		text := exactText(tc.source)
		x, faults := compile(c, p, text, false, text.At)
		if len(faults) > 0 {
			t.Errorf("%s: %s", tc.source, faults[0].Said)
			continue
		}
		value, decided := constancy(x, c, p, tc.anyPolicy)
		if decided != tc.decided || decided && value != tc.value {
			t.Errorf("%s (any policy %v): decided %v, %v", tc.source, tc.anyPolicy, decided, value)
		}
	}
}
