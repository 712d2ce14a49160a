package picture

import (
	"strings"

	"github.com/rivo/uniseg"
)

// PumpLines is the height of every PumpFields.
const PumpLines = 3

// PumpFields draws what an infusion pump shows as two labelled boxes, the rate
// with its unit and the state. The rate comes as text, so that it reads as it
// does everywhere else.
func (p Pen) PumpFields(rate, unit, state string, width int) []string {
	width = max(0, width)
	rate, state = strings.TrimSpace(p.clean(rate)+" "+p.clean(unit)), p.clean(state)
	const edges = 2 * len("|  |")
	room := width - edges - 1
	left := max(10, uniseg.StringWidth(rate))
	right := max(10, uniseg.StringWidth(state))
	if left+right > room {
		return words([]string{rate, state}, width, PumpLines)
	}
	top, middle, bottom := box("rate", rate, left)
	top2, middle2, bottom2 := box("pump", state, right)
	return block([]string{top + " " + top2, middle + " " + middle2, bottom + " " + bottom2}, width, PumpLines)
}

// box is a labelled frame around s, which is at most width wide.
func box(name, s string, width int) (top, middle, bottom string) {
	return "+- " + name + " " + strings.Repeat("-", max(0, width-len(name)-1)) + "+",
		"| " + pad(s, width) + " |",
		"+" + strings.Repeat("-", width+2) + "+"
}
