package main

import (
	"strings"
	"unicode/utf8"

	"blanch/content"
	"blanch/scenarios"
)

// notWrittenOver notes what still stands in a file as "blanch new" wrote it.
// It is a note, so that a file just begun is clean.
func (c *checker) notWrittenOver(file string, src []byte) {
	for i, line := range strings.Split(string(src), "\n") {
		if strings.HasPrefix(strings.TrimSpace(line), "#") {
			continue
		}
		for _, words := range content.ToWriteOver() {
			before, _, found := strings.Cut(line, words)
			if !found {
				continue
			}
			c.complaints = append(c.complaints, scenarios.Complaint{
				Level: scenarios.Note, Code: "not-written-over",
				Pos:     scenarios.Pos{File: file, Line: i + 1, Column: utf8.RuneCountInString(before) + 1},
				Said:    "this stands as the file was begun, and others would read it",
				Allowed: "your own words",
			})
		}
	}
}
