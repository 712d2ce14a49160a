package store

import (
	"bytes"
	"errors"
	"fmt"
	"os"
	"path/filepath"
	"reflect"
	"strings"
	"testing"
)

// TestTornTail cuts a recording at every byte of its last line. The line is
// gone, the rest is whole, and the next append leaves no trace of the tear.
func TestTornTail(t *testing.T) {
	// The tear is longer than the line that follows it.
	lines := []Line{
		{Do: &Do{At: 1, Said: "look"}},
		{Do: &Do{At: 2, Said: strings.Repeat("feel ", 20)}},
	}
	next := Line{Reached: &Reached{At: 3}}
	src, err := os.ReadFile(record(t, lines))
	if err != nil {
		t.Fatal(err)
	}
	want, err := os.ReadFile(record(t, []Line{lines[0], next}))
	if err != nil {
		t.Fatal(err)
	}
	start := bytes.LastIndexByte(src[:len(src)-1], '\n') + 1
	path := filepath.Join(t.TempDir(), "a.jsonl")
	for cut := start; cut < len(src); cut++ {
		if err := os.WriteFile(path, src[:cut], 0o600); err != nil {
			t.Fatal(err)
		}
		r, log, err := OpenAppend(path)
		if err != nil {
			t.Fatalf("cut at byte %d: %v", cut, err)
		}
		if log.Torn != cut-start || !reflect.DeepEqual(log.Lines, lines[:1]) {
			t.Errorf("cut at byte %d: got %d torn bytes and %+v", cut, log.Torn, log.Lines)
		}
		if got, _ := os.ReadFile(path); len(got) != cut {
			t.Errorf("cut at byte %d: opening alone changed the file", cut)
		}
		if err := errors.Join(r.Append(next), r.Close()); err != nil {
			t.Fatal(err)
		}
		if got, _ := os.ReadFile(path); !bytes.Equal(got, want) {
			t.Errorf("cut at byte %d: after an append the file is\n%s\nwant\n%s", cut, got, want)
		}
	}
}

// TestTornHead cuts a recording inside its head: nothing was begun.
func TestTornHead(t *testing.T) {
	src, err := os.ReadFile(record(t, nil))
	if err != nil {
		t.Fatal(err)
	}
	for cut := range len(src) {
		if _, _, err := parse(src[:cut]); !errors.Is(err, errNoHead) {
			t.Fatalf("cut at byte %d: got %v, want %v", cut, err, errNoHead)
		}
	}
}

// TestFlippedBit changes each bit of a recording in turn. It is always an error
// that names the line, but for the last line end, whose loss is a tear.
func TestFlippedBit(t *testing.T) {
	src, err := os.ReadFile(record(t, script()))
	if err != nil {
		t.Fatal(err)
	}
	number := 1
	for i := range src {
		for bit := range 8 {
			src[i] ^= 1 << bit
			log, _, err := parse(src)
			want := fmt.Sprintf("line %d: ", number)
			switch {
			case i == len(src)-1:
				if err != nil || log.Torn == 0 || log.Ended != nil {
					t.Fatalf("byte %d bit %d, the last line end: got %v and %d torn bytes", i, bit, err, log.Torn)
				}
			case err == nil || !strings.HasPrefix(err.Error(), want):
				t.Fatalf("byte %d bit %d: got error %v, want one at %q", i, bit, err, want)
			}
			src[i] ^= 1 << bit
		}
		if src[i] == '\n' {
			number++
		}
	}
}

// TestReaderRefuses reads lines with the right checksum and the wrong content.
func TestReaderRefuses(t *testing.T) {
	line := func(p payload) string {
		b, err := frame(p)
		if err != nil {
			t.Fatal(err)
		}
		return string(b)
	}
	raw := func(body string) string {
		return frameOpen + checksum([]byte(body)) + frameMid + body + frameClose + "\n"
	}
	good, changed := sample().seal(), sample().seal()
	changed.Case += " "
	torn := sample().seal()
	torn.Fragments[0].Text += " "
	head := line(payload{Head: &good})
	mark := Line{Reached: &Reached{5}}
	for _, test := range []struct{ src, want string }{
		{head + line(payload{N: 2, Line: mark}), "line 2: line is numbered 2, want 1: a line is lost or moved"},
		{line(payload{Line: mark}), "line 1: first line is not a head, want one"},
		{head + line(payload{N: 1, Head: &good}), "line 2: a second head, want only the first line to be one"},
		{head + line(payload{N: 1}), "line 2: line is 0 things, want one of do, reached, draft, ended"},
		{head + line(payload{N: 1, Line: mark}) + line(payload{N: 2, Line: Line{Ended: &Ended{At: 4}}}),
			"line 3: time 4 ms is before 5 ms of an earlier line, want no earlier"},
		{line(payload{Head: &changed}), fmt.Sprintf("line 1: case digest %q is not that of its text, want %q", Digest(good.Case), Digest(changed.Case))},
		{line(payload{Head: &torn}), fmt.Sprintf("line 1: fragment digest %q is not that of its text, want %q", Digest(good.Fragments[0].Text), Digest(torn.Fragments[0].Text))},
		{raw(`{"n":0,"head":{"format":2,"new":true}}`), "line 1: format 2 is not known here, want 1"},
		{head + raw(`{"n":1,"other":{}}`), `line 2: json: unknown field "other"`},
		{head + raw(`{"n":1,"draft":{"text":"a"}}{}`), "line 2: more follows the object, want one object a line"},
		{head + raw("{\"n\":1,\"draft\":{\"text\":\"\xff\"}}"), "line 2: content is not valid UTF-8"},
		{head + "\n", `line 2: line does not begin with {"crc32c":" and a checksum`},
		{head + strings.Repeat("x", MaxLine), "line 2: longer than 1048576 bytes, want at most that"},
		{head + strings.Repeat("x", MaxFile), "file is longer than 67108864 bytes, want at most that"},
	} {
		if _, _, err := parse([]byte(test.src)); err == nil || err.Error() != test.want {
			t.Errorf("got error %v\nwant %s", err, test.want)
		}
	}
}

