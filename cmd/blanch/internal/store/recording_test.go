package store

import (
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"reflect"
	"runtime"
	"strings"
	"testing"
)

// sample is a head with texts that JSON has to escape.
func sample() Head {
	return Head{
		Revision: 1, Seed: 1<<64 - 1,
		CaseFile: "case.yaml", Case: "format: 1\ntitle: \"night\"\t<b>&\u2028\n",
		PlaceFile: "place.yaml", Place: "format: 1\n",
		PolicyFile: "policy.yaml", Policy: "",
		Fragments: []Fragment{{File: "told.yaml", Text: "format: 1\nfragment: told\n"}},
		Mode:      "practice", Started: "2026-12-01T21:00:00Z",
	}
}

// script is a whole attempt, drafts included.
func script() []Line {
	return []Line{
		{Reached: &Reached{At: 0}},
		{Draft: &Draft{Text: "feel ar"}},
		{Do: &Do{At: 61500, Said: "feel around left-cephalic-forearm"}},
		{Draft: &Draft{Text: "give 5 mg"}},
		{Reached: &Reached{At: 90000}},
		{Draft: &Draft{Text: "give 5 mg \u2028\U0001F489"}},
		{Do: &Do{At: 90000, Said: "give"}},
		{Ended: &Ended{At: 3600000, Journal: "one\ntwo\n", Sheet: "{\"met\":1}"}},
	}
}

// withoutDrafts is what a reader gets of lines.
func withoutDrafts(lines []Line) []Line {
	var out []Line
	for _, l := range lines {
		if l.Draft == nil {
			out = append(out, l)
		}
	}
	return out
}

// record writes lines to a new recording and returns its path.
func record(t testing.TB, lines []Line) string {
	t.Helper()
	path := filepath.Join(t.TempDir(), "a.jsonl")
	r, err := Create(path, sample())
	if err != nil {
		t.Fatal(err)
	}
	for _, l := range lines {
		if err := r.Append(l); err != nil {
			t.Fatal(err)
		}
	}
	if err := r.Close(); err != nil {
		t.Fatal(err)
	}
	return path
}

func TestRoundTrip(t *testing.T) {
	path := record(t, script())
	log, err := Open(path)
	if err != nil {
		t.Fatal(err)
	}
	want := Log{
		Head:    sample().seal(),
		Lines:   withoutDrafts(script()),
		Reached: 3600000,
		Ended:   script()[7].Ended,
	}
	if !reflect.DeepEqual(log, want) {
		t.Errorf("got  %+v\nwant %+v", log, want)
	}
}

// TestResume stops after every line and goes on from there: the file comes out
// the same as when it is written in one go.
func TestResume(t *testing.T) {
	whole, err := os.ReadFile(record(t, script()))
	if err != nil {
		t.Fatal(err)
	}
	for n := range len(script()) {
		path := record(t, script()[:n])
		r, log, err := OpenAppend(path)
		if err != nil {
			t.Fatal(err)
		}
		if want := withoutDrafts(script()[:n]); !reflect.DeepEqual(log.Lines, want) {
			t.Errorf("after %d lines: got %+v, want %+v", n, log.Lines, want)
		}
		for _, l := range script()[n:] {
			if err := r.Append(l); err != nil {
				t.Fatal(err)
			}
		}
		if err := r.Close(); err != nil {
			t.Fatal(err)
		}
		if got, _ := os.ReadFile(path); string(got) != string(whole) {
			t.Errorf("resumed after %d lines: the file differs from one written in one go", n)
		}
	}
}

func TestDraft(t *testing.T) {
	do := Line{Do: &Do{At: 5, Said: "look"}}
	one, two := Line{Draft: &Draft{"one"}}, Line{Draft: &Draft{"two"}}
	mark, none := Line{Reached: &Reached{9}}, Line{Draft: &Draft{""}}
	for _, test := range []struct {
		lines []Line
		want  string
	}{
		{[]Line{one}, "one"},
		{[]Line{one, two}, "two"},
		{[]Line{one, do}, ""},
		{[]Line{one, do, two, mark}, "two"},
		{[]Line{one, none}, ""},
	} {
		log, err := Open(record(t, test.lines))
		if err != nil {
			t.Fatal(err)
		}
		if log.Draft != test.want || len(log.Lines) != len(withoutDrafts(test.lines)) {
			t.Errorf("got draft %q and %d lines, want %q and no draft among the lines", log.Draft, len(log.Lines), test.want)
		}
	}
}

func TestRefusedLines(t *testing.T) {
	path := record(t, nil)
	r, _, err := OpenAppend(path)
	if err != nil {
		t.Fatal(err)
	}
	defer r.Close()
	if err := r.Append(Line{Reached: &Reached{At: 1000}}); err != nil {
		t.Fatal(err)
	}
	before, _ := os.ReadFile(path)
	for _, test := range []struct {
		line Line
		want string
	}{
		{Line{}, "line is 0 things, want one of do, reached, draft, ended"},
		{Line{Reached: &Reached{2000}, Draft: &Draft{}}, "line is 2 things, want one of do, reached, draft, ended"},
		{Line{Reached: &Reached{999}}, "time 999 ms is before 1000 ms of an earlier line, want no earlier"},
		{Line{Do: &Do{At: -1, Said: "look"}}, "time -1 ms is before 1000 ms of an earlier line, want no earlier"},
		{Line{Do: &Do{At: 2000}}, "do has nothing said, want the text of an action"},
		{Line{Do: &Do{2000, "a\xff"}}, `text "a\xff" is not valid UTF-8`},
		{Line{Draft: &Draft{strings.Repeat("x", MaxLine)}}, "line is 1048633 bytes long, want at most 1048576"},
	} {
		err := r.Append(test.line)
		if want := "recording " + path + ": " + test.want; err == nil || err.Error() != want {
			t.Errorf("got error %v, want %s", err, want)
		}
	}
	if after, _ := os.ReadFile(path); string(after) != string(before) {
		t.Error("a refused line changed the file")
	}
	if err := r.Append(Line{Ended: &Ended{At: 1000}}); err != nil {
		t.Errorf("after refused lines a good one is refused too: %v", err)
	}
	if err := r.Append(Line{Reached: &Reached{2000}}); err == nil {
		t.Error("a line after the end was accepted")
	}
}

