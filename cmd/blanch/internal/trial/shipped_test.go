package trial

import (
	"path/filepath"
	"strings"
	"testing"
)

// caseFiles are the cases that ship.
func caseFiles(tb testing.TB) []string {
	files, err := filepath.Glob(content + "cases/*.yaml")
	if err != nil || len(files) == 0 {
		tb.Fatal("no cases", err)
	}
	return files
}

// placeOf is the file of the place of a case.
func placeOf(tb testing.TB, file string) string {
	c := loadEdited(tb, file)
	return content + "places/" + c.Place + ".yaml"
}

// What every case that ships is held to: the expert wins it, nobody wins it by
// doing nothing or by treating everything, and it tells an expert from a
// hurried novice.
func TestEveryShippedCase(t *testing.T) {
	for _, file := range caseFiles(t) {
		name := strings.TrimSuffix(filepath.Base(file), ".yaml")
		r := tried(t, studyOfFile(t, file, placeOf(t, file)), 20)
		for _, f := range r.Findings {
			if f.Level == Fault || f.Level == Caution && f.Code != "unreachable-rule" {
				t.Errorf("%s: %s", name, f.Said)
			}
		}
		if k := r.kind(Expert); float64(k.Passed) < 0.85*float64(r.Runs) || k.Share.Median < 95 {
			t.Errorf("%s: %d of %d experts pass, median %v %%; want nearly all, and 95 %% or more", name, k.Passed, r.Runs, k.Share.Median)
		}
		for _, id := range []string{Nothing, Everything, "worst-choice"} {
			if k := r.kind(id); k.Passed > 0 {
				t.Errorf("%s: %s passes %d times", name, id, k.Passed)
			}
		}
		if r.Effect.Value < 0.95 {
			t.Errorf("%s: Cliff's delta of expert and hurried novice is %v", name, r.Effect.Value)
		}
	}
}
