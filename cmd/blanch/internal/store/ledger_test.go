package store

import (
	"bytes"
	"errors"
	"fmt"
	"os"
	"path/filepath"
	"reflect"
	"runtime"
	"strings"
	"testing"
	"time"
)

func ledgerPath(t testing.TB) string { return filepath.Join(t.TempDir(), "state", "ledger") }

// say appends one content whatever was added before.
func say(l *Ledger, content string) error {
	return l.Append(func([]Entry) ([]byte, error) { return []byte(content), nil })
}

// contents reads a ledger anew; a bad line is its error.
func contents(t testing.TB, path string) (out []string, torn int) {
	t.Helper()
	fresh, torn, err := NewLedger(path).Take()
	if err != nil {
		t.Fatal(err)
	}
	for i, e := range fresh {
		if e.Line != i+1 {
			t.Fatalf("line %d is said to be %d", i+1, e.Line)
		}
		if e.Err != nil {
			out = append(out, e.Err.Error())
		} else {
			out = append(out, string(e.Content))
		}
	}
	return out, torn
}

func TestLedger(t *testing.T) {
	path := ledgerPath(t)
	if got, torn := contents(t, path); got != nil || torn != 0 {
		t.Errorf("before the first append: got %q and %d torn bytes", got, torn)
	}
	one, two := NewLedger(path), NewLedger(path)
	for i, l := range []*Ledger{one, two, two, one} {
		if err := say(l, fmt.Sprintf(`{"n":%d}`, i)); err != nil {
			t.Fatal(err)
		}
	}
	if got, _ := contents(t, path); !reflect.DeepEqual(got, []string{`{"n":0}`, `{"n":1}`, `{"n":2}`, `{"n":3}`}) {
		t.Errorf("got %q", got)
	}
	// What another added is given to the next append, and only once.
	var seen []int
	for range 2 {
		err := two.Append(func(fresh []Entry) ([]byte, error) {
			for _, e := range fresh {
				seen = append(seen, e.Line)
			}
			return []byte("{}"), nil
		})
		if err != nil {
			t.Fatal(err)
		}
	}
	if !reflect.DeepEqual(seen, []int{4}) {
		t.Errorf("appends were given lines %d, want line 4 once", seen)
	}
	if info, err := os.Stat(path); err != nil || runtime.GOOS != "windows" && info.Mode().Perm() != 0o600 {
		t.Errorf("got %v, %v, want a file of mode 600", info, err)
	}
	if info, err := os.Stat(filepath.Dir(path)); err != nil || runtime.GOOS != "windows" && info.Mode().Perm() != 0o700 {
		t.Errorf("got %v, %v, want a folder of mode 700", info, err)
	}
}

// TestLedgerTorn cuts a ledger at every byte of its last line. Without its line
// end alone the line counts; otherwise it is gone and leaves no trace.
func TestLedgerTorn(t *testing.T) {
	path := ledgerPath(t)
	l := NewLedger(path)
	long := `{"x":"` + strings.Repeat("long", 30) + `"}`
	for _, c := range []string{`{"a":1}`, long} {
		if err := say(l, c); err != nil {
			t.Fatal(err)
		}
	}
	src, err := os.ReadFile(path)
	if err != nil {
		t.Fatal(err)
	}
	start := bytes.IndexByte(src, '\n') + 1
	for cut := start; cut < len(src); cut++ {
		if err := os.WriteFile(path, src[:cut], 0o600); err != nil {
			t.Fatal(err)
		}
		want, wantTorn := []string{`{"a":1}`}, cut-start
		if cut == len(src)-1 {
			want, wantTorn = append(want, long), 0
		}
		if got, torn := contents(t, path); !reflect.DeepEqual(got, want) || torn != wantTorn {
			t.Fatalf("cut at byte %d: got %q and %d torn bytes, want %q and %d", cut, got, torn, want, wantTorn)
		}
		if got, _ := os.ReadFile(path); len(got) != cut {
			t.Fatalf("cut at byte %d: reading changed the file", cut)
		}
		// One reader has seen the cut file before another process mends it.
		reader := NewLedger(path)
		if _, _, err := reader.Take(); err != nil {
			t.Fatal(err)
		}
		if err := say(NewLedger(path), `{"b":2}`); err != nil {
			t.Fatal(err)
		}
		if got, torn := contents(t, path); !reflect.DeepEqual(got, append(want, `{"b":2}`)) || torn != 0 {
			t.Fatalf("cut at byte %d: after an append got %q and %d torn bytes", cut, got, torn)
		}
		if fresh, torn, err := reader.Take(); err != nil || torn != 0 || len(fresh) != 1 || string(fresh[0].Content) != `{"b":2}` || fresh[0].Line != len(want)+1 {
			t.Fatalf("cut at byte %d: the other reader got %+v, %d, %v", cut, fresh, torn, err)
		}
	}
}