func TestCreateRefuses(t *testing.T) {
	path := record(t, script())
	before, _ := os.ReadFile(path)
	if _, err := Create(path, sample()); !errors.Is(err, fs.ErrExist) {
		t.Errorf("creating over a recording: got %v, want fs.ErrExist", err)
	}
	if after, _ := os.ReadFile(path); string(after) != string(before) {
		t.Error("creating over a recording changed it")
	}
	for what, head := range map[string]Head{
		"is not valid UTF-8":               {Case: "\xff"},
		"bytes long, want at most 1048576": {Case: strings.Repeat("x", MaxLine)},
	} {
		path := filepath.Join(t.TempDir(), "b.jsonl")
		if _, err := Create(path, head); err == nil || !strings.Contains(err.Error(), what) {
			t.Errorf("got error %v, want one with %q", err, what)
		}
		if _, err := os.Stat(path); !errors.Is(err, fs.ErrNotExist) {
			t.Errorf("a refused head left a file: %v", err)
		}
	}
}

// TestFull fills a recording up to the last byte that is allowed.
func TestFull(t *testing.T) {
	if testing.Short() {
		t.Skip("writes 64 MB")
	}
	path := filepath.Join(t.TempDir(), "a.jsonl")
	r, err := create(path, sample(), func(*os.File) error { return nil })
	if err != nil {
		t.Fatal(err)
	}
	defer r.Close()
	long := Line{Draft: &Draft{strings.Repeat("x", MaxLine-100)}}
	for err == nil {
		err = r.Append(long)
	}
	if want := fmt.Sprintf("recording %s: file would be longer than 67108864 bytes, want at most that", path); err.Error() != want {
		t.Errorf("got error %q, want %q", err, want)
	}
	if r.size < MaxFile-MaxLine {
		t.Errorf("full at %d bytes, want near %d", r.size, MaxFile)
	}
	if err := r.Append(Line{Ended: &Ended{}}); err != nil {
		t.Errorf("a line that still fits: %v", err)
	}
	if _, err := Open(path); err != nil {
		t.Errorf("a full recording cannot be read: %v", err)
	}
}

func TestOneSyncAnAppend(t *testing.T) {
	syncs := 0
	r, err := create(filepath.Join(t.TempDir(), "a.jsonl"), sample(), func(*os.File) error { syncs++; return nil })
	if err != nil {
		t.Fatal(err)
	}
	defer r.Close()
	for i, l := range script() {
		if err := r.Append(l); err != nil {
			t.Fatal(err)
		}
		if want := i + 2; syncs != want {
			t.Fatalf("%d syncs after the head and %d lines, want %d", syncs, i+1, want)
		}
	}
}

func TestFailedSync(t *testing.T) {
	broken := errors.New("disk is gone")
	var fail error
	r, err := create(filepath.Join(t.TempDir(), "a.jsonl"), sample(), func(*os.File) error { return fail })
	if err != nil {
		t.Fatal(err)
	}
	defer r.Close()
	fail = broken
	if err := r.Append(Line{Reached: &Reached{1}}); !errors.Is(err, broken) {
		t.Errorf("got %v, want %v", err, broken)
	}
	fail = nil
	if err := r.Append(Line{Reached: &Reached{2}}); !errors.Is(err, broken) {
		t.Errorf("append after a failed one: got %v, want %v again", err, broken)
	}
}

func TestPrivateFile(t *testing.T) {
	if runtime.GOOS == "windows" {
		t.Skip("permissions are not these bits here")
	}
	info, err := os.Stat(record(t, nil))
	if err != nil {
		t.Fatal(err)
	}
	if got := info.Mode().Perm(); got != 0o600 {
		t.Errorf("got mode %o, want 600", got)
	}
}

func TestClose(t *testing.T) {
	r, _, err := OpenAppend(record(t, nil))
	if err != nil {
		t.Fatal(err)
	}
	for range 2 {
		if err := r.Close(); err != nil {
			t.Errorf("close: %v", err)
		}
	}
	if err := r.Append(Line{Reached: &Reached{1}}); !errors.Is(err, errClosed) {
		t.Errorf("append after close: got %v, want %v", err, errClosed)
	}
}

func BenchmarkAppend(b *testing.B) {
	for _, bench := range []struct {
		name string
		sync func(*os.File) error
	}{
		{"sync", (*os.File).Sync},
		{"nosync", func(*os.File) error { return nil }},
	} {
		b.Run(bench.name, func(b *testing.B) {
			fresh := func(n int) *Recording {
				r, err := create(filepath.Join(b.TempDir(), fmt.Sprint(n, ".jsonl")), sample(), bench.sync)
				if err != nil {
					b.Fatal(err)
				}
				return r
			}
			r := fresh(0)
			for n := 0; b.Loop(); n++ {
				if r.size > MaxFile-MaxLine {
					r.Close()
					r = fresh(n)
				}
				if err := r.Append(Line{Do: &Do{At: int64(n), Said: "feel around left-cephalic-forearm"}}); err != nil {
					b.Fatal(err)
				}
			}
			r.Close()
		})
	}
}
