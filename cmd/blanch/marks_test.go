package main

import (
	"os"
	"path/filepath"
	"testing"

	"blanch/cmd/blanch/internal/session"
	"blanch/content"
	"blanch/scoring"
)

// TestMarks holds the sheet of every walk-through that ships, word for word,
// so that a person can read what each run earns and why. Marks are kept
// apart from digests: a new engine revision may change bytes, and must say
// why when it changes these.
func TestMarks(t *testing.T) {
	for _, id := range content.Cases() {
		src, err := session.Find(id, "")
		if err != nil {
			t.Fatal(err)
		}
		a, err := session.Load(src, 1)
		if err != nil {
			t.Fatal(err)
		}
		for _, walk := range a.Case.Walks {
			t.Run(id+"/"+walk.ID, func(t *testing.T) {
				r, faults, err := scoring.Play(a.Case, a.Place, walk.Seed, walk.Steps)
				if err != nil || len(faults) > 0 {
					t.Fatal(err, faults)
				}
				got := walk.Text + "\n\n" + session.Sheet(a, r)
				file := filepath.Join("testdata", "marks", id, walk.ID+".txt")
				if *update {
					if err := os.MkdirAll(filepath.Dir(file), 0o755); err != nil {
						t.Fatal(err)
					}
					if err := os.WriteFile(file, []byte(got), 0o644); err != nil {
						t.Fatal(err)
					}
				}
				want, err := os.ReadFile(file)
				if err != nil {
					t.Fatal(err)
				}
				if got != string(want) {
					t.Errorf("the sheet of %s is no longer that of %s:\n%s", walk.ID, file, got)
				}
			})
		}
	}
}
