package scenarios

import (
	"os"
	"path/filepath"
	"strings"
	"testing"
	"unicode/utf8"
)

// seedFiles gives a fuzzer every sound and faulty file that we have.
func seedFiles(f *testing.F) {
	for _, pattern := range []string{"testdata/*.yaml", "testdata/faults/*.yaml", "../content/*/*.yaml"} {
		files, err := filepath.Glob(pattern)
		if err != nil || len(files) == 0 {
			f.Fatal(pattern, err)
		}
		for _, file := range files {
			src, err := os.ReadFile(file)
			if err != nil {
				f.Fatal(err)
			}
			f.Add(src)
		}
	}
}

// sensible holds what is true of complaints about any text at all: a refused
// file says why, every complaint has a level, a code, words and a place
// inside the file, and none can disturb a terminal.
func sensible(t *testing.T, src []byte, loaded bool, out []Complaint) {
	t.Helper()
	failed := false
	lines := strings.Count(string(src), "\n") + 1
	seen := map[Complaint]bool{}
	for _, c := range out {
		failed = failed || c.Level == Error
		if c.Level < Error || c.Level > Note || c.Code == "" || c.Said == "" {
			t.Errorf("incomplete: %+v", c)
		}
		if c.Pos.Line < 1 || c.Pos.Line > lines || c.Pos.Column < 1 {
			t.Errorf("%s is outside the file of %d lines", c.Pos, lines)
		}
		c.Also = nil
		if seen[c] {
			t.Errorf("said twice: %+v", c)
		}
		seen[c] = true
		text := Render(c, src)
		for _, r := range text {
			if r < ' ' && r != '\n' || r == 0x7f || isDirectional(r) {
				t.Errorf("message holds %U: %q", r, text)
			}
		}
		if !utf8.ValidString(text) {
			t.Errorf("message is not UTF-8: %q", text)
		}
	}
	if failed == loaded {
		t.Errorf("loaded is %v although an error is %v: %v", loaded, failed, out)
	}
}

func FuzzLoadCase(f *testing.F) {
	seedFiles(f)
	f.Fuzz(func(t *testing.T, src []byte) {
		c, out := LoadCase("f.yaml", src, Fragments{})
		sensible(t, src, c != nil, out)
	})
}

func FuzzLoadPlace(f *testing.F) {
	seedFiles(f)
	f.Fuzz(func(t *testing.T, src []byte) {
		p, out := LoadPlace("f.yaml", src)
		sensible(t, src, p != nil, out)
	})
}

func FuzzLoadPolicy(f *testing.F) {
	seedFiles(f)
	f.Fuzz(func(t *testing.T, src []byte) {
		p, out := LoadPolicy("f.yaml", src)
		sensible(t, src, p != nil, out)
	})
}

func FuzzLoadCohorts(f *testing.F) {
	seedFiles(f)
	f.Fuzz(func(t *testing.T, src []byte) {
		rows, out := LoadCohorts("f.yaml", src)
		sensible(t, src, rows != nil, out)
	})
}

func FuzzLoadItems(f *testing.F) {
	seedFiles(f)
	f.Fuzz(func(t *testing.T, src []byte) {
		items, out := LoadItems("f.yaml", src)
		sensible(t, src, items != nil, out)
	})
}

func FuzzParseSteps(f *testing.F) {
	f.Add([]byte("at 0 min: read the order\nthen: read the notes\n# why\nafter 30 s:\n"))
	f.Add([]byte("after: read\nat 5 min\nat -1 h: x\n\tthen:\tread the order\r\n"))
	f.Fuzz(func(t *testing.T, src []byte) {
		steps, out := ParseSteps("f.txt", src)
		for _, c := range out {
			if c.Level == Error && steps != nil {
				t.Errorf("steps although %+v", c)
			}
		}
		sensible(t, src, len(out) == 0, out)
	})
}
