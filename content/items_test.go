package content

import (
	"regexp"
	"slices"
	"strings"
	"testing"

	"blanch/scenarios"
)

func shippedItems(t *testing.T) []*scenarios.Items {
	t.Helper()
	all, err := Items()
	if err != nil || len(all) == 0 {
		t.Fatal(err)
	}
	return all
}

func shippedPolicies(t *testing.T) []*scenarios.Policy {
	t.Helper()
	var out []*scenarios.Policy
	for _, id := range Policies() {
		p, _, err := LoadPolicy(id)
		if err != nil || p == nil {
			t.Fatal(id, err)
		}
		out = append(out, p)
	}
	if len(out) != 5 {
		t.Fatalf("%d policies are shipped", len(out))
	}
	return out
}

// heads are what all items say of themselves, by their names.
func heads(t *testing.T) map[string]scenarios.ItemHead {
	out := map[string]scenarios.ItemHead{}
	add := func(h scenarios.ItemHead) {
		if _, twice := out[h.ID]; twice {
			t.Errorf("two items are called %q", h.ID)
		}
		out[h.ID] = h
	}
	for _, f := range shippedItems(t) {
		for _, s := range f.Singles {
			add(s.ItemHead)
		}
		for _, o := range f.Orders {
			add(o.ItemHead)
		}
	}
	return out
}

// Nothing is said of a shipped file of items, not even a note.
func TestItemsAreClean(t *testing.T) {
	for _, name := range ItemNames() {
		src, _, _ := ItemFile(name)
		f, out, err := LoadItems(name)
		for _, c := range out {
			t.Error(scenarios.Render(c, src))
		}
		if err != nil || f == nil || f.ID != name {
			t.Errorf("%s: %v, %v", name, f, err)
		}
	}
	if _, _, err := LoadItems("choosing-teh-line"); err == nil || !strings.Contains(err.Error(), `did you mean "choosing-the-line"?`) {
		t.Errorf("got %v", err)
	}
}

// Every unit and level has its items; no panel was asked, so no script
// concordance is shipped.
func TestItemsCoverTheJob(t *testing.T) {
	units, levels := map[string]int{}, map[string]int{}
	singles, orders, critical := 0, 0, 0
	for _, f := range shippedItems(t) {
		units[f.Unit] += len(f.Singles) + len(f.Orders)
		singles += len(f.Singles)
		orders += len(f.Orders)
		if len(f.Concordances) > 0 {
			t.Errorf("%s: a script concordance without a panel", f.ID)
		}
	}
	for _, h := range heads(t) {
		levels[h.Level]++
		if h.Critical {
			critical++
		}
	}
	for _, u := range scenarios.Units {
		if units[u] < 20 {
			t.Errorf("unit %s has %d items", u, units[u])
		}
	}
	for _, l := range scenarios.ItemLevels {
		if levels[l] < 30 {
			t.Errorf("level %s has %d items", l, levels[l])
		}
	}
	if singles < 120 || orders < 20 || critical < 30 {
		t.Errorf("%d single best answers, %d orderings, %d critical", singles, orders, critical)
	}
	t.Logf("%d single best answers, %d orderings, %d critical; units %v, levels %v", singles, orders, critical, units, levels)
}

// Guessing one place wins no more than guessing at all does: over all items
// with four options, each place holds a fifth to a third of the keys.
func TestItemKeysAreSpread(t *testing.T) {
	counts, n := make([]int, 4), 0
	for _, f := range shippedItems(t) {
		for _, s := range f.Singles {
			if s.Decides == "" && len(s.Options) == 4 {
				n++
				counts[s.Key(nil)]++
			}
		}
	}
	for i, c := range counts {
		if share := float64(c) / float64(n); share < 0.2 || share > 0.34 {
			t.Errorf("place %d holds %d of %d keys", i+1, c, n)
		}
	}
}

// A source names a publication, a label, or says that it is common practice
// or arithmetic; where sources disagree, each side says who holds it.
func TestItemSources(t *testing.T) {
	known := regexp.MustCompile(`\b(19|20)[0-9]{2}\b|label|Common practice|common practice|Arithmetic|Trigonometry|Dead volume divided|ISMP|FDA|Joint Commission|PSNet|Infusion Nurses Society|guideline|procedure|protocol|monograph|Emerg Med J|Emerg Radiol|BMJ Qual Saf|Nursing|Published|ASHP|teaching note|flow charts`)
	for id, h := range heads(t) {
		if len(h.Sources) == 0 {
			t.Errorf("%s has no source", id)
		}
		for _, s := range h.Sources {
			if !known.MatchString(s) {
				t.Errorf("%s: nobody finds %q", id, s)
			}
		}
		for _, v := range h.Views {
			if v.Holds == "" || v.By == "" {
				t.Errorf("%s: a view without words or holder", id)
			}
		}
	}
}

