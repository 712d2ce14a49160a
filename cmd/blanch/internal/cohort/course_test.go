package cohort

import (
	"fmt"
	"os"
	"strings"
	"testing"
)

const (
	page     = root + "/content/calibration/README.md"
	tableTop = "<!-- courses: written by go test ./cmd/blanch/internal/cohort -run TestCourses -update -->\n"
	tableEnd = "<!-- end of courses -->"
)

// The table of one leak that people read is what the engine gives.
func TestCourses(t *testing.T) {
	var b strings.Builder
	b.WriteString("| course | pressure before, least | swelling when found | ischaemic minutes 1 h after the leak began | 2 h | 4 h | 8 h | 24 h |\n")
	b.WriteString("| --- | --- | --- | --- | --- | --- | --- | --- |\n")
	for _, c := range Courses() {
		came, err := c.Play()
		if err != nil {
			t.Fatal(err)
		}
		name := c.Name
		if rest, ok := strings.CutPrefix(name, "and "); ok {
			name = "the same, and " + rest
		}
		fmt.Fprintf(&b, "| %s | %.0f, %.0f mmHg | %.0f mm |", name, came.Before, came.Lowest, came.FoundMM)
		for _, m := range came.Ischaemic {
			fmt.Fprintf(&b, " %.0f |", m)
		}
		b.WriteString("\n")
	}
	src, err := os.ReadFile(page)
	if err != nil {
		t.Fatal(err)
	}
	head, rest, found := strings.Cut(string(src), tableTop)
	old, tail, closed := strings.Cut(rest, tableEnd)
	if !found || !closed {
		t.Fatal("the page has no place for the table")
	}
	if *update {
		if err := os.WriteFile(page, []byte(head+tableTop+b.String()+tableEnd+tail), 0o644); err != nil {
			t.Fatal(err)
		}
		return
	}
	if old != b.String() {
		t.Errorf("the engine now gives\n%s\nread it as a clinician would, then write it with -update", b.String())
	}
}

// Directions of the courses: found earlier is never worse, no antidote does
// harm, an alpha blocker does nothing to vasopressin, and a leak lowers the
// pressure.
func TestCoursesGoTheRightWay(t *testing.T) {
	came := map[string]Came{}
	var order []Came
	for _, c := range Courses() {
		v, err := c.Play()
		if err != nil {
			t.Fatal(err)
		}
		came[string(c.Run.drug[0])+c.Name] = v
		order = append(order, v)
		if v.Before-v.Lowest < 3 {
			t.Errorf("%s: the pressure falls by %.1f mmHg", c.Name, v.Before-v.Lowest)
		}
		if v.FirstSign <= 0 || v.FirstSign > 30 {
			t.Errorf("%s: first sign after %v min", c.Name, v.FirstSign)
		}
	}
	last := len(Marks) - 1
	for i := 2; i <= 4; i++ { // found at 30, 60 and 120 min
		if order[i].Ischaemic[last] < order[i-1].Ischaemic[last] || order[i].FoundMM < order[i-1].FoundMM {
			t.Errorf("found later is better: %v then %v", order[i-1], order[i])
		}
	}
	if order[4].Ischaemic[last] >= order[0].Ischaemic[last] {
		t.Error("found at 120 min is no better than not found")
	}
	bare := came["nfound at 60 min: moved, nothing else"].Ischaemic[last]
	for _, and := range []string{"drawn back", "raised", "a warm pack", "nitrate ointment", "terbutaline 1 mg", "phentolamine 5 mg"} {
		if v := came["nand "+and].Ischaemic[last]; v >= bare || v == 0 {
			t.Errorf("%s: %.1f ischaemic minutes, %.1f without", and, v, bare)
		}
	}
	vaso := came["vvasopressin, found at 60 min: moved, nothing else"].Ischaemic[last]
	if v := came["vand phentolamine 5 mg"].Ischaemic[last]; v != vaso {
		t.Errorf("phentolamine turns %v ischaemic minutes of vasopressin into %v", vaso, v)
	}
	if v := came["vand nitrate ointment"].Ischaemic[last]; v >= vaso {
		t.Error("nitrate does nothing to vasopressin")
	}
}
