package main

import (
	"bytes"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"blanch/cmd/blanch/internal/otherhour"
	"blanch/cmd/blanch/internal/session"
	"blanch/cmd/blanch/internal/store"
	"blanch/content"
	"blanch/scoring"
)

// walkRecordings records every walk-through that ships and gives the paths.
func walkRecordings(t testing.TB, each func(id, walk, path string)) {
	t.Helper()
	dir := t.TempDir()
	for _, id := range content.Cases() {
		src, err := session.Find(id, "")
		if err != nil {
			t.Fatal(err)
		}
		own, err := session.Load(src, 1)
		if err != nil {
			t.Fatal(err)
		}
		for _, walk := range own.Case.Walks {
			if src, err = session.Find(id, walk.Policy); err != nil {
				t.Fatal(err)
			}
			a, err := session.Load(src, walk.Seed)
			if err != nil {
				t.Fatal(err)
			}
			r, _, err := scoring.Play(a.Case, a.Place, a.Seed, walk.Steps)
			if err != nil {
				t.Fatal(err)
			}
			path := filepath.Join(dir, id+"-"+walk.ID+".jsonl")
			if err := recordScript(path, a, session.Inputs(r), int64(r.Ended), session.Journal(r.Journal), session.Sheet(a, r)); err != nil {
				t.Fatal(err)
			}
			each(id, walk.ID, path)
		}
	}
}

// TestOtherHourOfNothing plays every walk-through that ships with nothing
// moved: journal and sheet must be those of the recording, byte for byte.
func TestOtherHourOfNothing(t *testing.T) {
	if testing.Short() {
		t.Skip("plays every walk-through twice")
	}
	walkRecordings(t, func(_, walk, path string) {
		h, err := hourOf(path)
		if err != nil {
			t.Fatal(err)
		}
		r := h.Play(otherhour.Move{}).Result
		log, err := store.Open(path)
		if err != nil {
			t.Fatal(err)
		}
		src, err := session.Find(h.Case.ID, h.Policy.ID)
		if err != nil {
			t.Fatal(err)
		}
		a, err := session.Load(src, h.Seed)
		if err != nil {
			t.Fatal(err)
		}
		if session.Journal(r.Journal) != log.Ended.Journal || session.Sheet(a, r) != log.Ended.Sheet {
			t.Errorf("%s: other bytes with nothing moved", walk)
		}
	})
}

// TestOtherHours holds what is said of every walk-through that ships: its
// decisions, and the one that mattered. A person reads each text before it is
// committed.
func TestOtherHours(t *testing.T) {
	walkRecordings(t, func(id, walk, path string) {
		var out, err bytes.Buffer
		if code := run([]string{"replay", path, "--move"}, strings.NewReader(""), &out, &err); code != exitFine {
			t.Fatalf("%s: exit code %d: %s", walk, code, &err)
		}
		for line := range strings.Lines(out.String()) {
			if n := len([]rune(strings.TrimSuffix(line, "\n"))); n > 80 {
				t.Errorf("%s: %d columns: %s", walk, n, line)
			}
		}
		file := filepath.Join("testdata", "otherhours", id, walk+".txt")
		if *update {
			if err := os.MkdirAll(filepath.Dir(file), 0o755); err != nil {
				t.Fatal(err)
			}
			if err := os.WriteFile(file, out.Bytes(), 0o644); err != nil {
				t.Fatal(err)
			}
		}
		want, fault := os.ReadFile(file)
		if fault != nil {
			t.Fatal(fault)
		}
		if out.String() != string(want) {
			t.Errorf("%s: no longer what %s holds:\n%s", walk, file, &out)
		}
	})
}
