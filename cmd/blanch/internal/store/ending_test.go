package store

import (
	"bytes"
	"errors"
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"testing"
)

// TestLookAgreesWithOpen cuts recordings at every byte: the end alone says what
// the whole file says.
func TestLookAgreesWithOpen(t *testing.T) {
	long := append(script()[:6:6], Line{Draft: &Draft{strings.Repeat("x", 3*firstLook)}})
	drafts := script()[:3:3]
	for i := range 100 {
		drafts = append(drafts, Line{Draft: &Draft{fmt.Sprintf("%d %s", i, strings.Repeat("y", 800))}})
	}
	path := filepath.Join(t.TempDir(), "a.jsonl")
	for name, lines := range map[string][]Line{"script": script(), "one long line": long, "many drafts": drafts} {
		src, err := os.ReadFile(record(t, lines))
		if err != nil {
			t.Fatal(err)
		}
		step := 1 + len(src)/100
		for cut := 0; cut <= len(src); cut = min(cut+step, max(cut+1, len(src))) {
			if err := os.WriteFile(path, src[:cut], 0o600); err != nil {
				t.Fatal(err)
			}
			log, wantErr := Open(path)
			a, err := look(path)
			if !errors.Is(err, errNoHead) != !errors.Is(wantErr, errNoHead) || (err == nil) != (wantErr == nil) {
				t.Fatalf("%s, cut at byte %d: %v, and the whole file says %v", name, cut, err, wantErr)
			}
			if a.Reached != log.Reached || a.Ended != (log.Ended != nil) {
				t.Fatalf("%s, cut at byte %d: %+v, and the whole file says %d, ended %t", name, cut, a, log.Reached, log.Ended != nil)
			}
		}
	}
}

// TestADamagedHeadIsTold when it is read, and a damaged end when it is listed.
func TestADamagedHeadIsTold(t *testing.T) {
	path := record(t, script())
	src, err := os.ReadFile(path)
	if err != nil {
		t.Fatal(err)
	}
	spoil := func(old, with string) {
		t.Helper()
		changed := bytes.Replace(src, []byte(old), []byte(with), 1)
		if bytes.Equal(src, changed) {
			t.Fatalf("the recording does not hold %q", old)
		}
		if err := os.WriteFile(path, changed, 0o600); err != nil {
			t.Fatal(err)
		}
	}
	spoil("case.yaml", "cafe.yaml")
	if a, err := look(path); err != nil || !a.Ended {
		t.Errorf("the end alone: %+v, %v", a, err)
	}
	if _, err := (Attempt{Path: path}).ReadHead(); err == nil || !strings.Contains(err.Error(), "line 1: checksum") {
		t.Errorf("a changed head is read: %v", err)
	}
	spoil("3600000", "3600001")
	if _, err := look(path); err == nil || !strings.Contains(err.Error(), "checksum") {
		t.Errorf("a changed end is read: %v", err)
	}
}

// BenchmarkNotEnded lists 500 short attempts with the head of a shipped case.
func BenchmarkNotEnded(b *testing.B) {
	head := sample()
	head.Case = strings.Repeat("a line of a case, as long as they are\n", 1500)
	dir := b.TempDir()
	for i := range 500 {
		r, err := Create(filepath.Join(dir, fmt.Sprintf("%d.jsonl", i)), head)
		if err != nil {
			b.Fatal(err)
		}
		if err := errors.Join(r.Append(Line{Do: &Do{At: 5, Said: "read the order"}}), r.Close()); err != nil {
			b.Fatal(err)
		}
	}
	for b.Loop() {
		if open, err := Folder(dir).NotEnded(); err != nil || len(open) != 500 {
			b.Fatalf("%d attempts, %v", len(open), err)
		}
	}
}
