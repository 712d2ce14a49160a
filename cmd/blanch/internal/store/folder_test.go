package store

import (
	"errors"
	"io/fs"
	"os"
	"path/filepath"
	"reflect"
	"runtime"
	"slices"
	"strings"
	"testing"
	"time"
)

func TestHome(t *testing.T) {
	if runtime.GOOS == "windows" {
		t.Skip("paths of Unix")
	}
	wd, err := os.Getwd()
	if err != nil {
		t.Fatal(err)
	}
	t.Setenv("HOME", "/home/nurse")
	for _, test := range []struct{ blanch, xdg, want string }{
		{"/data/attempts", "/state", "/data/attempts"},
		{"attempts", "/state", filepath.Join(wd, "attempts")},
		{"", "/state", "/state/blanch"},
		{"", "state", "/home/nurse/.local/state/blanch"},
		{"", "", "/home/nurse/.local/state/blanch"},
	} {
		t.Setenv("BLANCH_HOME", test.blanch)
		t.Setenv("XDG_STATE_HOME", test.xdg)
		if got, err := Home(); err != nil || string(got) != test.want {
			t.Errorf("BLANCH_HOME=%q XDG_STATE_HOME=%q: got %q, %v, want %q", test.blanch, test.xdg, got, err, test.want)
		}
	}
	t.Setenv("HOME", "")
	if _, err := Home(); err == nil || !strings.Contains(err.Error(), "want BLANCH_HOME set") {
		t.Errorf("without a home: got %v", err)
	}
}

func TestNewPath(t *testing.T) {
	dir := filepath.Join(t.TempDir(), "state", "blanch")
	seen := map[string]bool{}
	for range 100 {
		path, err := Folder(dir).NewPath("first-shift")
		if err != nil {
			t.Fatal(err)
		}
		if name := filepath.Base(path); filepath.Dir(path) != dir || !strings.HasPrefix(name, "first-shift-") || seen[path] {
			t.Fatalf("got %s again or in the wrong place", path)
		}
		seen[path] = true
	}
	if info, err := os.Stat(dir); err != nil || runtime.GOOS != "windows" && info.Mode().Perm() != 0o700 {
		t.Errorf("got %v, %v, want a folder of mode 700", info, err)
	}
}

func TestPlainName(t *testing.T) {
	for id, want := range map[string]string{
		"first-shift":            "first-shift",
		"../../etc/passwd":       "etc-passwd",
		"Night 2":                "night-2",
		"":                       "attempt",
		"夜":                      "attempt",
		strings.Repeat("a", 300): strings.Repeat("a", 60),
	} {
		if got := plainName(id); got != want {
			t.Errorf("%q: got %q, want %q", id, got, want)
		}
	}
}

// place writes a recording into a folder, last appended to at a given hour.
func place(t *testing.T, folder Folder, name string, hour int, lines ...Line) string {
	t.Helper()
	src, err := os.ReadFile(record(t, lines))
	if err != nil {
		t.Fatal(err)
	}
	path := filepath.Join(string(folder), name)
	if err := os.WriteFile(path, src, 0o600); err != nil {
		t.Fatal(err)
	}
	at := time.Date(2026, 12, 1, hour, 0, 0, 0, time.UTC)
	if err := os.Chtimes(path, at, at); err != nil {
		t.Fatal(err)
	}
	return path
}

func paths(attempts []Attempt) []string {
	var out []string
	for _, a := range attempts {
		out = append(out, a.Path)
	}
	return out
}

func TestFolder(t *testing.T) {
	folder := Folder(t.TempDir())
	old := place(t, folder, "z.jsonl", 1, Line{Reached: &Reached{7000}})
	busy := place(t, folder, "b.jsonl", 2)
	young := place(t, folder, "a.jsonl", 3)
	done := place(t, folder, "c.jsonl", 4, Line{Ended: &Ended{At: 9000}})
	place(t, folder, "notes.txt", 5)
	for name, src := range map[string]string{"empty.jsonl": "", "begun.jsonl": frameOpen} {
		if err := os.WriteFile(filepath.Join(string(folder), name), []byte(src), 0o600); err != nil {
			t.Fatal(err)
		}
	}

	all, err := folder.Attempts()
	if want := []string{done, young, busy, old}; err != nil || !slices.Equal(paths(all), want) {
		t.Fatalf("attempts: got %q, %v, want %q", paths(all), err, want)
	}
	if a := all[3]; a.Reached != 7000 || a.Ended {
		t.Errorf("got %+v, want it as recorded", a)
	}
	if head, err := all[3].ReadHead(); err != nil || !reflect.DeepEqual(head, sample().seal()) {
		t.Errorf("head: got %+v, %v, want it as recorded", head, err)
	}

	r, _, err := OpenAppend(busy)
	if err != nil {
		t.Fatal(err)
	}
	defer r.Close()
	all, err = folder.NotEnded()
	if err != nil || len(all) != 3 {
		t.Errorf("not ended: %q, %v", paths(all), err)
	}
	for _, a := range all {
		if a.InUse != (a.Path == busy) {
			t.Errorf("%s: in use %t", a.Path, a.InUse)
		}
	}
	if free, want := Free(all), []string{young, old}; !slices.Equal(paths(free), want) || len(all) != 3 {
		t.Errorf("free: got %q of %q, want %q", paths(free), paths(all), want)
	}
	if last, err := folder.Latest(); err != nil || last.Path != done || !last.Ended {
		t.Errorf("latest: got %+v, %v, want %s", last, err, done)
	}

	// A damaged recording is told of and hides no other.
	bad := filepath.Join(string(folder), "bad.jsonl")
	if err := os.WriteFile(bad, []byte("{}\n"), 0o600); err != nil {
		t.Fatal(err)
	}
	open, err := folder.NotEnded()
	if len(open) != 3 || err == nil || !strings.HasPrefix(err.Error(), "recording "+bad+": line 1: ") {
		t.Errorf("with a damaged recording: got %q, %v", paths(open), err)
	}
}

func TestNoFolder(t *testing.T) {
	folder := Folder(filepath.Join(t.TempDir(), "none"))
	if open, err := folder.NotEnded(); len(open) != 0 || err != nil {
		t.Errorf("not ended: got %v, %v, want none", open, err)
	}
	if _, err := folder.Latest(); !errors.Is(err, fs.ErrNotExist) {
		t.Errorf("latest: got %v, want fs.ErrNotExist", err)
	}
	if _, err := os.Stat(string(folder)); !errors.Is(err, fs.ErrNotExist) {
		t.Error("looking made the folder")
	}
}
