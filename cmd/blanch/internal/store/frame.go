package store

import (
	"bytes"
	"encoding/json"
	"errors"
	"fmt"
	"hash/crc32"
	"io"
	"unicode/utf8"
)

// Sizes that no sound recording reaches; they bound what a reader may be made
// to hold. Both are in bytes, line ends included.
const (
	MaxLine = 1 << 20
	MaxFile = 64 << 20
)

const (
	frameOpen  = `{"crc32c":"`
	frameMid   = `","line":`
	frameClose = `}`
	sumDigits  = 8
)

var castagnoli = crc32.MakeTable(crc32.Castagnoli)

// payload is what the checksum of a line covers: its number and its content.
type payload struct {
	N    int   `json:"n"`
	Head *Head `json:"head,omitempty"`
	Line
}

// frame writes a payload as one line of the file.
func frame(p payload) ([]byte, error) {
	var body bytes.Buffer
	enc := json.NewEncoder(&body)
	enc.SetEscapeHTML(false)
	if err := enc.Encode(p); err != nil {
		return nil, err
	}
	return frameContent(bytes.TrimSuffix(body.Bytes(), []byte("\n")))
}

// frameContent puts the checksum before the content of a line, and a line end
// after it.
func frameContent(b []byte) ([]byte, error) {
	out := make([]byte, 0, len(frameOpen)+sumDigits+len(frameMid)+len(b)+len(frameClose)+1)
	out = append(out, frameOpen...)
	out = append(out, checksum(b)...)
	out = append(out, frameMid...)
	out = append(out, b...)
	out = append(out, frameClose...)
	out = append(out, '\n')
	if len(out) > MaxLine {
		return nil, fmt.Errorf("line is %d bytes long, want at most %d", len(out), MaxLine)
	}
	return out, nil
}

// unframe reads a line of the file without its line end. A head of another
// format is told apart from damage.
func unframe(line []byte) (payload, error) {
	b, err := unwrap(line)
	if err != nil {
		return payload{}, err
	}
	var peek struct {
		Head *struct {
			Format int `json:"format"`
		} `json:"head"`
	}
	if err := json.Unmarshal(b, &peek); err == nil && peek.Head != nil && peek.Head.Format != Format {
		return payload{}, fmt.Errorf("format %d is not known here, want %d", peek.Head.Format, Format)
	}
	dec := json.NewDecoder(bytes.NewReader(b))
	dec.DisallowUnknownFields()
	var p payload
	if err := dec.Decode(&p); err != nil {
		return payload{}, err
	}
	if _, err := dec.Token(); !errors.Is(err, io.EOF) {
		return payload{}, errors.New("more follows the object, want one object a line")
	}
	return p, nil
}

// unwrap returns the checked payload bytes of a line.
func unwrap(line []byte) ([]byte, error) {
	rest, ok := bytes.CutPrefix(line, []byte(frameOpen))
	if !ok || len(rest) < sumDigits {
		return nil, fmt.Errorf("line does not begin with %s and a checksum", frameOpen)
	}
	sum, rest := string(rest[:sumDigits]), rest[sumDigits:]
	rest, ok = bytes.CutPrefix(rest, []byte(frameMid))
	if !ok {
		return nil, fmt.Errorf("checksum is not followed by %s", frameMid)
	}
	b, ok := bytes.CutSuffix(rest, []byte(frameClose))
	if !ok {
		return nil, fmt.Errorf("line does not end with %s", frameClose)
	}
	if got := checksum(b); got != sum {
		return nil, fmt.Errorf("checksum of the content is %s, want %s: the line has changed", got, sum)
	}
	if !utf8.Valid(b) {
		return nil, errors.New("content is not valid UTF-8")
	}
	return b, nil
}

// checksum is CRC-32C, the polynomial of Castagnoli, in hexadecimal.
func checksum(b []byte) string {
	return fmt.Sprintf("%0*x", sumDigits, crc32.Checksum(b, castagnoli))
}
