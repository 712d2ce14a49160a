package worksheet

import (
	"bytes"
	"encoding/csv"
	"errors"
	"fmt"
	"io"
	"strings"
	"unicode"
	"unicode/utf8"
)

// Fault is something that cannot be read, with its place. Lines and columns
// count from 1; columns count characters.
type Fault struct {
	Line   int    `json:"line"`
	Column int    `json:"column"`
	Said   string `json:"said"`
}

func (f *Fault) Error() string { return fmt.Sprintf("%d:%d: %s", f.Line, f.Column, f.Said) }

// field is one cell of the table with its place.
type field struct {
	text         string
	line, column int
}

// at is a fault in a field, some bytes into its text. Where the text runs over
// several lines the fault is given the place of the field.
func (f field) at(offset int, format string, args ...any) *Fault {
	out := &Fault{f.line, f.column, fmt.Sprintf(format, args...)}
	if before := f.text[:min(offset, len(f.text))]; !strings.Contains(before, "\n") {
		out.Column += utf8.RuneCountInString(before) + strings.Count(before, `"`)
	}
	return out
}

// record is one row of the table by the names of its columns.
type record struct {
	fields map[string]field
	line   int
	fault  *Fault // the row has no such columns
}

var needed = []string{"id", "kind", "inputs", "answer", "unit"}

// records reads a whole table. The error is a Fault: without columns there is
// nothing to check.
func records(src []byte) ([]record, error) {
	src = bytes.TrimPrefix(src, []byte("\ufeff"))
	if !utf8.Valid(src) {
		return nil, &Fault{1, 1, "the file is not UTF-8 text: save the table as CSV in UTF-8"}
	}
	lines := bytes.Split(src, []byte("\n"))
	if f := unprintable(lines); f != nil {
		return nil, f
	}
	r := csv.NewReader(bytes.NewReader(src))
	r.FieldsPerRecord = -1
	var names []string
	var out []record
	for {
		cells, err := r.Read()
		if err == io.EOF {
			break
		}
		var bad *csv.ParseError
		if errors.As(err, &bad) {
			return nil, &Fault{bad.Line, columnOf(lines, bad.Line, bad.Column), "the row is no CSV: a cell with a comma or a quote in it stands in quotes, and a quote in it is doubled"}
		}
		if err != nil {
			return nil, &Fault{1, 1, err.Error()}
		}
		place := func(i int) (line, column int) {
			line, b := r.FieldPos(i)
			if text := lines[line-1]; b-1 < len(text) && text[b-1] == '"' {
				b++
			}
			return line, columnOf(lines, line, b)
		}
		if names == nil {
			if names, err = header(cells); err != nil {
				return nil, err
			}
			continue
		}
		line, _ := r.FieldPos(0)
		rec := record{fields: map[string]field{}, line: line}
		if len(cells) != len(names) {
			last, column := place(len(cells) - 1)
			rec.fault = &Fault{last, column, fmt.Sprintf("the row has %d cells and the first row %d: a cell with a comma in it stands in quotes", len(cells), len(names))}
		}
		for i, text := range cells[:min(len(cells), len(names))] {
			line, column := place(i)
			rec.fields[names[i]] = field{text, line, column}
		}
		out = append(out, rec)
	}
	if names == nil {
		return nil, &Fault{1, 1, "the file is empty: its first row names the columns " + strings.Join(needed, ",") + ",rounding"}
	}
	return out, nil
}

// unprintable finds a character that could not be shown again.
func unprintable(lines [][]byte) *Fault {
	for i, l := range lines {
		column := 0
		for _, c := range string(l) {
			column++
			if c != '\t' && c != '\r' && !unicode.IsPrint(c) && !unicode.Is(unicode.Zs, c) {
				return &Fault{i + 1, column, fmt.Sprintf("the character %U does not print: take it out", c)}
			}
		}
	}
	return nil
}

// header reads the names of the columns.
func header(cells []string) ([]string, error) {
	var names []string
	seen := map[string]bool{}
	for _, c := range cells {
		name := strings.ToLower(strings.TrimSpace(c))
		if seen[name] && name != "" {
			return nil, &Fault{1, 1, fmt.Sprintf("the column %s stands twice", name)}
		}
		seen[name] = true
		names = append(names, name)
	}
	for _, n := range needed {
		if seen[n] {
			continue
		}
		said := fmt.Sprintf("the column %s is missing: the first row names the columns %s,rounding", n, strings.Join(needed, ","))
		if len(cells) == 1 && strings.ContainsAny(cells[0], ";\t") {
			said = "the columns are parted by something else than commas: save the table as CSV with commas"
		}
		return nil, &Fault{1, 1, said}
	}
	return names, nil
}

// columnOf counts the characters of a line up to a byte, which counts from 1.
func columnOf(lines [][]byte, line, b int) int {
	if line < 1 || line > len(lines) {
		return b
	}
	return utf8.RuneCount(lines[line-1][:min(max(b-1, 0), len(lines[line-1]))]) + 1
}
