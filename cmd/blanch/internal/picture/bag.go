package picture

import "github.com/rivo/uniseg"

// Bag draws a hanging bag with its label. A label too long for the picture is
// set without the bag; what does not fit then is left out by whole lines, and
// the last row is dots to say so.
func (p Pen) Bag(label []string, width, height int) []string {
	width, height = max(0, width), max(0, height)
	const edge = len("| ") + len(" |")
	if inside, ok := p.set(label, width-edge); ok && len(inside)+4 <= height {
		widest := 8
		for _, s := range inside {
			widest = max(widest, uniseg.StringWidth(s))
		}
		if widest+edge <= width {
			return hang(inside, widest, width, height)
		}
	}
	rows, ok := p.set(label, width)
	if !ok || len(rows) > height {
		rows = rows[:min(len(rows), max(0, height-1))]
		rows = append(rows, longest(width, "..."))
	}
	return block(rows, width, height)
}

// hang draws the bag: an eye to hang it by, the label, the outlet.
func hang(label []string, widest, width, height int) []string {
	side := func(r byte, fill byte) string {
		b := make([]byte, widest+4)
		for i := range b {
			b[i] = fill
		}
		b[0], b[len(b)-1] = r, r
		return string(b)
	}
	rows := []string{centre("_( )_", widest+4), side('.', '-')}
	for _, s := range label {
		rows = append(rows, "| "+pad(s, widest)+" |")
	}
	rows = append(rows, side('\'', '-'), centre("||", widest+4))
	for i, s := range rows {
		rows[i] = centre(s, width)
	}
	return block(rows, width, height)
}

// set wraps lines of a label to width. It reports false, with the lines before
// it, at the first that has a word too wide.
func (p Pen) set(label []string, width int) ([]string, bool) {
	var rows []string
	for _, s := range label {
		more, ok := wrap(p.clean(s), width)
		if !ok {
			return rows, false
		}
		rows = append(rows, more...)
	}
	return rows, true
}