// TestLedgerBadLines: a line that cannot be read hides no other, and appends
// leave it as it is.
func TestLedgerBadLines(t *testing.T) {
	path := ledgerPath(t)
	l := NewLedger(path)
	for i := range 3 {
		if err := say(l, fmt.Sprint(`{"n":`, i, `}`)); err != nil {
			t.Fatal(err)
		}
	}
	src, err := os.ReadFile(path)
	if err != nil {
		t.Fatal(err)
	}
	first := bytes.IndexByte(src, '\n')
	for name, bad := range map[string]string{
		"empty":    "",
		"not ours": "hello",
		"changed":  strings.Replace(string(src[:first]), `"n":0`, `"n":9`, 1),
		"too long": strings.Repeat("x", MaxLine),
		"zeroes":   "\x00\x00\x00",
	} {
		for _, end := range []string{"\n", ""} {
			if end == "" && (name == "empty" || name == "changed") {
				continue // nothing, and a torn append
			}
			file := string(src) + bad + end
			if err := os.WriteFile(path, []byte(file), 0o600); err != nil {
				t.Fatal(err)
			}
			if err := say(NewLedger(path), `{"n":4}`); err != nil {
				t.Fatal(err)
			}
			got, torn := contents(t, path)
			if len(got) != 5 || got[2] != `{"n":2}` || strings.HasPrefix(got[3], "{") || got[4] != `{"n":4}` || torn != 0 {
				t.Errorf("%s: got %q and %d torn bytes", name, got, torn)
			}
			if after, _ := os.ReadFile(path); !strings.HasPrefix(string(after), string(src)+bad+"\n") {
				t.Errorf("%s: an append changed what was there", name)
			}
		}
	}
}

func TestLedgerRefuses(t *testing.T) {
	path := ledgerPath(t)
	l := NewLedger(path)
	if err := say(l, "{}"); err != nil {
		t.Fatal(err)
	}
	before, _ := os.ReadFile(path)
	torn := append(bytes.Clone(before), frameOpen...)
	if err := os.WriteFile(path, torn, 0o600); err != nil {
		t.Fatal(err)
	}
	mine := errors.New("not now")
	if err := l.Append(func([]Entry) ([]byte, error) { return nil, mine }); !errors.Is(err, mine) {
		t.Errorf("got %v, want %v", err, mine)
	}
	for content, want := range map[string]string{
		"two\nlines":                 path + `: content "two\nlines" is not one line of UTF-8`,
		"\xff":                       path + `: content "\xff" is not one line of UTF-8`,
		strings.Repeat("x", MaxLine): path + ": line is 1048606 bytes long, want at most 1048576",
	} {
		if err := say(l, content); err == nil || err.Error() != want {
			t.Errorf("got error %v, want %s", err, want)
		}
	}
	if after, _ := os.ReadFile(path); !bytes.Equal(after, torn) {
		t.Error("a refused append changed the file")
	}
	if err := os.WriteFile(path, before[:3], 0o600); err != nil {
		t.Fatal(err)
	}
	want := fmt.Sprintf("%s: file is 3 bytes long and was %d: it was cut or replaced, open it anew", path, len(before))
	if err := say(l, "{}"); err == nil || err.Error() != want {
		t.Errorf("got error %v, want %s", err, want)
	}
	if err := os.Truncate(path, MaxFile+1); err != nil {
		t.Fatal(err)
	}
	if _, _, err := NewLedger(path).Take(); err == nil || !strings.HasSuffix(err.Error(), "file is longer than 67108864 bytes, want at most that") {
		t.Errorf("a file that is too long: got %v", err)
	}
}

