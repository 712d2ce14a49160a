package scenarios

import (
	"flag"
	"os"
	"path/filepath"
	"strings"
	"testing"
)

var update = flag.Bool("update", false, "write the messages of faulty files anew, to be read before they are kept")

// atHand is two fragments that have a rule in common, and a faulty one.
func atHand(t *testing.T) Fragments {
	t.Helper()
	at := Fragments{Found: map[string]*Fragment{"broken": nil}, Names: []string{"broken", "reading", "telling"}}
	for _, id := range at.Names[1:] {
		f, out := LoadFragment(id+".yaml", []byte(strings.ReplaceAll(smallFragment, "NAME", id)))
		if f == nil {
			t.Fatal(out)
		}
		at.Found[id] = f
	}
	return at
}

const smallFragment = `format: 1
fragment: NAME
note: For tests.
objectives: {NAME: Tell what is written}
ask:
  NAME-sum: {text: "How much?", when: mix, what: concentration}
rules:
  NAME-done: {serves: NAME, points: 1, when: did("read-order"), met: Done., not met: Not done.}
  in-both: {serves: NAME, points: 1, when: did("read-notes"), met: Done., not met: Not done.}
`

// complaintsAbout loads a file by the kind that its name begins with.
func complaintsAbout(t *testing.T, file string, src []byte) (out []Complaint, loaded bool) {
	t.Helper()
	kind, _, _ := strings.Cut(filepath.Base(file), "-")
	switch kind {
	case "case", "short", "good":
		c, out := LoadCase(filepath.Base(file), src, atHand(t))
		return out, c != nil
	case "fragment":
		f, out := LoadFragment(filepath.Base(file), src)
		return out, f != nil
	case "place":
		p, out := LoadPlace(filepath.Base(file), src)
		return out, p != nil
	case "policy":
		p, out := LoadPolicy(filepath.Base(file), src)
		return out, p != nil
	case "items":
		f, out := LoadItems(filepath.Base(file), src)
		return out, f != nil
	case "cohorts":
		rows, out := LoadCohorts(filepath.Base(file), src)
		return out, rows != nil
	}
	t.Fatalf("%s: the name does not begin with a kind", file)
	return nil, false
}

// Each file has one fault (but for two of them), and beside it stands the whole
// message: place, text, caret, what is allowed, what was meant.
func TestFaults(t *testing.T) {
	files, err := filepath.Glob("testdata/faults/*.yaml")
	if err != nil || len(files) < 30 {
		t.Fatalf("found %d files, %v", len(files), err)
	}
	for _, file := range files {
		t.Run(strings.TrimSuffix(filepath.Base(file), ".yaml"), func(t *testing.T) {
			src, err := os.ReadFile(file)
			if err != nil {
				t.Fatal(err)
			}
			out, loaded := complaintsAbout(t, file, src)
			var b strings.Builder
			failed := false
			for _, c := range out {
				b.WriteString(Render(c, src) + "\n")
				failed = failed || c.Level == Error
			}
			if failed == loaded {
				t.Errorf("loaded is %v with an error is %v", loaded, failed)
			}
			wanted := 1
			switch filepath.Base(file) {
			case "case-alias.yaml": // no alias without an anchor
				wanted = 2
			case "case-many.yaml":
				wanted = 10
			}
			if len(out) != wanted {
				t.Errorf("%d complaints, want %d:\n%s", len(out), wanted, b.String())
			}
			golden := strings.TrimSuffix(file, ".yaml") + ".want"
			if *update {
				if err := os.WriteFile(golden, []byte(b.String()), 0o644); err != nil {
					t.Fatal(err)
				}
			}
			want, err := os.ReadFile(golden)
			if err != nil {
				t.Fatal(err)
			}
			if b.String() != string(want) {
				t.Errorf("got\n%s\nwant\n%s", b.String(), want)
			}
		})
	}
}

// The files that the faulty ones were made from have nothing wrong.
func TestSoundFilesLoadClean(t *testing.T) {
	for _, file := range []string{"testdata/short-case.yaml", "testdata/good-case.yaml"} {
		src, err := os.ReadFile(file)
		if err != nil {
			t.Fatal(err)
		}
		out, loaded := complaintsAbout(t, file, src)
		for _, c := range out {
			if c.Level != Note {
				t.Error(Render(c, src))
			}
		}
		if !loaded {
			t.Errorf("%s did not load", file)
		}
	}
}
