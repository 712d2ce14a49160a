package progress

import (
	"bytes"
	"fmt"
	"os"
	"path/filepath"
	"reflect"
	"strings"
	"testing"

	"blanch/cmd/blanch/internal/store"
)

// TestTorn cuts the file at every byte of its last line: the others count, and
// the next answer takes the place of the one that was cut.
func TestTorn(t *testing.T) {
	path := newPath(t)
	p := open(t, path)
	record(t, p, right("a", after(0)), right("b", after(0)))
	src, err := os.ReadFile(path)
	if err != nil {
		t.Fatal(err)
	}
	start := bytes.IndexByte(src, '\n') + 1
	for cut := start; cut < len(src); cut++ {
		if err := os.WriteFile(path, src[:cut], 0o600); err != nil {
			t.Fatal(err)
		}
		p := open(t, path)
		var faults []string
		want := 1
		switch {
		case cut == len(src)-1:
			want = 2 // only the line end is missing
		case cut > start:
			faults = []string{fmt.Sprintf("the last line is unfinished (%d bytes) and does not count; the next answer takes its place", cut-start)}
		}
		if len(p.cards) != want || !reflect.DeepEqual(p.Faults(), faults) {
			t.Fatalf("cut at byte %d: %d cards and %q, want %d and %q", cut, len(p.cards), p.Faults(), want, faults)
		}
		record(t, p, right("c", after(1)))
		if p.Faults() != nil || len(p.cards) != want+1 {
			t.Fatalf("cut at byte %d: after a record %d cards and %q", cut, len(p.cards), p.Faults())
		}
		same(t, p)
		if again := open(t, path); again.Faults() != nil {
			t.Fatalf("cut at byte %d: read anew: %q", cut, again.Faults())
		}
	}
}

// TestBadLines: what cannot be read is told, and all the rest counts.
func TestBadLines(t *testing.T) {
	path := newPath(t)
	record(t, open(t, path), right("a", after(0)), right("b", after(0)), right("c", after(0)), right("d", after(0)))
	src, err := os.ReadFile(path)
	if err != nil {
		t.Fatal(err)
	}
	l := strings.SplitAfter(strings.TrimSuffix(string(src), "\n"), "\n")
	l[3] += "\n"
	broken := strings.Replace(l[1], "true", "fals", 1)
	for name, test := range map[string]struct {
		file   string
		cards  int
		faults []string // beginnings
	}{
		"whole":      {l[0] + l[1] + l[2] + l[3], 4, nil},
		"changed":    {l[0] + broken + l[2] + l[3], 3, []string{"line 2 was damaged and is left out (for a developer: checksum of the content is "}},
		"added":      {l[0] + "note to myself\n" + l[1] + l[2] + l[3], 4, []string{"line 2 was damaged and is left out (for a developer: line does not begin with "}},
		"lost":       {l[0] + l[3], 2, []string{"before line 2 one answer or more is missing (for a developer: it is numbered 3, want 1)"}},
		"first lost": {l[1] + l[2] + l[3], 3, []string{"before line 1 one answer or more is missing (for a developer: it is numbered 1, want 0)"}},
		"twice":      {l[0] + l[1] + l[1] + l[2] + l[3], 4, []string{"line 3 is there twice and is counted once (for a developer: it is numbered 1 as an earlier line is)"}},
		"moved": {l[0] + l[2] + l[1] + l[3], 4, []string{
			"before line 2 one answer or more is missing (for a developer: it is numbered 2, want 1)",
			"line 3 stands out of its place; it counts (for a developer: it is numbered 1, want 3)"}},
		"last changed": {l[0] + l[1] + l[2] + strings.Replace(l[3], "true", "fals", 1), 3, []string{"line 4 was damaged and is left out (for a developer: "}},
	} {
		if err := os.WriteFile(path, []byte(test.file), 0o600); err != nil {
			t.Fatal(err)
		}
		p := open(t, path)
		check := func(what string, p *Progress, cards int) {
			t.Helper()
			got := p.Faults()
			ok := len(p.cards) == cards && len(got) == len(test.faults)
			for i := range test.faults {
				ok = ok && strings.HasPrefix(got[i], test.faults[i])
			}
			if !ok {
				t.Errorf("%s: %s: %d cards and %q, want %d and %q", name, what, len(p.cards), got, cards, test.faults)
			}
		}
		check("opened", p, test.cards)
		record(t, p, right("z", after(1)))
		check("recorded", p, test.cards+1)
		if name == "last changed" && !p.used[4] {
			t.Errorf("%s: the number of the line that cannot be read was given again", name)
		}
		check("opened again", open(t, path), test.cards+1)
		same(t, p)
		if after, _ := os.ReadFile(path); !strings.HasPrefix(string(after), test.file) {
			t.Errorf("%s: a record changed what was there", name)
		}
	}
}

// writeContent puts a content of any kind into a file, with the right checksum.
func writeContent(t testing.TB, path, content string) {
	t.Helper()
	if err := store.NewLedger(path).Append(func([]store.Entry) ([]byte, error) { return []byte(content), nil }); err != nil {
		t.Fatal(err)
	}
}

