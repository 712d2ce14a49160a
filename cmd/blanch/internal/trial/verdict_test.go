package trial

import (
	"path/filepath"
	"regexp"
	"slices"
	"strings"
	"testing"

	"blanch/scenarios"
	"blanch/sim"
)

// codes are the findings of a level.
func codes(r *Report, level Level) (out []string) {
	for _, f := range r.Findings {
		if f.Level == level && !slices.Contains(out, f.Code) {
			out = append(out, f.Code)
		}
	}
	return out
}

// edited is the shipped case with some of its text changed.
func edited(t *testing.T, pairs ...string) *Study {
	t.Helper()
	return editedFile(t, content+"cases/night-bridge.yaml", content+"places/tern-ward.yaml", pairs...)
}

func editedFile(t *testing.T, file, placeFile string, pairs ...string) *Study {
	t.Helper()
	c := loadEdited(t, file, pairs...)
	place, _ := scenarios.LoadPlace(placeFile, read(t, placeFile))
	_, _, policy := shipped(t)
	return studyOf(t, c, place, policy)
}

func TestVerdicts(t *testing.T) {
	const late = "when: first_drug - ordered <= policy.start_by"
	for name, tc := range map[string]struct {
		s                *Study
		faults, cautions []string
		said             string
	}{
		"as it ships": {studyOfShipped(t), nil, nil, "line-left-alone"},
		"nothing lost by needless treatment": {
			edited(t, ", no-needless-treatment]", "]", "critical: true\n    when: second_line", "when: second_line", "points: 80 %", "points: 70 %"),
			nil, []string{"treating-everything-passes"}, "taking every arm for leaking"},
		"a rule that nobody meets": {
			edited(t, late, "when: first_drug - ordered <= minutes(5)", "points: 5\n    critical: true\n    when: first_drug", "points: 5\n    when: first_drug"),
			[]string{"unreachable-rule"}, nil, "the rule in-time cannot be met"},
		"a critical one": {
			edited(t, late, "when: first_drug - ordered <= minutes(5)"),
			[]string{"cannot-be-won"}, nil, "the critical rule in-time is never met"},
		"too many points to be had": {
			edited(t, "points: 80 %", "points: 100 %", "    when: right(\"empty\")", "    when: count(\"read-order\") > 3"),
			[]string{"cannot-be-won", "unreachable-rule"}, nil, "and 100 % are needed"},
		"leaks that luck did not send": {
			edited(t, "leak: {fate: placed, begins: 75 min after start, over: 15 min, share lost: 90 %}", "leak: {fate: by hazard, base: 0.0001 per hour}"),
			nil, []string{"unreachable-rule"}, "no run leaked, and leaks come by luck here, so try more runs"},
		"hardly anything asked": {
			editedFile(t, "../../testdata/files/small.yaml", "../../testdata/files/small-ward.yaml", `did("read-order")`, `did("secure") or did("ask-arms")`),
			[]string{"no-discrimination"}, []string{"treating-everything-passes", "chance-passes"}, "do not stand apart"},
	} {
		r := tried(t, tc.s, 30)
		if got := codes(r, Fault); !slices.Equal(got, tc.faults) {
			t.Errorf("%s: faults %q, want %q", name, got, tc.faults)
		}
		if got := codes(r, Caution); !slices.Equal(got, tc.cautions) {
			t.Errorf("%s: cautions %q, want %q", name, got, tc.cautions)
		}
		if r.Faulty() != (len(tc.faults) > 0) {
			t.Errorf("%s: faulty %t", name, r.Faulty())
		}
		if !strings.Contains(strings.Join(strings.Fields(r.Text()), " "), tc.said) {
			t.Errorf("%s: the report does not say %q:\n%s", name, tc.said, r.Text())
		}
	}
}

func TestUselessActions(t *testing.T) {
	tried, refused := make([]int, len(actions)), make([]int, len(actions))
	number := func(name string) int {
		return slices.IndexFunc(actions, func(a sim.Spec) bool { return a.Name == name })
	}
	for i := range tried {
		tried[i] = 1
	}
	tried[number("nitrate")], refused[number("nitrate")] = 0, 3
	tried[number("warm")] = 0
	tried[number("tie")] = 0
	got := useless(tried, refused, []string{"warm", "feel"})
	if !slices.Equal(got.NeverPossible, []string{"nitrate"}) || !slices.Equal(got.NeverTaken, []string{"warm"}) {
		t.Errorf("%+v", got)
	}
}

// through is a call of the engine by a learner.
var through = regexp.MustCompile(`\b[lb]\.e\.([A-Z][A-Za-z]*)`)

// whose reads the field of an entry that tells a patient's own finding from a leak's.
var whose = regexp.MustCompile(`\.Own\b`)

// What a learner may ask of the engine is what a screen shows.
func TestSkillsAskTheEngineForNothingHidden(t *testing.T) {
	shown := []string{"Do", "Advance", "Now", "Over", "Reckoned", "HandsFree", "FreeFor", "Next", "View", "Possible", "Vocabulary"}
	files, err := filepath.Glob("*.go")
	if err != nil {
		t.Fatal(err)
	}
	for _, file := range files {
		if strings.HasSuffix(file, "_test.go") {
			continue
		}
		text := string(read(t, file))
		for _, m := range through.FindAllStringSubmatch(text, -1) {
			if !slices.Contains(shown, m[1]) {
				t.Errorf("%s reads %s", file, m[1])
			}
		}
		if whose.MatchString(text) { // nobody is told
			t.Errorf("%s reads whose a finding is", file)
		}
	}
}
