package session

import (
	"fmt"
	"strings"

	"blanch/sim"
)

// Line is one thing to show: something that happened at a time of the case,
// or something said outside it.
type Line struct {
	Kind Kind
	At   string // "0:31:20" for entries, empty otherwise
	Text string
}

// Kind says how a line is meant. The zero value is invalid.
type Kind uint8

// Kinds of line.
const (
	Happened Kind = iota + 1 // an entry of the journal
	Told                     // prose, to be folded
	Heading                  // begins a part of a text
	Row                      // keeps its own columns
	Fault                    // what was typed cannot be understood
)

func told(format string, args ...any) Line {
	return Line{Kind: Told, Text: fmt.Sprintf(format, args...)}
}
func heading(text string) Line            { return Line{Kind: Heading, Text: text} }
func row(format string, args ...any) Line { return Line{Kind: Row, Text: fmt.Sprintf(format, args...)} }
func fault(format string, args ...any) Line {
	return Line{Kind: Fault, Text: fmt.Sprintf(format, args...)}
}

// happened is an entry as a line.
func happened(en sim.Entry) Line {
	return Line{Kind: Happened, At: en.At.Exact(), Text: oneLine(en.Text())}
}

// oneLine folds an author's lines into one.
func oneLine(s string) string { return strings.Join(strings.Fields(s), " ") }

// Journal writes entries as text, one a line, "0:31:20  text". Hidden ones
// say that they were not shown.
func Journal(entries []sim.Entry) string {
	var b strings.Builder
	for _, en := range entries {
		fmt.Fprintf(&b, "%-7s  %s\n", en.At.Exact(), oneLine(en.Text()))
	}
	return b.String()
}
