package progress

import (
	"bytes"
	"errors"
	"os"
	"path/filepath"
	"reflect"
	"testing"

	"blanch/cmd/blanch/internal/store"
)

// FuzzOpen: whatever the bytes, a file is either refused and left as it is, or
// takes an answer: then all that was there before counts as before.
func FuzzOpen(f *testing.F) {
	path := newPath(f)
	record(f, open(f, path), right("a", after(0)), right("b", after(1)))
	src, err := os.ReadFile(path)
	if err != nil {
		f.Fatal(err)
	}
	f.Add(src)
	f.Add(src[:len(src)-1])
	f.Add(src[:len(src)-9])
	f.Add(append([]byte("x\n"), src...))
	f.Add([]byte{})
	f.Fuzz(func(t *testing.T, src []byte) { openAndRecord(t, src) })
}

// FuzzContent runs the reader past the checksum: the bytes are the content of a
// line between two sound ones. They are a newer format, a fault or an answer,
// and unless they are the first, what follows them counts.
func FuzzContent(f *testing.F) {
	sound := func(n int64) store.Entry {
		content, err := write(n, right("a", after(0)))
		if err != nil {
			f.Fatal(err)
		}
		return store.Entry{Line: 1, Content: content}
	}
	first, last := sound(0), sound(2)
	f.Add(sound(1).Content)
	f.Add(bytes.Replace(sound(1).Content, []byte(`"format":1`), []byte(`"format":2`), 1))
	f.Add(sound(maxNumber).Content)
	f.Fuzz(func(t *testing.T, content []byte) {
		p := empty("x")
		err := p.take([]store.Entry{first, {Line: 2, Content: content}, last})
		if err != nil {
			if !errors.Is(err, errNewer) {
				t.Fatal(err)
			}
			return
		}
		if n := len(p.used); n != 2 && n != 3 || n == 2 && p.faults == nil {
			t.Fatalf("%d answers of 3, and told was %q", n, p.faults)
		}
		n, a, err := read(content)
		if err != nil {
			return
		}
		again, err := write(n, a)
		if err != nil {
			t.Fatal(err)
		}
		if m, b, err := read(again); err != nil || m != n || !reflect.DeepEqual(a, b) {
			t.Fatalf("written and read again: %d %+v, %v, want %d %+v", m, b, err, n, a)
		}
	})
}

func openAndRecord(t *testing.T, src []byte) {
	path := filepath.Join(t.TempDir(), "reviews.ndjson")
	if err := os.WriteFile(path, src, 0o600); err != nil {
		t.Fatal(err)
	}
	p, err := Open(path)
	now, _ := os.ReadFile(path)
	if !bytes.Equal(now, src) {
		t.Fatal("opening changed the file")
	}
	if err != nil {
		return
	}
	before, torn := len(p.used), p.torn
	if _, err := p.Record(right("fuzz", after(5))); err != nil {
		if now, _ = os.ReadFile(path); !bytes.Equal(now, src) {
			t.Fatalf("refused (%v), and the file changed", err)
		}
		return
	}
	if now, _ = os.ReadFile(path); !bytes.HasPrefix(now, src[:len(src)-torn]) {
		t.Fatal("an answer changed the lines before it")
	}
	again := open(t, path)
	if len(again.used) != before+1 || !reflect.DeepEqual(again.cards, p.cards) || !reflect.DeepEqual(again.faults, p.faults) {
		t.Fatalf("read anew: %d answers, %q, want %d, %q", len(again.used), again.faults, before+1, p.faults)
	}
}
