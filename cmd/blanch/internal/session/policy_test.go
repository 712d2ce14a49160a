package session

import (
	"regexp"
	"slices"
	"strings"
	"testing"

	"blanch/content"
	"blanch/scenarios"
)

// oddLimits are limits with more to them than a shipped policy has: none is a
// whole minute, and each measure has all the digits that its field may have.
var oddLimits = map[string]string{
	"longest run": "1530 min", "decide by": "110 min", "check early": "90 s", "early for": "100 s", "check later": "61 min",
	"sites": "[forearm]", "gauges": "[20]", "shortest cannula": "29.25 mm", "least share": "66.55 %", "least vein": "3.25 mm",
	"highest concentration": "{norepinephrine: 15.625 mcg/mL, vasopressin: 0.0125 units/mL}", "highest dose": "{vasopressin: 0.0325 units/min}",
	"dosing weight": "stated", "second checks": "[handover]", "line shared with": "flush",
	"blood return while running": "with every check", "change bag after": "745 s", "backup by": "61 s", "start by": "1799 s",
	"antidote dose": "{least: 5.125 mg, most: 15 mg}", "antidote volume": "{least: 9.75 mL, most: 10 mL}", "antidote by": "100 s",
	"antidote for": "[blanching]", "other antidotes": "{terbutaline: {least: 0.125 mg, most: 1 mg}}", "scale": "another scale",
	"call for central access": "{vasopressors: 2}", "rate step": "0.25 mL/h", "tolerance": "1.25 %", "withdraw first": "true",
}

// policyWith is the scaffold's policy with other limits.
func policyWith(t *testing.T, limits map[string]string) *scenarios.Policy {
	t.Helper()
	src, err := content.Scaffold("policy", "odd")
	if err != nil {
		t.Fatal(err)
	}
	var lines []string
	for line := range strings.Lines(src) {
		if key, _, _ := strings.Cut(line, ":"); limits[key] == "" {
			lines = append(lines, line)
		}
	}
	var said strings.Builder
	for _, key := range sorted(limits) {
		said.WriteString(key + ": " + limits[key] + "\n")
	}
	text := strings.Replace(strings.Join(lines, ""), "\nbecause:", "\n"+said.String()+"\nbecause:", 1)
	p, out := scenarios.LoadPolicy("policy.yaml", []byte(text))
	if p == nil {
		t.Fatal(out)
	}
	return p
}

func read(p *scenarios.Policy) string {
	s := &Session{a: &Attempt{Policy: p}}
	var b strings.Builder
	for _, line := range s.policy("") {
		b.WriteString(line.Text + "\n")
	}
	return b.String()
}

// measure is a number with what it counts, as limits say it: "1 min 30 s".
var measure = regexp.MustCompile(`\d+(\.\d+)? [a-z%/L]+( \d+ [a-z]+)*`)

// The policy as the learner reads it is the one that marks, to the last digit.
func TestThePolicyIsReadAsItMarks(t *testing.T) {
	odd := policyWith(t, oddLimits)
	text := read(odd)
	for _, l := range odd.Limits() {
		if oddLimits[l.Key] == "" {
			t.Errorf("%s: this test has no value for it", l.Key)
		}
		for _, m := range measure.FindAllString(l.Says, -1) {
			if !regexp.MustCompile(`(^|[^\d.])` + regexp.QuoteMeta(m) + `([^a-z\d]|$)`).MatchString(text) {
				t.Errorf("%s: it marks by %q, and the learner reads nothing of that in\n%s", l.Key, m, text)
			}
		}
		without := policyWith(t, except(oddLimits, l.Key))
		if read(without) == text {
			t.Errorf("%s: %q reads like the scaffold's %q", l.Key, l.Says, said(without, l.Key))
		}
	}
}

// except leaves a limit as the scaffold has it.
func except(limits map[string]string, key string) map[string]string {
	out := map[string]string{}
	for k, v := range limits {
		if k != key {
			out[k] = v
		}
	}
	return out
}

func said(p *scenarios.Policy, key string) string {
	all := p.Limits()
	return all[slices.IndexFunc(all, func(l scenarios.Limit) bool { return l.Key == key })].Says
}