// TestChecksum holds to a value known from outside: the CRC-32C of the nine
// digits is e3069283 (RFC 3720, appendix B.4 has the same polynomial; the
// digits are its usual check value).
func TestChecksum(t *testing.T) {
	if got := checksum([]byte("123456789")); got != "e3069283" {
		t.Errorf("got %s, want e3069283", got)
	}
	// RFC 3720, appendix B.4: 32 bytes of zeroes, given there byte by byte as
	// aa 36 91 8a, lowest byte first.
	if got := checksum(make([]byte, 32)); got != "8a9136aa" {
		t.Errorf("got %s, want 8a9136aa", got)
	}
}

// TestDigest holds to the example "abc" of FIPS 180-2, appendix B.1.
func TestDigest(t *testing.T) {
	const want = "ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad"
	if got := Digest("abc"); got != want {
		t.Errorf("got %s, want %s", got, want)
	}
}

// FuzzRead: whatever the bytes, the reader does not panic, and what it accepts
// it reads the same again without the torn bytes and as it would write it.
func FuzzRead(f *testing.F) {
	src, err := os.ReadFile(record(f, script()))
	if err != nil {
		f.Fatal(err)
	}
	f.Add(src)
	f.Add(src[:len(src)-3])
	f.Add([]byte{})
	f.Fuzz(func(t *testing.T, src []byte) {
		log, seq, err := parse(src)
		if err != nil {
			return
		}
		torn := log.Torn
		log.Torn = 0
		again, seqAgain, err := parse(src[:len(src)-torn])
		if err != nil || !reflect.DeepEqual(again, log) || seqAgain != seq {
			t.Fatalf("without the %d torn bytes: got %+v, %v, want %+v", torn, again, err, log)
		}
		rewritten, err := frame(payload{Head: &log.Head})
		if err != nil {
			t.Skip("a line grew past the limit by being escaped")
		}
		for i, l := range log.Lines {
			b, err := frame(payload{N: i + 1, Line: l})
			if err != nil {
				t.Skip("a line grew past the limit by being escaped")
			}
			rewritten = append(rewritten, b...)
		}
		log.Draft = ""
		third, _, err := parse(rewritten)
		if err != nil || !reflect.DeepEqual(third, log) {
			t.Fatalf("rewritten: got %+v, %v, want %+v", third, err, log)
		}
	})
}

// FuzzContent runs the reader past the checksum: the bytes are the content of a
// line with the right one.
func FuzzContent(f *testing.F) {
	head := sample().seal()
	first, err := frame(payload{Head: &head})
	if err != nil {
		f.Fatal(err)
	}
	for _, l := range script() {
		b, err := frame(payload{N: 1, Line: l})
		if err != nil {
			f.Fatal(err)
		}
		content, err := unwrap(bytes.TrimSuffix(b, []byte("\n")))
		if err != nil {
			f.Fatal(err)
		}
		f.Add(content)
	}
	f.Fuzz(func(t *testing.T, content []byte) {
		if bytes.ContainsRune(content, '\n') {
			return
		}
		src := fmt.Appendf(bytes.Clone(first), "%s%s%s%s%s\n", frameOpen, checksum(content), frameMid, content, frameClose)
		log, seq, err := parse(src)
		if err != nil {
			return
		}
		if seq.n != 2 || log.Torn != 0 || !reflect.DeepEqual(log.Head, head) {
			t.Fatalf("one line after the head read as %+v, %+v", log, seq)
		}
	})
}
