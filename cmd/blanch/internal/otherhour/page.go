package otherhour

import (
	"fmt"
	"strings"

	"blanch/cmd/blanch/internal/fold"
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
	for _, row := range fold.Rows(lead, fold.Under(lead), fmt.Sprintf(format, args...), pageWidth) {
		p.WriteString(row + "\n")
	}
}

// counted words a number of things.
func counted(n int, one string) string {
	if n == 1 {
		return "1 " + one
	}
	return fmt.Sprintf("%d %ss", n, one)
}
