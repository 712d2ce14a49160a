package progress

import (
	"bytes"
	"errors"
	"fmt"
	"hash/crc32"
	"io/fs"
	"math/rand/v2"
	"os"
	"path/filepath"
	"reflect"
	"strings"
	"testing"
	"time"

	"blanch/cmd/blanch/internal/review"
	"blanch/cmd/blanch/internal/store"
)

var evening = time.Date(2026, 12, 1, 20, 0, 0, 0, time.UTC)

func after(days float64) time.Time {
	return evening.Add(time.Duration(days * float64(24*time.Hour)))
}

func right(name string, at time.Time) review.Answer {
	return review.Answer{
		Question: review.Question{Name: name, Unit: review.Mix, Level: 1, Critical: true},
		At:       at, Right: true, Try: 1,
	}
}

func open(t testing.TB, path string) *Progress {
	t.Helper()
	p, err := Open(path)
	if err != nil {
		t.Fatal(err)
	}
	return p
}

func record(t testing.TB, p *Progress, answers ...review.Answer) {
	t.Helper()
	for _, a := range answers {
		if _, err := p.Record(a); err != nil {
			t.Fatal(err)
		}
	}
}

func newPath(t testing.TB) string { return Path(store.Folder(filepath.Join(t.TempDir(), "state"))) }

// same wants a file read anew to hold what p holds.
func same(t *testing.T, p *Progress) {
	t.Helper()
	again := open(t, p.path)
	if !reflect.DeepEqual(again.cards, p.cards) || !reflect.DeepEqual(again.first, p.first) || again.next+again.bad != p.next+p.bad {
		t.Errorf("read anew:\n%+v\nwant\n%+v", again.cards, p.cards)
	}
}

func TestRecord(t *testing.T) {
	path := newPath(t)
	p := open(t, path)
	if _, err := os.Stat(path); !errors.Is(err, fs.ErrNotExist) {
		t.Error("opening made the file")
	}
	full := review.Answer{
		Question: review.Question{Name: "bag <&> \u2028 4 in 250", Unit: review.Sums, Level: 3},
		At:       after(0.5).Add(123456789).In(time.FixedZone("", 3600)), Right: true, CriticalMiss: true, Hinted: true,
		Try: 2, Took: 61500*time.Millisecond + 1, Allowed: 90 * time.Second,
	}
	record(t, p, right("a", after(0)), full, right("a", after(2)))
	if c, ok := p.Card("a"); !ok || c.Answers != 2 || c.Right != 2 || c.Grade != review.Good {
		t.Errorf("got %+v, %t", c, ok)
	}
	c, _ := p.Card(full.Name)
	if c.Grade != review.Again || !c.Last.Equal(time.Date(2026, 12, 2, 8, 0, 0, 123e6, time.UTC)) {
		t.Errorf("got %+v", c)
	}
	if _, ok := p.Card("b"); ok {
		t.Error("a question never answered has a card")
	}
	if got := p.Curve(review.Mix); !reflect.DeepEqual(got, []bool{true, true}) {
		t.Errorf("curve: got %v", got)
	}
	same(t, p)
	src, err := os.ReadFile(path)
	if err != nil {
		t.Fatal(err)
	}
	const second = `"line":{"format":1,"n":1,"review":{"question":"bag <&> \u2028 4 in 250","unit":"sums","level":3,"at":"2026-12-02T08:00:00.123Z","right":true,"critical_miss":true,"hinted":true,"try":2,"took_ms":61500,"allowed_ms":90000}}}`
	if lines := strings.Split(string(src), "\n"); len(lines) != 4 || !strings.HasSuffix(lines[1], second) {
		t.Errorf("the file is\n%s\nwant its second line to end with\n%s", src, second)
	}
}

// TestNoRecording: lists of attempts do not take the file for one.
func TestNoRecording(t *testing.T) {
	folder := store.Folder(t.TempDir())
	record(t, open(t, Path(folder)), right("a", evening))
	if all, err := folder.Attempts(); len(all) != 0 || err != nil {
		t.Errorf("attempts: got %v, %v, want none", all, err)
	}
}

