package prompt

import (
	"strings"

	"github.com/rivo/uniseg"

	"blanch/cmd/blanch/internal/session"
)

// folded is the width that text is folded to on a screen of 80 columns.
const folded = 78

// render gives the rows of a line on the screen.
func render(l session.Line) []string {
	switch l.Kind {
	case session.Happened:
		return wrap(pad(l.At, 9), strings.Repeat(" ", 9), l.Text)
	case session.Heading:
		return append([]string{""}, wrap("", "", l.Text)...)
	case session.Row:
		return []string{strings.TrimRight(l.Text, " ")}
	case session.Fault:
		return wrap("? ", "  ", l.Text)
	}
	text := strings.TrimLeft(l.Text, " ")
	lead := l.Text[:len(l.Text)-len(text)]
	hang := lead
	if strings.HasPrefix(text, "- ") {
		hang += "  "
	} else if lead != "" {
		hang += "  "
	}
	return wrap(lead, hang, text)
}

func renderAll(lines []session.Line) []string {
	var rows []string
	for _, l := range lines {
		rows = append(rows, render(l)...)
	}
	return rows
}

func pad(s string, width int) string {
	return s + strings.Repeat(" ", max(0, width-uniseg.StringWidth(s)))
}

// wrap folds text behind a lead; later rows stand behind hang. A word that is
// wider than a row is cut.
func wrap(lead, hang, text string) []string {
	var rows []string
	row, at, empty := lead, uniseg.StringWidth(lead), true
	next := func() {
		rows = append(rows, row)
		row, at, empty = hang, uniseg.StringWidth(hang), true
	}
	for _, word := range strings.Fields(text) {
		width := uniseg.StringWidth(word)
		if !empty && at+1+width > folded {
			next()
		}
		if !empty {
			row, at = row+" ", at+1
		}
		for at+width > folded {
			head, tail := cut(word, folded-at)
			if head == "" {
				break
			}
			row += head
			next()
			word, width = tail, uniseg.StringWidth(tail)
		}
		row, at, empty = row+word, at+width, false
	}
	return append(rows, row)
}

// cut takes as many whole characters from the front as fit.
func cut(word string, cells int) (head, tail string) {
	rest, state := word, -1
	for rest != "" {
		cluster, after, width, next := uniseg.FirstGraphemeClusterInString(rest, state)
		if width > cells {
			break
		}
		head, rest, state, cells = head+cluster, after, next, cells-width
	}
	return head, rest
}

// joined sets parts side by side, as many on a row as fit.
func joined(parts []string) []string {
	const gap, hang = "  ", "         "
	var rows []string
	row := ""
	for _, part := range parts {
		switch {
		case row == "":
			row = part
		case uniseg.StringWidth(row+gap+part) > folded:
			rows = append(rows, row)
			row = hang + part
		default:
			row += gap + part
		}
	}
	return append(rows, row)
}
