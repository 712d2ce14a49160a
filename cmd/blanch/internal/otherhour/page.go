package otherhour

import (
	"fmt"
	"strings"
	"unicode/utf8"
)

// pageWidth is what all text is folded to.
const pageWidth = 80

// page collects lines of text.
type page struct{ strings.Builder }

// gap is an empty line.
func (p *page) gap() { p.WriteByte('\n') }

// row is a line that keeps its own columns.
func (p *page) row(format string, args ...any) {
	p.WriteString(strings.TrimRight(fmt.Sprintf(format, args...), " ") + "\n")
}

// say folds text behind a lead; later lines stand under the text.
func (p *page) say(lead, format string, args ...any) {
	indent := strings.Repeat(" ", utf8.RuneCountInString(lead))
	line := lead
	for i, word := range strings.Fields(fmt.Sprintf(format, args...)) {
		switch {
		case i == 0:
			line += word
		case utf8.RuneCountInString(line)+1+utf8.RuneCountInString(word) > pageWidth:
			p.WriteString(line + "\n")
			line = indent + word
		default:
			line += " " + word
		}
	}
	p.WriteString(line + "\n")
}

// counted words a number of things.
func counted(n int, one string) string {
	if n == 1 {
		return "1 " + one
	}
	return fmt.Sprintf("%d %ss", n, one)
}