// TestLedgerFailedSync: after a failed append the ledger goes on from what the
// disk holds.
func TestLedgerFailedSync(t *testing.T) {
	path := ledgerPath(t)
	l := NewLedger(path)
	broken := errors.New("disk is gone")
	l.sync = func(*os.File) error { return broken }
	if err := say(l, `{"n":0}`); !errors.Is(err, broken) {
		t.Errorf("got %v, want %v", err, broken)
	}
	l.sync = (*os.File).Sync
	var given int
	err := l.Append(func(fresh []Entry) ([]byte, error) { given = len(fresh); return []byte(`{"n":1}`), nil })
	if got, _ := contents(t, path); err != nil || given != 1 || !reflect.DeepEqual(got, []string{`{"n":0}`, `{"n":1}`}) {
		t.Errorf("got %q, %v, with %d lines given", got, err, given)
	}
}

// TestLedgerWaits: an append waits while another process holds the lock.
func TestLedgerWaits(t *testing.T) {
	path := ledgerPath(t)
	l := NewLedger(path)
	if err := say(l, "{}"); err != nil {
		t.Fatal(err)
	}
	f, err := os.OpenFile(path, os.O_RDWR, 0)
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	release, err := lock(f)
	if err != nil {
		t.Fatal(err)
	}
	done := make(chan error)
	go func() { done <- say(l, "{}") }()
	select {
	case err := <-done:
		t.Fatalf("an append did not wait: %v", err)
	case <-time.After(20 * lockPause):
	}
	if err := release(); err != nil {
		t.Fatal(err)
	}
	if err := <-done; err != nil {
		t.Errorf("after the wait: %v", err)
	}
}

// FuzzLedger: whatever the bytes, a ledger takes them in the same in any two
// pieces of whole lines, loses none, and what is appended after them is read.
func FuzzLedger(f *testing.F) {
	path := ledgerPath(f)
	l := NewLedger(path)
	for _, c := range []string{"{}", `{"a":"b"}`} {
		if err := say(l, c); err != nil {
			f.Fatal(err)
		}
	}
	src, err := os.ReadFile(path)
	if err != nil {
		f.Fatal(err)
	}
	f.Add(src)
	f.Add(src[:len(src)-1])
	f.Add(src[:len(src)-5])
	f.Add([]byte("\n\nhello"))
	f.Fuzz(func(t *testing.T, src []byte) {
		var l Ledger
		all, torn := l.parse(src)
		if int(l.at)+torn != len(src) {
			t.Fatalf("%d bytes and %d torn of %d", l.at, torn, len(src))
		}
		cut := bytes.IndexByte(src, '\n') + 1
		var pieces Ledger
		first, _ := pieces.parse(src[:cut])
		rest, tornToo := pieces.parse(src[cut:])
		if got := append(first, rest...); len(got) != len(all) || len(all) > 0 && !reflect.DeepEqual(got, all) || tornToo != torn || pieces.at != l.at || pieces.bare != l.bare {
			t.Fatalf("in pieces: got %+v and %d, want %+v and %d", got, tornToo, all, torn)
		}
		next, err := ledgerLine([]byte(`{"next":true}`))
		if err != nil {
			t.Fatal(err)
		}
		mended := bytes.Clone(src[:l.at])
		if l.bare {
			mended = append(mended, '\n')
		}
		var again Ledger
		got, _ := again.parse(append(mended, next...))
		if len(got) != len(all)+1 || len(all) > 0 && !reflect.DeepEqual(got[:len(all)], all) || string(got[len(all)].Content) != `{"next":true}` {
			t.Fatalf("after an append: got %+v, want %+v and one more", got, all)
		}
	})
}
