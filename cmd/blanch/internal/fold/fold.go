// Package fold breaks text into rows at its spaces. Widths are those of a
// screen, so a character of two columns counts as two.
package fold

import (
	"strings"

	"github.com/rivo/uniseg"
)

// Rows folds text to a width: the first row begins with lead, and later ones
// with hang. A word that is wider than the room has a row of its own, whole.
func Rows(lead, hang, text string, width int) []string {
	return Words(lead, hang, strings.Fields(text), width)
}

// Words folds words, within which nothing breaks.
func Words(lead, hang string, words []string, width int) []string {
	var rows []string
	row, at := lead, uniseg.StringWidth(lead)
	for i, word := range words {
		wide := uniseg.StringWidth(word)
		switch {
		case i == 0:
		case at+1+wide > width:
			rows = append(rows, row)
			row, at = hang, uniseg.StringWidth(hang)
		default:
			row, at = row+" ", at+1
		}
		row, at = row+word, at+wide
	}
	return append(rows, row)
}

// Under are as many spaces as a lead is wide, so that later rows stand under
// the text.
func Under(lead string) string { return strings.Repeat(" ", uniseg.StringWidth(lead)) }