func TestRecordRefuses(t *testing.T) {
	path := newPath(t)
	p := open(t, path)
	record(t, p, right("a", evening))
	before, _ := os.ReadFile(path)
	for want, change := range map[string]func(*review.Answer){
		"question has no name, want one": func(a *review.Answer) { a.Name = "" },
		`question "a": unit 0 is not known, want one of line, mix, sums, watch, respond, bridge`: func(a *review.Answer) { a.Unit = 0 },
		`question "a": level is 0, want 1 or more`:                                               func(a *review.Answer) { a.Level = 0 },
		"question name is 201 bytes long, want at most 200":                                      func(a *review.Answer) { a.Name = strings.Repeat("x", 201) },
		`question name "\xff" is not valid UTF-8`:                                                func(a *review.Answer) { a.Name = "\xff" },
		`answer to "a" has no time, want when it was given`:                                      func(a *review.Answer) { a.At = time.Time{} },
		`answer to "a" is of the year 10000, want 1 to 9999`:                                     func(a *review.Answer) { a.At = a.At.AddDate(7974, 0, 0) },
		`answer to "a" is of try 0, want 1 or more`:                                              func(a *review.Answer) { a.Try = 0 },
		`answer to "a" took -1s, want 0 to 168h0m0s`:                                             func(a *review.Answer) { a.Took = -time.Second },
		`answer to "a" was allowed 168h0m1s, want 0 to 168h0m0s`:                                 func(a *review.Answer) { a.Allowed = maxSpan + time.Second },
	} {
		a := right("a", evening)
		change(&a)
		if _, err := p.Record(a); err == nil || err.Error() != want {
			t.Errorf("got error %v, want %s", err, want)
		}
	}
	if after, _ := os.ReadFile(path); !bytes.Equal(after, before) {
		t.Error("a refused answer changed the file")
	}
	record(t, p, right("a", after(1)))
	same(t, p)
}

func TestDueOrder(t *testing.T) {
	p := open(t, newPath(t))
	record(t, p, right("late", after(3)), right("b", after(0)), right("a", after(0)), right("early", after(-1)))
	var got []string
	for _, c := range p.Due(after(4)) {
		got = append(got, c.Name)
	}
	if want := []string{"early", "a", "b"}; !reflect.DeepEqual(got, want) {
		t.Errorf("got %q, want %q", got, want)
	}
}

func TestLimit(t *testing.T) {
	p := open(t, newPath(t))
	bank, err := review.NewBank([]review.Question{{Name: "a", Unit: review.Mix, Level: 1}, {Name: "b", Unit: review.Mix, Level: 1}})
	if err != nil {
		t.Fatal(err)
	}
	if n := len(p.Next(evening, bank).Items); n != 2 {
		t.Errorf("got %d questions, want 2", n)
	}
	p.Limit(review.Limits{Day: 5, New: 1})
	if n := len(p.Next(evening, bank).Items); n != 1 {
		t.Errorf("one new a day: got %d questions", n)
	}
	p.Limit(review.Limits{Day: -5, New: -1})
	if n := len(p.Next(evening, bank).Items); n != 0 {
		t.Errorf("below 0: got %d questions", n)
	}
}

// random answers a few questions at times that also go back.
func random(r *rand.Rand) review.Answer {
	a := right(fmt.Sprint("q", r.IntN(5)), after(300*r.Float64()-100))
	a.Right, a.Hinted, a.Try = r.IntN(4) > 0, r.IntN(5) == 0, 1+r.IntN(3)
	a.Took, a.Allowed = time.Duration(r.IntN(100))*time.Second, time.Minute
	return a
}

// TestTwoOpen lets two that are open on one file record by turns at random:
// both come to hold the same, as one does that reads the file anew.
func TestTwoOpen(t *testing.T) {
	r := rand.New(rand.NewPCG(7, 6))
	path := newPath(t)
	two := []*Progress{open(t, path), open(t, path)}
	for range 200 {
		record(t, two[r.IntN(2)], random(r))
	}
	for _, p := range two {
		if err := p.Refresh(); err != nil || p.Faults() != nil {
			t.Fatal(err, p.Faults())
		}
		same(t, p)
	}
	if n := len(two[0].used); n != 200 {
		t.Errorf("%d answers of 200", n)
	}
}

func BenchmarkRecord(b *testing.B) {
	p := open(b, newPath(b))
	for b.Loop() {
		record(b, p, right("a", evening))
	}
}

// BenchmarkOpen reads ten thousand answers.
func BenchmarkOpen(b *testing.B) {
	path := filepath.Join(b.TempDir(), "reviews.ndjson")
	var src []byte
	for i := range 10000 {
		content, err := write(int64(i), right(fmt.Sprint("q", i%500), after(float64(i)/50)))
		if err != nil {
			b.Fatal(err)
		}
		// The frame as package store documents it.
		sum := crc32.Checksum(content, crc32.MakeTable(crc32.Castagnoli))
		src = fmt.Appendf(src, "{\"crc32c\":\"%08x\",\"line\":%s}\n", sum, content)
	}
	if err := os.WriteFile(path, src, 0o600); err != nil {
		b.Fatal(err)
	}
	for b.Loop() {
		if p := open(b, path); len(p.used) != 10000 {
			b.Fatal("answers are missing")
		}
	}
}