// Where a policy decides, one option is right under each of the shipped
// policies, and they do not all agree: otherwise the item shows nothing.
func TestItemsThatFollowThePolicy(t *testing.T) {
	n := 0
	limits := map[string]bool{}
	for _, f := range shippedItems(t) {
		for _, s := range f.Singles {
			if s.Decides == "" {
				continue
			}
			n++
			limits[s.Decides] = true
			keys := map[int]bool{}
			for _, p := range shippedPolicies(t) {
				key := s.Key(p)
				if key < 0 {
					t.Errorf("%s has no right option under %s", s.ID, p.ID)
				}
				keys[key] = true
			}
			if len(keys) < 2 {
				t.Errorf("%s: the same option is right under every shipped policy", s.ID)
			}
			if s.Key(nil) != -1 {
				t.Errorf("%s has a key without a policy", s.ID)
			}
			if len(s.Views) < 2 {
				t.Errorf("%s shows %d views", s.ID, len(s.Views))
			}
		}
	}
	for _, f := range shippedItems(t) {
		for _, o := range f.Orders {
			if o.Decides == "" {
				continue
			}
			sizes := map[int]bool{}
			for _, p := range shippedPolicies(t) {
				under := o.Under(p)
				answer := make([]int, len(under.Steps))
				for i := range answer {
					answer[i] = i
				}
				if !under.Right(answer) || len(answer) < 3 {
					t.Errorf("%s under %s: %d steps, in order: %v", o.ID, p.ID, len(answer), under.Right(answer))
				}
				sizes[len(answer)] = true
			}
			if len(sizes) < 2 {
				t.Errorf("%s has the same steps under every shipped policy", o.ID)
			}
		}
	}
	if n < 12 || len(limits) < 10 {
		t.Errorf("%d items follow the policy, over %d limits", n, len(limits))
	}
}

// What each shipped policy makes of some items, read in the policies by hand:
// two of them let the fossa in, one goes to 15 mg, one ends after 4 h.
func TestItemsUnderShippedPolicies(t *testing.T) {
	wanted := map[string]map[string]string{
		"elbow-or-not":       {"alder-court": "It is taken", "gannet-street": "It is taken", "marl-hill": "It is passed over", "quarry-lane": "It is passed over", "saltmere": "It is passed over"},
		"how-many-mg":        {"alder-court": "It lies over", "gannet-street": "It lies within", "marl-hill": "It lies over", "quarry-lane": "It lies over", "saltmere": "It lies over"},
		"how-much-liquid":    {"alder-court": "It is within", "gannet-street": "It is over", "marl-hill": "It is within", "quarry-lane": "It is over", "saltmere": "It is within"},
		"hours-by-policy":    {"alder-court": "It must move", "gannet-street": "It should have moved", "marl-hill": "It may stay", "quarry-lane": "It may stay", "saltmere": "It may stay"},
		"bag-of-64":          {"alder-court": "It may not", "gannet-street": "It may not", "marl-hill": "It may run", "quarry-lane": "It may not", "saltmere": "It may not"},
		"swelling-alone":     {"alder-court": "Phentolamine now", "gannet-street": "Phentolamine now", "marl-hill": "Phentolamine now", "quarry-lane": "Phentolamine now", "saltmere": "Close watch"},
		"which-weight":       {"alder-court": "The policy has no word", "gannet-street": "110 kg", "marl-hill": "118 kg", "quarry-lane": "70 kg", "saltmere": "118 kg"},
		"share-the-line":     {"alder-court": "The policy has no word", "gannet-street": "No", "marl-hill": "Yes", "quarry-lane": "No", "saltmere": "No"},
		"bag-since-morning":  {"alder-court": "The policy has no word", "gannet-street": "It is changed", "marl-hill": "It runs on", "quarry-lane": "It runs on", "saltmere": "It runs on"},
		"narrow-vein":        {"alder-court": "The policy has no word", "gannet-street": "The policy has no word", "marl-hill": "The policy has no word", "quarry-lane": "The policy has no word", "saltmere": "It is too narrow"},
		"handover-hands":     {"alder-court": "No", "gannet-street": "No", "marl-hill": "No", "quarry-lane": "Yes", "saltmere": "Yes"},
		"draw-blood-running": {"alder-court": "The policy has no word", "gannet-street": "No", "marl-hill": "Yes", "quarry-lane": "No", "saltmere": "It may"},
	}
	for _, f := range shippedItems(t) {
		for _, s := range f.Singles {
			for _, p := range shippedPolicies(t) {
				want, ok := wanted[s.ID][p.ID]
				if ok && !strings.HasPrefix(s.Options[s.Key(p)].Says, want) {
					t.Errorf("%s under %s: %q", s.ID, p.ID, s.Options[s.Key(p)].Says)
				}
				if ok {
					delete(wanted[s.ID], p.ID)
				}
			}
		}
	}
	for id, left := range wanted {
		if len(left) > 0 {
			t.Errorf("%s was not found under %v", id, left)
		}
	}
}

