package scoring

import (
	"strings"
	"testing"

	"blanch/scenarios"
)

// Every name of every closed list has its meaning, and every meaning a name.
func TestEveryNameHasAMeaning(t *testing.T) {
	for s := acts; s <= sharings; s++ {
		a := s.argument()
		if (a.Where != "") == (len(a.Names) > 0) {
			t.Errorf("%s: %d names, found %q", a.What, len(a.Names), a.Where)
		}
		for _, n := range a.Names {
			if !strings.HasSuffix(n.Says, ".") {
				t.Errorf("%s %q is not explained: %q", a.What, n.Name, n.Says)
			}
		}
		if len(a.Names) > 0 && len(meanings[s]) != len(s.names(&scenarios.Case{})) {
			t.Errorf("%s: %d meanings for %d names", a.What, len(meanings[s]), len(a.Names))
		}
	}
	if got := factByName["first_on"].Arguments(); len(got) != 2 || got[1].StandsAs != "line" || len(got[1].Names) != len(LineRoles()) {
		t.Errorf("first_on takes %+v", got)
	}
}
