package scenarios

import (
	"os"
	"path/filepath"
	"strings"
	"testing"

	"blanch/sim"
)

// shippedPolicy loads a policy that ships.
func shippedPolicy(t *testing.T, id string) *Policy {
	t.Helper()
	file := filepath.Join("..", "content", "policies", id+".yaml")
	src, err := os.ReadFile(file)
	if err != nil {
		t.Fatal(err)
	}
	p, out := LoadPolicy(file, src)
	if p == nil {
		t.Fatalf("%s: %v", id, out)
	}
	return p
}

// The shipped policies are what their notes say: published protocols run from
// 4 h (an emergency department, 2015) over 24 h, 48 h (Yerke 2024) and 72 h
// (Cardenas-Garcia 2015) to no end.
func TestShippedPoliciesSayWhatTheyWereReadFor(t *testing.T) {
	for id, want := range map[string]map[string]string{
		"alder-court":   {"longest run": "24 h", "sites": "forearm, fossa, upper-arm", "dosing weight": Unsaid, "scale": Unsaid},
		"gannet-street": {"longest run": "4 h", "sites": "fossa, upper-arm", "antidote dose": "5 mg to 15 mg of phentolamine", "other antidotes": "terbutaline 0.5 mg to 1 mg", "second checks": "set-up, new-concentration", "rate step": "1 mL/h"},
		"marl-hill":     {"longest run": "48 h", "sites": "forearm", "highest concentration": "norepinephrine 64 mcg/mL", "blood return while running": "with every check", "gauges": "18, 20, 22"},
		"saltmere":      {"longest run": "72 h", "sites": "forearm, upper-arm", "least vein": "4 mm", "check early": "at least every 2 h", "antidote for": "blanching, coolness, slow-refill", "call for central access": "3 failed tries at an arm vein"},
		"quarry-lane": {"longest run": "no end", "highest dose": "norepinephrine 10 mcg/min, vasopressin 0.03 units/min", "withdraw first": "the drug's volume is taken out of the bag first",
			"call for central access": "over 8 mcg/min of norepinephrine; or over 0.02 units/min of vasopressin; or 2 vasopressors at once; or 2 failed tries at an arm vein", "antidote volume": "made up to 10 mL"},
	} {
		said := map[string]string{}
		for _, l := range shippedPolicy(t, id).Limits() {
			said[l.Key] = l.Says
			if l.Says != Unsaid && l.Because == "" {
				t.Errorf("%s: nothing says where %s comes from", id, l.Key)
			}
		}
		for key, words := range want {
			if said[key] != words {
				t.Errorf("%s, %s: %q, want %q", id, key, said[key], words)
			}
		}
	}
}

// Every limit of the table has words, and an example of its field changes
// them: no limit is read and then not shown.
func TestEveryLimitHasWordsThatFollowIt(t *testing.T) {
	src, err := os.ReadFile(filepath.Join("..", "content", "scaffold", "policy.yaml"))
	if err != nil {
		t.Fatal(err)
	}
	for _, w := range limitRows {
		if limitWords[w.Key] == nil {
			t.Fatalf("%s has no words", w.Key)
		}
		words := map[string]bool{}
		for _, value := range []string{"", w.Example, otherValue[w.Key]} {
			var lines []string
			for l := range strings.Lines(string(src)) {
				if !strings.HasPrefix(l, w.Key+":") {
					lines = append(lines, l)
				}
			}
			text := strings.Join(lines, "")
			if value != "" {
				text = strings.Replace(text, "\nbecause:", "\n"+w.Key+": "+value+"\n\nbecause:", 1)
			} else if w.Needed {
				continue
			}
			p, out := LoadPolicy("policy.yaml", []byte(text))
			if p == nil {
				t.Fatalf("%s: %s: %v", w.Key, value, out)
			}
			words[limitWords[w.Key](p)] = true
		}
		if want := map[bool]int{true: 2, false: 3}[w.Needed]; len(words) != want {
			t.Errorf("%s: words %v, want %d of them", w.Key, words, want)
		}
	}
}

// otherValue is another value for each limit than its example.
var otherValue = map[string]string{
	"longest run": "36 h", "decide by": "3 h", "check early": "20 min", "early for": "90 min", "check later": "110 min",
	"sites": "[forearm]", "gauges": "[20]", "shortest cannula": "40 mm", "least share": "66.5 %", "least vein": "3 mm",
	"highest concentration": "{norepinephrine: 32 mcg/mL}", "highest dose": "{vasopressin: 0.03 units/min}",
	"dosing weight": "stated", "second checks": "[bag, handover]", "line shared with": "flush",
	"blood return while running": "with every check", "change bag after": "12 h", "backup by": "61 s", "start by": "25 min",
	"antidote dose": "{least: 5 mg, most: 15 mg}", "antidote volume": "{least: 10 mL, most: 10 mL}", "antidote by": "2 h",
	"antidote for": "[leak]", "other antidotes": "{terbutaline: {least: 1 mg, most: 1 mg}}", "scale": "another scale",
	"call for central access": "{vasopressors: 2}", "rate step": "1 mL/h", "tolerance": "2 %", "withdraw first": "true",
}

func TestTimeWordsLoseNothing(t *testing.T) {
	for at, want := range map[sim.Time]string{0: "0 s", sim.Second: "1 s", 61 * sim.Second: "1 min 1 s", 90 * sim.Minute: "1 h 30 min", 72 * sim.Hour: "72 h"} {
		if got := TimeWords(at); got != want {
			t.Errorf("%d ms is %q, want %q", at, got, want)
		}
	}
}
