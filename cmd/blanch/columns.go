package main

import (
	"fmt"
	"io"
	"strings"
	"unicode/utf8"
)

// printColumns prints lines in columns; the last runs on as it is.
func printColumns(out io.Writer, lines [][]string) {
	var widths []int
	for _, l := range lines {
		for i, cell := range l {
			if i == len(widths) {
				widths = append(widths, 0)
			}
			widths[i] = max(widths[i], utf8.RuneCountInString(cell))
		}
	}
	for _, l := range lines {
		var b strings.Builder
		for i, cell := range l {
			b.WriteString(cell)
			if i < len(l)-1 {
				b.WriteString(strings.Repeat(" ", widths[i]-utf8.RuneCountInString(cell)+2))
			}
		}
		fmt.Fprintln(out, strings.TrimRight(b.String(), " "))
	}
}
