package session

import (
	"strings"
	"testing"

	"blanch/sim"
)

// TestEachDrugInTissueInItsOwnUnit: vasopressin is counted in units, also
// where the order's first drug is another.
func TestEachDrugInTissueInItsOwnUnit(t *testing.T) {
	r := &sim.Result{Tissue: []sim.TissueDrug{{Drug: "norepinephrine", Amount: 12.34}, {Drug: "vasopressin", Amount: 0.62}}}
	if got := inTissue(r); got != "12.34 mcg of norepinephrine and 0.62 units of vasopressin" {
		t.Errorf("%q", got)
	}
}

// TestWhatRanBeforeIsNotSaidToBegin at 0:00.
func TestWhatRanBeforeIsNotSaidToBegin(t *testing.T) {
	s := begun(t, "two-pumps", 0)
	s.Stop()
	var text strings.Builder
	for _, p := range s.Debrief("") {
		if p.Name == "The arm" {
			for _, l := range p.Lines {
				text.WriteString(l.Text + "\n")
			}
		}
	}
	if all := text.String(); strings.Contains(all, "at 0:00") || !strings.Contains(all, "The vasopressor ran when you came") || !strings.Contains(all, "reached the blood when you came") {
		t.Errorf("the debrief of the arm says\n%s", all)
	}
	for _, b := range begun(t, "two-pumps", 0).Bench().Bags {
		if label := strings.Join(b.Label, ", "); strings.Contains(label, "0:00") || !strings.Contains(label, "hung when you came") {
			t.Errorf("the label reads %q", label)
		}
	}
}
