package picture

import (
	"math"
	"strings"
)

// Bar draws a share of 1 as one line of width columns: [=====>    ]  61 %. The
// bar is full from 1 on; the number goes on to 999 %. A share that is no number,
// or below 0, is "not known".
func (p Pen) Bar(share float64, width int) string {
	width = max(0, width)
	if !(share >= 0) || math.IsInf(share, 0) {
		return pad(longest(width, "not known", "?"), width)
	}
	share = min(share, 9.99)
	figure := longest(width, number(100*share, 0)+" %")
	const column = len(" 100 %")
	room := width - column - len("[]")
	if room < 3 || len(figure) > column-1 {
		return pad(figure, width)
	}
	full := min(int(math.Floor(share*float64(room)+1e-9)), room)
	inside := strings.Repeat("=", full)
	if full > 0 && full < room {
		inside = inside[1:] + ">"
	}
	return "[" + pad(inside, room) + "]" + strings.Repeat(" ", column-len(figure)) + figure
}
