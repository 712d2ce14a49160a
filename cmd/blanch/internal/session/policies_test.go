package session

import (
	"slices"
	"strings"
	"testing"

	"blanch/content"
)

func TestCompareTwoPolicies(t *testing.T) {
	a, err := PolicyNamed("alder-court")
	if err != nil {
		t.Fatal(err)
	}
	b := *a
	b.Sites = a.Sites[:1]
	b.LongestRun = 0
	b.AntidoteFor = []string{"leak"}
	differ, same := Compare(a, &b)
	var got []string
	for _, d := range differ {
		got = append(got, d.A.Key+": "+d.A.Says+" / "+d.B.Says)
	}
	want := []string{"longest run: 24 h / no end", "sites: forearm, fossa, upper-arm / forearm", "antidote for: the policy does not say / any sign of a leak"}
	if !slices.Equal(got, want) {
		t.Errorf("they differ on\n%s\nwant\n%s", strings.Join(got, "\n"), strings.Join(want, "\n"))
	}
	if len(same)+len(differ) != len(a.Limits()) {
		t.Errorf("%d the same and %d not, of %d", len(same), len(differ), len(a.Limits()))
	}
}

// A case that one of the policies cannot mark is told with its reasons, and
// the others are compared all the same.
func TestWalksThatCannotBeMarked(t *testing.T) {
	a, err := PolicyNamed("alder-court")
	if err != nil {
		t.Fatal(err)
	}
	b := *a
	b.Source = []byte(strings.Replace(string(a.Source), "tolerance: 1 %", "tolerance: 1 mL", 1))
	differ, played, unmarked, err := CompareWalks(a, &b)
	if err != nil || len(differ) > 0 || played > 0 || len(unmarked) != len(content.Cases()) {
		t.Fatalf("%v, %d played, %q, %v", differ, played, unmarked, err)
	}
	if !strings.HasPrefix(unmarked[0], content.Cases()[0]+":\n") || !strings.Contains(unmarked[0], "[wrong-unit]") {
		t.Errorf("the reason is not told: %s", unmarked[0])
	}
}

// Premixed bags are offered where there are any, and stand in no one's way
// elsewhere; the stock shows them and which pumps have a library.
func TestPremixedIsOfferedWhereThereIsAny(t *testing.T) {
	src, err := Find("night-bridge", "")
	if err != nil {
		t.Fatal(err)
	}
	for place, want := range map[string]bool{"tern-ward": false, "gannet-emergency": true} {
		text, file, err := content.Place(place)
		if err != nil {
			t.Fatal(err)
		}
		src.Place, src.PlaceFile = text, file
		a, err := Load(src, 1)
		if err != nil {
			t.Fatal(err)
		}
		s, err := New(a, 0)
		if err != nil {
			t.Fatal(err)
		}
		got := slices.ContainsFunc(s.Offers("", 0), func(o Offer) bool { return o.Name == "premixed" })
		stock := ""
		for _, l := range s.stock("") {
			stock += l.Text + "\n"
		}
		if got != want || strings.Contains(stock, "Premixed bags: 2 of norepinephrine 4 mg in 250 mL; 1 of vasopressin 20 units in 100 mL.") != want ||
			strings.Contains(stock, "with a drug library") != want {
			t.Errorf("%s: offered is %v, stock\n%s", place, got, stock)
		}
		if g, open := s.NextGap("take a premixed bag of 4 mg of {drug} in 250 mL"); !open || want && !slices.Contains(g.Choices, "vasopressin") {
			t.Errorf("%s: the gap offers %v", place, g.Choices)
		}
	}
}