// untouched runs what must not change a file.
func untouched(t *testing.T, path string, run func()) {
	t.Helper()
	old := after(-100)
	if err := os.Chtimes(path, old, old); err != nil {
		t.Fatal(err)
	}
	before, _ := os.ReadFile(path)
	run()
	now, _ := os.ReadFile(path)
	if info, err := os.Stat(path); err != nil || !info.ModTime().Equal(old) || !bytes.Equal(now, before) {
		t.Errorf("the file was touched: %v, %v", info, err)
	}
}

func TestNewerFormat(t *testing.T) {
	path := newPath(t)
	p := open(t, path)
	record(t, p, right("a", evening))
	writeContent(t, path, `{"format":2,"n":1,"answer":[1,2,3]}`)
	f, err := os.OpenFile(path, os.O_APPEND|os.O_WRONLY, 0)
	if err != nil {
		t.Fatal(err)
	}
	f.WriteString(`{"crc32c":"12`)
	f.Close()
	want := path + ": line 2: format 2, and 1 is the newest known here: written by a newer version of this program: use that one; the file was left as it is"
	untouched(t, path, func() {
		if _, err := Open(path); err == nil || err.Error() != want {
			t.Errorf("open: got error %v, want %s", err, want)
		}
		// One that was open before the newer version wrote.
		for range 2 {
			if _, err := p.Record(right("b", evening)); err == nil || err.Error() != want {
				t.Errorf("record: got error %v, want %s", err, want)
			}
		}
		if err := p.Refresh(); err == nil || err.Error() != want {
			t.Errorf("refresh: got error %v, want %s", err, want)
		}
	})
}

func TestNotOurs(t *testing.T) {
	for name, src := range map[string]string{
		"a note":               "buy milk",
		"a note of two lines":  "buy milk\nand bread\n",
		"another kind of file": `{"crc32c":"8a9136aa","line":{}}` + "\n",
	} {
		path := filepath.Join(t.TempDir(), "reviews.ndjson")
		if err := os.WriteFile(path, []byte(src), 0o600); err != nil {
			t.Fatal(err)
		}
		untouched(t, path, func() {
			_, err := Open(path)
			if err == nil || !strings.HasPrefix(err.Error(), path+": no line of it is an answer (line 1 was damaged and is left out") || !strings.HasSuffix(err.Error(), "the file was left as it is") {
				t.Errorf("%s: got error %v", name, err)
			}
		})
	}
	if _, err := Open(t.TempDir()); err == nil {
		t.Error("a folder was opened as a file")
	}
}

// TestReaderRefuses reads lines with the right checksum and the wrong content.
func TestReaderRefuses(t *testing.T) {
	const good = `{"format":1,"n":0,"review":{"question":"a","unit":"mix","level":1,"at":"2026-12-01T20:00:00.000Z","right":true,"try":1}}`
	if _, _, err := read([]byte(good)); err != nil {
		t.Fatal(err)
	}
	for _, test := range []struct{ old, new, want string }{
		{`"format":1,`, ``, "format is 0, want 1"},
		{`"format":1,`, `"format":-1,`, "format is -1, want 1"},
		{`"n":0`, `"n":-1`, "number is -1, want 0 to 9007199254740992"},
		{`"try":1}}`, `"try":1}} {}`, "more follows the object, want one object a line"},
		{`"try":1`, `"try":1,"mood":"good"`, `json: unknown field "mood"`},
		{`"mix"`, `"veins"`, `unit "veins" is not known, want one of line, mix, sums, watch, respond, bridge`},
		{`20:00:00.000Z`, `20:00:00+01:00`, `time "2026-12-01T20:00:00+01:00", want one as 2006-01-02T15:04:05.000Z`},
		{`"try":1`, `"try":1,"took_ms":9223372036854775807`, "took 9223372036854775807 ms of 0 ms, want 0 to 604800000"},
		{`"try":1`, `"try":1,"took_ms":-9223372036854775807`, "took -9223372036854775807 ms of 0 ms, want 0 to 604800000"},
		{`"try":1`, `"try":0`, `answer to "a" is of try 0, want 1 or more`},
	} {
		_, _, err := read([]byte(strings.Replace(good, test.old, test.new, 1)))
		if err == nil || !strings.Contains(err.Error(), test.want) {
			t.Errorf("%s: got error %v, want %s", test.new, err, test.want)
		}
	}
	if _, _, err := read([]byte(`{"format":1,"n":0}`)); err == nil || err.Error() != "line has no review, want one" {
		t.Errorf("without a review: got %v", err)
	}
}

// TestManyFaults: of a file that is nearly all faults only the first are told
// one by one.
func TestManyFaults(t *testing.T) {
	path := newPath(t)
	record(t, open(t, path), right("a", evening))
	src, err := os.ReadFile(path)
	if err != nil {
		t.Fatal(err)
	}
	if err := os.WriteFile(path, append(src, strings.Repeat("\n", 1000)...), 0o600); err != nil {
		t.Fatal(err)
	}
	p := open(t, path)
	got := p.Faults()
	if len(got) != mostFaults+1 || got[mostFaults] != "900 more such lines are not told one by one" || len(p.cards) != 1 {
		t.Errorf("%d faults, the last %q", len(got), got[len(got)-1])
	}
	record(t, p, right("b", evening))
	same(t, p)
}
