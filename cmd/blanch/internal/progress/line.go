package progress

import (
	"bytes"
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"time"

	"blanch/cmd/blanch/internal/review"
)

// Format is the only version of a line that this package writes and reads.
const Format = 1

// line is the content of one line of the file.
type line struct {
	Format int     `json:"format"`
	N      int64   `json:"n"` // counts the lines from 0
	Review *answer `json:"review"`
}

// answer is a [review.Answer] on the disk. Times are in milliseconds, and At is
// RFC 3339 in UTC.
type answer struct {
	Question     string       `json:"question"`
	Unit         review.Unit  `json:"unit"`
	Level        review.Level `json:"level"`
	Critical     bool         `json:"critical,omitempty"`
	At           string       `json:"at"`
	Right        bool         `json:"right"`
	CriticalMiss bool         `json:"critical_miss,omitempty"`
	Hinted       bool         `json:"hinted,omitempty"`
	Try          int          `json:"try"`
	TookMs       int64        `json:"took_ms,omitempty"`
	AllowedMs    int64        `json:"allowed_ms,omitempty"`
}

// maxNumber is the last whole number that every reader of JSON keeps exact. No
// file has as many lines.
const maxNumber = 1 << 53

const atLayout = "2006-01-02T15:04:05.000Z"

// errNewer is wrapped by the error about a file of a newer format.
var errNewer = errors.New("written by a newer version of this program: use that one; the file was left as it is")

// write is the content of a line.
func write(n int64, a review.Answer) ([]byte, error) {
	if n > maxNumber {
		return nil, fmt.Errorf("line would be number %d, want at most %d", n, int64(maxNumber))
	}
	var b bytes.Buffer
	enc := json.NewEncoder(&b)
	enc.SetEscapeHTML(false)
	err := enc.Encode(line{Format, n, &answer{
		Question: a.Name, Unit: a.Unit, Level: a.Level, Critical: a.Question.Critical,
		At:    a.At.UTC().Format(atLayout),
		Right: a.Right, CriticalMiss: a.CriticalMiss, Hinted: a.Hinted, Try: a.Try,
		TookMs: a.Took.Milliseconds(), AllowedMs: a.Allowed.Milliseconds(),
	}})
	return bytes.TrimSuffix(b.Bytes(), []byte("\n")), err
}

// read is the number and the answer of a line's content.
func read(content []byte) (int64, review.Answer, error) {
	var l line
	err := strict(content, &l)
	if newer := formatOf(content, l, err); newer > Format {
		return 0, review.Answer{}, fmt.Errorf("format %d, and %d is the newest known here: %w", newer, Format, errNewer)
	}
	if err != nil {
		return 0, review.Answer{}, err
	}
	switch {
	case l.Format != Format:
		return 0, review.Answer{}, fmt.Errorf("format is %d, want %d", l.Format, Format)
	case l.N < 0 || l.N > maxNumber:
		return 0, review.Answer{}, fmt.Errorf("number is %d, want 0 to %d", l.N, int64(maxNumber))
	case l.Review == nil:
		return 0, review.Answer{}, errors.New("line has no review, want one")
	}
	a, err := l.Review.answer()
	return l.N, a, err
}

// strict reads one JSON object with known fields alone.
func strict(content []byte, into any) error {
	dec := json.NewDecoder(bytes.NewReader(content))
	dec.DisallowUnknownFields()
	if err := dec.Decode(into); err != nil {
		return err
	}
	if _, err := dec.Token(); !errors.Is(err, io.EOF) {
		return errors.New("more follows the object, want one object a line")
	}
	return nil
}

// formatOf is the format of a line, also of one that could not be read.
func formatOf(content []byte, l line, err error) int {
	if err == nil {
		return l.Format
	}
	var peek struct {
		Format int `json:"format"`
	}
	if json.Unmarshal(content, &peek) != nil {
		return 0
	}
	return peek.Format
}

func (l answer) answer() (review.Answer, error) {
	at, err := time.Parse(atLayout, l.At)
	if err != nil {
		return review.Answer{}, fmt.Errorf("time %q, want one as %s", l.At, atLayout)
	}
	most := maxSpan.Milliseconds()
	if min(l.TookMs, l.AllowedMs) < 0 || max(l.TookMs, l.AllowedMs) > most {
		return review.Answer{}, fmt.Errorf("took %d ms of %d ms, want 0 to %d", l.TookMs, l.AllowedMs, most)
	}
	a := review.Answer{
		Question: review.Question{Name: l.Question, Unit: l.Unit, Level: l.Level, Critical: l.Critical},
		At:       at, Right: l.Right, CriticalMiss: l.CriticalMiss, Hinted: l.Hinted, Try: l.Try,
		Took: time.Duration(l.TookMs) * time.Millisecond, Allowed: time.Duration(l.AllowedMs) * time.Millisecond,
	}
	return a, check(a)
}
