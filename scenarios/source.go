package scenarios

import (
	"bytes"
	"fmt"
	"strings"
	"unicode"
	"unicode/utf8"
)

// MaxBytes is the largest file that is read.
const MaxBytes = 256 << 10

// maxComplaints bounds what a hostile file can make us say.
const maxComplaints = 200

// source is the text of one file, cut into lines. Bad characters have been
// replaced by '?', so that columns still count characters.
type source struct {
	file  string
	text  []byte
	lines []string

	// Where from last looked: a file can be one line of many values.
	last struct{ line, column, offset int }
}

// newSource checks the characters of a file. It reports false when the file
// is too large to look at any further.
func newSource(file string, src []byte, say func(Complaint)) (*source, bool) {
	s := &source{file: file}
	if len(src) > MaxBytes {
		say(Complaint{
			Level: Error, Code: "too-large", Pos: s.pos(1, 1),
			Said:    fmt.Sprintf("the file has %d bytes", len(src)),
			Allowed: fmt.Sprintf("at most %d bytes", MaxBytes),
		})
		return s, false
	}
	src = bytes.TrimPrefix(src, []byte("\ufeff"))
	clean := make([]byte, 0, len(src))
	line, column := 1, 1
	for i := 0; i < len(src); {
		r, size := utf8.DecodeRune(src[i:])
		switch said, fault := badRune(src[i:], r, size); {
		case fault != "":
			say(Complaint{
				Level: Error, Code: fault, Pos: s.pos(line, column), Said: said,
				Allowed: "text in UTF-8 without control characters or characters that turn the reading direction",
			})
			clean = append(clean, '?')
		default:
			clean = append(clean, src[i:i+size]...)
		}
		if r == '\n' {
			line, column = line+1, 1
		} else {
			column++
		}
		i += size
	}
	s.text = bytes.ReplaceAll(clean, []byte("\r\n"), []byte("\n"))
	s.lines = strings.Split(string(s.text), "\n")
	return s, true
}

// badRune names what is wrong with the first character of rest, if anything.
// Characters that YAML takes for line ends are refused too: editors disagree
// on them, and then every line number is off.
func badRune(rest []byte, r rune, size int) (said, code string) {
	switch {
	case r == utf8.RuneError && size == 1:
		return fmt.Sprintf("the byte 0x%02x is not UTF-8", rest[0]), "not-utf8"
	case r == '\n' || r == '\t' || r == '\r' && len(rest) > 1 && rest[1] == '\n':
		return "", ""
	case isDirectional(r):
		return fmt.Sprintf("U+%04X turns the reading direction", r), "direction-character"
	case unicode.IsControl(r) || r == 0x2028 || r == 0x2029 || r == 0xfeff:
		return fmt.Sprintf("U+%04X is a control character", r), "control-character"
	}
	return "", ""
}

func isDirectional(r rune) bool {
	return r == 0x061c || r == 0x200e || r == 0x200f ||
		r >= 0x202a && r <= 0x202e || r >= 0x2066 && r <= 0x2069
}

func (s *source) pos(line, column int) Pos {
	return Pos{File: s.file, Line: line, Column: column}
}

// line is the text of a line, counted from 1; empty beyond the file.
func (s *source) line(n int) string {
	if n < 1 || n > len(s.lines) {
		return ""
	}
	return s.lines[n-1]
}

// from is the text of a line from a column on, both counted from 1.
func (s *source) from(line, column int) string {
	text := s.line(line)
	if s.last.line != line || s.last.column > column {
		s.last.line, s.last.column, s.last.offset = line, 1, 0
	}
	for s.last.column < column && s.last.offset < len(text) {
		_, size := utf8.DecodeRuneInString(text[s.last.offset:])
		s.last.offset += size
		s.last.column++
	}
	return text[s.last.offset:]
}
