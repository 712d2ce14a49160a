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
	N      int     `json:"n"` // counts the lines from 0
	Review *answer `json:"review"`
}

// answer is a [review.Answer] on the disk. Times are in milliseconds, and At is
// RFC 3339 in UTC.
type answer struct {
	Question     string      `json:"question"`
	Unit         review.Unit `json:"unit"`
	Level        int         `json:"level"`
	Critical     bool        `json:"critical,omitempty"`
	At           string      `json:"at"`
	Right        bool        `json:"right"`
	CriticalMiss bool        `json:"critical_miss,omitempty"`
	Hinted       bool        `json:"hinted,omitempty"`
	Try          int         `json:"try"`
	TookMs       int64       `json:"took_ms,omitempty"`
	AllowedMs    int64       `json:"allowed_ms,omitempty"`
}

const atLayout = "2006-01-02T15:04:05.000Z"

// errNewer is wrapped by the error about a file of a newer format.
var errNewer = errors.New("written by a newer version of this program: use that one; the file was left as it is")

// write is the content of a line.
func write(n int, a review.Answer) ([]byte, error) {
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
func read(content []byte) (int, review.Answer, error) {
	var peek struct {
		Format int `json:"format"`
	}
	if err := json.Unmarshal(content, &peek); err != nil {
		return 0, review.Answer{}, err
	}
	if peek.Format > Format {
		return 0, review.Answer{}, fmt.Errorf("format %d, and %d is the newest known here: %w", peek.Format, Format, errNewer)
	}
	dec := json.NewDecoder(bytes.NewReader(content))
	dec.DisallowUnknownFields()
	var l line
	if err := dec.Decode(&l); err != nil {
		return 0, review.Answer{}, err
	}
	if _, err := dec.Token(); !errors.Is(err, io.EOF) {
		return 0, review.Answer{}, errors.New("more follows the object, want one object a line")
	}
	switch {
	case l.Format != Format:
		return 0, review.Answer{}, fmt.Errorf("format is %d, want %d", l.Format, Format)
	case l.N < 0:
		return 0, review.Answer{}, fmt.Errorf("number is %d, want 0 or more", l.N)
	case l.Review == nil:
		return 0, review.Answer{}, errors.New("line has no review, want one")
	}
	a, err := l.Review.answer()
	return l.N, a, err
}

func (l answer) answer() (review.Answer, error) {
	at, err := time.Parse(atLayout, l.At)
	if err != nil {
		return review.Answer{}, fmt.Errorf("time %q, want one as %s", l.At, atLayout)
	}
	const most = int64(maxSpan / time.Millisecond)
	if l.TookMs > most || l.AllowedMs > most {
		return review.Answer{}, fmt.Errorf("took %d ms of %d ms, want at most %v", l.TookMs, l.AllowedMs, maxSpan)
	}
	a := review.Answer{
		Question: review.Question{Name: l.Question, Unit: l.Unit, Level: l.Level, Critical: l.Critical},
		At:       at, Right: l.Right, CriticalMiss: l.CriticalMiss, Hinted: l.Hinted, Try: l.Try,
		Took: time.Duration(l.TookMs) * time.Millisecond, Allowed: time.Duration(l.AllowedMs) * time.Millisecond,
	}
	return a, check(a)
}
