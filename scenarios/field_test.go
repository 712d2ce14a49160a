package scenarios

import (
	"strings"
	"testing"
)

// Every field says what it is for, and its example is one that it takes.
func TestTableOfFields(t *testing.T) {
	for _, kind := range []string{"case", "place", "policy"} {
		if len(Fields(kind)) < 10 {
			t.Errorf("the table of a %s has %d fields", kind, len(Fields(kind)))
		}
		checkDocs(t, kind, Fields(kind))
	}
	checkDocs(t, "cohorts", Fields("cohorts"))
	if Fields("sonnet") != nil {
		t.Error("there is a table for a kind of file that there is not")
	}
}

func checkDocs(t *testing.T, at string, fields []Field) {
	seen := map[string]bool{}
	for _, f := range fields {
		path := at + "/" + f.Key
		if f.Doc == "" || f.Example == "" || f.Value.Kind == "" || f.Value.Says == "" {
			t.Errorf("%s is not described: %+v", path, f)
		}
		if seen[f.Key] {
			t.Errorf("%s stands twice", path)
		}
		seen[f.Key] = true
		checkDocs(t, path, f.Value.Fields)
		if f.Value.Each != nil {
			checkDocs(t, path, f.Value.Each.Fields)
		}
	}
}

func TestExamples(t *testing.T) {
	examples(t, caseShape)
	examples(t, patientShape)
	examples(t, armsShape)
	examples(t, orderShape)
	examples(t, rangeShape)
	examples(t, keepShape)
	examples(t, veinShape)
	examples(t, inPlaceShape)
	examples(t, absenceShape)
	examples(t, leakShape)
	examples(t, callShape)
	examples(t, happeningShape)
	examples(t, askShape)
	examples(t, ruleShape)
	examples(t, passShape)
	examples(t, walkShape)
	examples(t, placeShape)
	examples(t, pumpShape)
	examples(t, vialShape)
	examples(t, kitShape)
	examples(t, personShape)
	examples(t, centralShape)
	examples(t, cohortsShape)
	examples(t, cohortShape)
	examples(t, cohortLineShape)
	examples(t, cohortRunShape)
	examples(t, shape[policyFile]{rows: policyShape.rows[:5]})
	examples(t, shape[policyFile]{rows: limitRows})
}

func examples[T any](t *testing.T, s shape[T]) {
	for _, w := range s.rows {
		if strings.Contains(w.Example, "...") {
			continue
		}
		r := newReader(nil)
		src, ok := newSource("example", []byte(w.Key+": "+w.Example+"\n"), r.complain)
		if !ok {
			t.Fatal(w.Key)
		}
		r.src = src
		root := parse(src, r.complain)
		if root == nil {
			t.Errorf("%s of a %s: %v", w.Key, s.name, r.complaints)
			continue
		}
		var into T
		if !w.read(r, w.Key, root.values[0], &into) || len(r.complaints) > 0 {
			t.Errorf("%s of a %s: %q: %v", w.Key, s.name, w.Example, r.complaints)
		}
	}
}