// Where a policy says nothing, no key speaks as if it did: the right option
// says that the policy is silent, and what to do then.
func TestSilenceIsNoLeave(t *testing.T) {
	silent := map[string]string{"other antidotes": "the policy names none"}
	n := 0
	for _, f := range shippedItems(t) {
		for _, s := range f.Singles {
			// An unsaid end is none, and an unsaid list of findings is every leak:
			// the loader reads them so.
			if s.Decides == "" || s.Decides == "longest run" || s.Decides == "antidote for" {
				continue
			}
			for _, p := range shippedPolicies(t) {
				if !slices.ContainsFunc(p.Limits(), func(l scenarios.Limit) bool { return l.Key == s.Decides && l.Says == scenarios.Unsaid }) {
					continue
				}
				n++
				want := silent[s.Decides]
				if want == "" {
					want = "The policy has no word"
				}
				if says := s.Options[s.Key(p)].Says; !strings.Contains(says, want) {
					t.Errorf("%s under %s, which does not say: %q", s.ID, p.ID, says)
				}
				if strings.Contains(s.Stem, "policy says") || strings.Contains(s.Stem, "policy gives") || strings.Contains(s.Stem, "policy lists") {
					t.Errorf("%s under %s: the stem speaks of what the policy does not say: %q", s.ID, p.ID, s.Stem)
				}
			}
		}
		for _, o := range f.Orders {
			for _, p := range shippedPolicies(t) {
				if o.Decides != "" && strings.Contains(o.Stem, "policy says") &&
					slices.ContainsFunc(p.Limits(), func(l scenarios.Limit) bool { return l.Key == o.Decides && l.Says == scenarios.Unsaid }) {
					t.Errorf("%s under %s: the stem speaks of what the policy does not say: %q", o.ID, p.ID, o.Stem)
				}
			}
		}
	}
	if n < 8 {
		t.Errorf("%d keys under a silent policy were looked at", n)
	}
}

// The raw files hold no notation that the Joint Commission or ISMP warn of,
// looked for in another way than the linter does; a unit stands behind a
// space; and nothing is called safe.
func TestItemsHoldNoUnsafeNotation(t *testing.T) {
	unit := regexp.MustCompile(`^(mcg|mg|kg|g|mL|L|mm|cm|mmHg|min|h|s|units|unit|lb|degrees)(/|$)`)
	for _, name := range ItemNames() {
		src, _, _ := ItemFile(name)
		text := string(src)
		for i, word := range strings.Fields(text) {
			bare := strings.Trim(word, `"'(),;:?`)
			for _, r := range bare {
				if r == '\u00b5' || r == '\u03bc' {
					t.Errorf("%s: %q has a Greek letter", name, word)
				}
			}
			whole, part, point := strings.Cut(strings.TrimSuffix(bare, "."), ".")
			if digits(whole) && digits(part) && point && strings.HasSuffix(part, "0") {
				t.Errorf("%s: %q has a zero after the point", name, word)
			}
			if point && whole == "" && digits(part) {
				t.Errorf("%s: %q has nothing before the point", name, word)
			}
			if bare == "U" || bare == "IU" || bare == "cc" || bare == "ug" {
				t.Errorf("%s: %q is not written out", name, word)
			}
			if j := strings.IndexFunc(bare, func(r rune) bool { return r < '0' || r > '9' }); j > 0 && unit.MatchString(bare[j:]) {
				t.Errorf("%s: %q, word %d, touches its unit", name, word, i)
			}
		}
		text = strings.ReplaceAll(text, "No time is safe", "")
		for _, claim := range []string{"is safe", "safely for", "safe for", "safe time for", "safe up to"} {
			if strings.Contains(text, claim) {
				t.Errorf("%s says %q", name, claim)
			}
		}
	}
}

func digits(s string) bool {
	return s != "" && strings.IndexFunc(s, func(r rune) bool { return r < '0' || r > '9' }) < 0
}

// The units come in the order in which they are learnt.
func TestItemsComeInTheOrderOfUnits(t *testing.T) {
	last := 0
	for _, f := range shippedItems(t) {
		at := slices.Index(scenarios.Units, f.Unit)
		if at < last {
			t.Errorf("%s, of unit %s, stands too late", f.ID, f.Unit)
		}
		last = at
	}
}

// BenchmarkItems reads every shipped file of items, with all its checks.
func BenchmarkItems(b *testing.B) {
	for b.Loop() {
		if _, err := Items(); err != nil {
			b.Fatal(err)
		}
	}
}
