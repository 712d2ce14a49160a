package picture

import (
	"math"
	"strconv"
	"strings"

	"github.com/rivo/uniseg"
)

// number prints x with at most so many decimals, the half rounded away from
// zero, with a leading zero and no trailing one. What is no number is "?".
func number(x float64, decimals int) string {
	if math.IsNaN(x) || math.IsInf(x, 0) {
		return "?"
	}
	scale := math.Pow10(decimals)
	// The nudge brings 0.15, held as 0.1499999, up to the half it stands for.
	if y := math.Floor(math.Abs(x)*scale+0.5+1e-9) / scale; !math.IsInf(y, 0) {
		x = math.Copysign(y, x)
	}
	return strconv.FormatFloat(x+0, 'f', -1, 64)
}

// clock prints simulated minutes as hours and minutes: 0:47.
func clock(min float64) string {
	m := int(math.Floor(min))
	s := strconv.Itoa(m % 60)
	if len(s) < 2 {
		s = "0" + s
	}
	return strconv.Itoa(m/60) + ":" + s
}

// known reports whether every x is a number small enough to be drawn.
func known(xs ...float64) bool {
	for _, x := range xs {
		if !(math.Abs(x) < 1e6) {
			return false
		}
	}
	return true
}

// clean makes one line of printable text: what the pen may not draw becomes
// "?" and white space of any kind one space.
func (p Pen) clean(s string) string {
	var b strings.Builder
	for g := uniseg.NewGraphemes(strings.Join(strings.Fields(s), " ")); g.Next(); {
		switch r := g.Runes()[0]; {
		case len(g.Runes()) == 1 && r >= ' ' && r <= '~':
			b.WriteRune(r)
		case p == ASCII || r < ' ' || r >= 0x7f && r < 0xa0 || r == 0xfffd || g.Width() == 0:
			b.WriteByte('?')
		default:
			b.WriteString(g.Str())
		}
	}
	return b.String()
}

// pad fills s up to width with spaces. It does not cut.
func pad(s string, width int) string {
	return s + strings.Repeat(" ", max(0, width-uniseg.StringWidth(s)))
}

// centre puts s in the middle of width.
func centre(s string, width int) string {
	return pad(strings.Repeat(" ", max(0, (width-uniseg.StringWidth(s))/2))+s, width)
}

// longest returns the first of the wordings, best first, that fits in width
// whole, or nothing.
func longest(width int, wordings ...string) string {
	for _, s := range wordings {
		if uniseg.StringWidth(s) <= width {
			return s
		}
	}
	return ""
}

// wrap breaks a sentence at its spaces, though never between a number and the
// word after it, which may be its unit. It reports false, with the rows before
// it, at the first piece wider than width.
func wrap(s string, width int) (rows []string, ok bool) {
	row, pieces := "", strings.Fields(s)
	for i := 0; i < len(pieces); i++ {
		piece := pieces[i]
		if c := piece[0]; c >= '0' && c <= '9' && i+1 < len(pieces) {
			i++
			piece += " " + pieces[i]
		}
		switch {
		case uniseg.StringWidth(piece) > width:
			return rows, false
		case row == "":
			row = piece
		case uniseg.StringWidth(row)+1+uniseg.StringWidth(piece) <= width:
			row += " " + piece
		default:
			rows, row = append(rows, row), piece
		}
	}
	if row != "" {
		rows = append(rows, row)
	}
	return rows, true
}

// words sets sentences where there is no room to draw. A sentence that does
// not fit whole is left out.
func words(sentences []string, width, height int) []string {
	width, height = max(0, width), max(0, height)
	var rows []string
	for _, s := range sentences {
		if more, ok := wrap(s, width); ok && len(rows)+len(more) <= height {
			rows = append(rows, more...)
		}
	}
	return block(rows, width, height)
}

// block pads rows, each known to fit, to width columns and height lines.
func block(rows []string, width, height int) []string {
	width, height = max(0, width), max(0, height)
	lines := make([]string, height)
	for i := range lines {
		if i < len(rows) {
			lines[i] = pad(rows[i], width)
		} else {
			lines[i] = pad("", width)
		}
	}
	return lines
}
