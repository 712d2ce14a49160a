package scenarios

import (
	"fmt"
	"strings"
	"unicode"
	"unicode/utf8"

	"github.com/rivo/uniseg"
)

// String names the level as messages do.
func (l Level) String() string {
	switch l {
	case Error:
		return "error"
	case Warning:
		return "warning"
	case Note:
		return "note"
	}
	return "unknown"
}

// String is file:line:column.
func (p Pos) String() string { return fmt.Sprintf("%s:%d:%d", Harmless(p.File), p.Line, p.Column) }

// Harmless is a file's name as it is shown: it can disturb a terminal as much as
// a file's text can, so what does not print is shown as "?".
func Harmless(s string) string {
	return strings.Map(func(r rune) rune {
		if r == utf8.RuneError || unicode.IsControl(r) || isDirectional(r) {
			return '?'
		}
		return r
	}, s)
}

// widest is how much of a long line is shown around the fault.
const widest = 100

// Render words a complaint for a terminal: where and what, the author's own
// line with a caret under the column, what is allowed, what was likely
// meant. src is the file the complaint is about; without it the line is
// left out. The text ends without a line end.
func Render(c Complaint, src []byte) string {
	var b strings.Builder
	fmt.Fprintf(&b, "%s: %s: %s [%s]", c.Pos, c.Level, c.Said, c.Code)
	if line, found := lineAt(src, c.Pos.Line); found {
		shown, indent := window(line, c.Pos.Column)
		fmt.Fprintf(&b, "\n    %s\n    %s^", shown, strings.Repeat(" ", indent))
	}
	if c.Meant != "" {
		fmt.Fprintf(&b, "\n  did you mean %s?", quoted(c.Meant))
	}
	if c.Allowed != "" {
		fmt.Fprintf(&b, "\n  allowed: %s", c.Allowed)
	}
	if c.Also != nil {
		fmt.Fprintf(&b, "\n  the first stands at %s", *c.Also)
	}
	return b.String()
}

func lineAt(src []byte, n int) (string, bool) {
	text := strings.TrimPrefix(string(src), "\ufeff")
	for ; n > 1; n-- {
		_, rest, found := strings.Cut(text, "\n")
		if !found {
			return "", false
		}
		text = rest
	}
	line, _, _ := strings.Cut(text, "\n")
	return strings.TrimSuffix(line, "\r"), n == 1 && strings.TrimSpace(line) != ""
}

// window is the part of a line around a column, safe to print, and the
// number of cells before that column.
func window(line string, column int) (string, int) {
	var before, after strings.Builder
	at := 0
	for rest := line; rest != ""; {
		r, size := utf8.DecodeRuneInString(rest)
		rest = rest[size:]
		at++
		b := &before
		if at >= column {
			b = &after
		}
		switch {
		case r == '\t':
			b.WriteString("    ")
		case r == utf8.RuneError && size == 1, unicode.IsControl(r), isDirectional(r):
			b.WriteByte('?')
		default:
			b.WriteRune(r)
		}
	}
	left, right := before.String(), after.String()
	for cut := false; uniseg.StringWidth(left) > widest*2/3; cut = true {
		if cut {
			left = strings.TrimPrefix(left, "...")
		}
		drop := len(left) / 4
		for drop < len(left) && !utf8.RuneStart(left[drop]) {
			drop++
		}
		left = "..." + left[drop:]
	}
	if runes := []rune(right); len(runes) > widest {
		right = string(runes[:widest]) + "..."
	}
	return left + right, uniseg.StringWidth(left)
}

// quoted puts an author's word between quotation marks, shortened and
// without anything that could disturb a terminal.
func quoted(s string) string {
	runes := []rune(s)
	if len(runes) > 60 {
		runes = append(runes[:57:57], []rune("...")...)
	}
	for i, r := range runes {
		switch {
		case r == '\n' || r == '\t':
			runes[i] = ' '
		case unicode.IsControl(r) || isDirectional(r):
			runes[i] = '?'
		}
	}
	return `"` + string(runes) + `"`
}
