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
		"changed":    {l[0] + broken + l[2] + l[3], 3, []string{"line 2 cannot be read and does not count: checksum of the content is "}},
		"added":      {l[0] + "note to myself\n" + l[1] + l[2] + l[3], 4, []string{"line 2 cannot be read and does not count: line does not begin with "}},
		"lost":       {l[0] + l[3], 2, []string{"before line 2 lines are lost: it is numbered 3, want 1"}},
		"first lost": {l[1] + l[2] + l[3], 3, []string{"before line 1 lines are lost: it is numbered 1, want 0"}},
		"twice":      {l[0] + l[1] + l[1] + l[2] + l[3], 4, []string{"line 3 is numbered 1 as an earlier line is, and does not count"}},
		"moved": {l[0] + l[2] + l[1] + l[3], 4, []string{
			"before line 2 lines are lost: it is numbered 2, want 1",
			"line 3 is out of its place: it is numbered 1, want 3; it counts"}},
		"last changed": {l[0] + l[1] + l[2] + strings.Replace(l[3], "true", "fals", 1), 3, []string{"line 4 cannot be read and does not count: "}},
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
		check("opened again", open(t, path), test.cards+1)
		same(t, p)
		if after, _ := os.ReadFile(path); !strings.HasPrefix(string(after), test.file) {
			t.Errorf("%s: a record changed what was there", name)
		}
	}
}

// write puts a content of any kind into a file, with the right checksum.
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
			if err == nil || !strings.HasPrefix(err.Error(), path+": no line of it is an answer (line 1 cannot be read") || !strings.HasSuffix(err.Error(), "the file was left as it is") {
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

// TestClock: a clock set back loses no answer and gives no negative interval,
// and the file read anew says the same.
func TestClock(t *testing.T) {
	for name, back := range map[string]float64{"an hour": 1. / 24, "a day": 1, "a year": 365} {
		p := open(t, newPath(t))
		record(t, p, right("a", after(0)), right("b", after(0)), right("a", after(2)))
		now := after(2 - back)
		due := map[string]bool{}
		for _, c := range p.Due(now) {
			due[c.Name] = true
		}
		if due["a"] != (back >= 1) {
			t.Errorf("%s: due is %v", name, due)
		}
		c, err := p.Record(right("a", now))
		if err != nil {
			t.Fatal(err)
		}
		if c.Answers != 3 || c.Right != 2 || review.Days(c.Last, c.Due) < 1 || !c.Last.Equal(now) {
			t.Errorf("%s: got %+v", name, c)
		}
		// The clock is put right again.
		if c, err = p.Record(right("a", after(30))); err != nil || c.Answers != 4 || !c.Due.After(after(30)) {
			t.Errorf("%s: right again: got %+v, %v", name, c, err)
		}
		same(t, p)
	}
}

// TestZone: the zone in which the clock is read changes nothing.
func TestZone(t *testing.T) {
	a, b := open(t, newPath(t)), open(t, newPath(t))
	zones := []*time.Location{time.UTC, time.FixedZone("", -8*3600), time.FixedZone("", 13*3600)}
	for i := range 6 {
		at := after(float64(i) * 0.99)
		record(t, a, right("q", at))
		record(t, b, right("q", at.In(zones[i%3])))
	}
	if !reflect.DeepEqual(a.cards, b.cards) {
		t.Errorf("in three zones %+v, in one %+v", b.cards, a.cards)
	}
}

// TestSleep: a laptop that slept has slept through its due times, though the
// monotonic clock of a process stood still.
func TestSleep(t *testing.T) {
	p := open(t, newPath(t))
	now := time.Now()
	record(t, p, right("a", now))
	if got := p.Due(now.Round(0).Add(3 * 24 * time.Hour)); len(got) != 1 {
		t.Errorf("due after three days asleep: %+v", got)
	}
	if c, _ := p.Card("a"); c.Last != c.Last.Round(0) {
		t.Errorf("the card keeps a monotonic time: %v", c.Last)
	}
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
