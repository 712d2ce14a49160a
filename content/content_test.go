package content

import (
	"os"
	"slices"
	"strings"
	"testing"

	"blanch/scenarios"
)

// Everything that is shipped loads, is called what its file is called, and
// names a place and a policy that are shipped too.
func TestShipped(t *testing.T) {
	show := func(out []scenarios.Complaint, src []byte) {
		t.Helper()
		for _, c := range out {
			if c.Level != scenarios.Note {
				t.Error(scenarios.Render(c, src))
			}
		}
	}
	for _, id := range Cases() {
		src, _, _ := Case(id)
		c, out, err := LoadCase(id)
		show(out, src)
		if err != nil || c == nil {
			t.Fatalf("case %s: %v", id, err)
		}
		if c.ID != id {
			t.Errorf("the case in %s.yaml calls itself %q", id, c.ID)
		}
		place, _, err := LoadPlace(c.Place)
		if err != nil {
			t.Errorf("case %s: %v", id, err)
			continue
		}
		show(scenarios.CheckPlace(c, place), src)
		policies := []string{c.Policy}
		for _, w := range c.Walks {
			policies = append(policies, w.Policy)
		}
		for _, p := range policies {
			if !slices.Contains(Policies(), p) {
				t.Errorf("case %s names the policy %q, which is not shipped", id, p)
			}
		}
	}
	for _, id := range Places() {
		src, _, _ := Place(id)
		p, out, err := LoadPlace(id)
		show(out, src)
		if err != nil || p == nil || p.ID != id {
			t.Errorf("place %s: %v, %v", id, p, err)
		}
	}
	for _, id := range Policies() {
		src, _, _ := Policy(id)
		p, out, err := LoadPolicy(id)
		show(out, src)
		if err != nil || p == nil || p.ID != id {
			t.Errorf("policy %s: %v, %v", id, p, err)
		}
	}
}

func TestListsAreSortedAndComplete(t *testing.T) {
	for folder, got := range map[string][]string{"cases": Cases(), "places": Places(), "policies": Policies()} {
		entries, err := os.ReadDir(folder)
		if err != nil {
			t.Fatal(err)
		}
		var want []string
		for _, e := range entries {
			if id, ok := strings.CutSuffix(e.Name(), ".yaml"); ok {
				want = append(want, id)
			}
		}
		if len(want) == 0 || !slices.Equal(got, want) {
			t.Errorf("%s: got %v, want %v", folder, got, want)
		}
	}
}

func TestUnknownNames(t *testing.T) {
	_, _, err := LoadPlace("tern-wrad")
	if err == nil || !strings.Contains(err.Error(), `did you mean "tern-ward"?`) {
		t.Errorf("got %v", err)
	}
	for _, id := range []string{"../content", "", "cases/x", "a\x00b"} {
		if _, _, err := LoadCase(id); err == nil {
			t.Errorf("LoadCase(%q) gave no error", id)
		}
	}
}

// The limits of the shipped policy against the published figures that it
// names: Pandurangadu 2018, Emerg Med J 35:550 (no failure at 65 % or more in
// the vein); US norepinephrine label (phentolamine 5 mg to 10 mg in 10 mL to
// 15 mL); Yerke 2024 (at most 15 mcg/min). 4 mg in 250 mL is 16 mcg/mL.
func TestAlderCourtLimits(t *testing.T) {
	p, _, err := LoadPolicy("alder-court")
	if err != nil || p == nil {
		t.Fatal(p, err)
	}
	for _, f := range []struct {
		what      string
		got, want float64
	}{
		{"least share", p.LeastShare, 0.65},
		{"least antidote, mg", p.AntidoteMG[0], 5},
		{"most antidote, mg", p.AntidoteMG[1], 10},
		{"least dilution, mL", p.AntidoteML[0], 10},
		{"most dilution, mL", p.AntidoteML[1], 15},
		{"highest concentration, mcg/mL", p.MostMcgML["norepinephrine"], 16},
		{"highest dose, mcg/min", p.MostMcgMin["norepinephrine"], 15},
		{"longest run, h", p.LongestRun.Seconds() / 3600, 24},
	} {
		if f.got != f.want {
			t.Errorf("%s is %v, want %v", f.what, f.got, f.want)
		}
	}
}
