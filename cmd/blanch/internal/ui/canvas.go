package ui

import (
	"strings"

	"github.com/gdamore/tcell/v2"
	"github.com/rivo/tview"
	"github.com/rivo/uniseg"

	"blanch/cmd/blanch/internal/session"
)

// style is how text is set. What it says is always in the words as well.
type style uint8

const (
	plain  style = iota
	strong       // headings, and what has just changed
	marked       // the chosen row, in reverse video
	alert        // what cannot be left for later; in colour where that is wanted
	pink         // the colours of cannula gauges, beside their names
	green
	blue
)

// tags are tview's; colours are the terminal's own, so that its palette holds.
var tags = [...]string{
	plain: "[-:-:-]", strong: "[-:-:b]", marked: "[-:-:r]", alert: "[-:-:b]",
	pink: "[-:-:-]", green: "[-:-:-]", blue: "[-:-:-]",
}

// coloured are the tags that differ where colour is wanted: none of the dark
// blue or pale yellow that one of the usual backgrounds swallows.
var coloured = map[style]string{alert: "[maroon:-:b]", pink: "[fuchsia:-:-]", green: "[green:-:-]", blue: "[teal:-:-]"}

// canvas is a part of the screen. What lies outside it is not drawn.
type canvas struct {
	screen     tcell.Screen
	x, y, w, h int
	colour     bool
}

// text sets one row and returns its width. It is the only place that draws.
func (c canvas) text(x, y int, s string, st style) int {
	if y < 0 || y >= c.h || x < 0 || x >= c.w || s == "" {
		return 0
	}
	s = session.Harmless(s)
	if width(s) > c.w-x {
		s = cut(s, c.w-x)
	}
	tag := tags[st]
	if t, ok := coloured[st]; ok && c.colour {
		tag = t
	}
	_, width := tview.Print(c.screen, tag+tview.Escape(s)+"[-:-:-]", c.x+x, c.y+y, c.w-x, tview.AlignLeft, tcell.ColorDefault)
	return width
}

// right sets one row so that it ends at the right edge.
func (c canvas) right(y int, s string, st style) {
	c.text(max(0, c.w-uniseg.StringWidth(s)), y, s, st)
}

// sub is a part of the canvas, cut to what there is.
func (c canvas) sub(x, y, w, h int) canvas {
	x, y = min(max(x, 0), c.w), min(max(y, 0), c.h)
	return canvas{c.screen, c.x + x, c.y + y, max(0, min(w, c.w-x)), max(0, min(h, c.h-y)), c.colour}
}

// below is the canvas without its first rows.
func (c canvas) below(rows int) canvas { return c.sub(0, rows, c.w, c.h-rows) }

// rule draws a line across, with words in it where there are any.
func (c canvas) rule(y int, said string, st style) {
	line := string(tview.Borders.Horizontal)
	if said == "" {
		c.text(0, y, strings.Repeat(line, c.w), plain)
		return
	}
	c.text(0, y, strings.Repeat(line, min(2, c.w)), plain)
	n := c.text(3, y, cut(said, c.w-6), st)
	c.text(n+4, y, strings.Repeat(line, max(0, c.w-n-4)), plain)
}

// cursor puts the terminal's own cursor on a cell.
func (c canvas) cursor(x, y int) {
	if x >= 0 && x < c.w && y >= 0 && y < c.h {
		c.screen.ShowCursor(c.x+x, c.y+y)
	}
}

// rows sets rows from the top.
func (c canvas) rows(rows []row) {
	for i, r := range rows {
		c.text(r.in, i, r.text, r.style)
	}
}

// row is one row of prose.
type row struct {
	text  string
	in    int // columns from the left
	style style
}

// width counts columns.
func width(s string) int { return uniseg.StringWidth(s) }

// pad fills up to a width.
func pad(s string, w int) string { return s + strings.Repeat(" ", max(0, w-width(s))) }

// cut shortens at a space and says so. Half a number would read as another
// number, so a word is never broken.
func cut(s string, w int) string {
	if width(s) <= w {
		return s
	}
	out := ""
	for word := range strings.SplitSeq(s, " ") {
		if width(out)+width(word)+4 > w {
			break
		}
		out += word + " "
	}
	if w < 3 {
		return ""
	}
	return strings.TrimSuffix(out, " ") + " .."
}

// fit is the first of some texts that is no wider than w, the last one cut
// when none is.
func fit(w int, texts ...string) string {
	for _, s := range texts {
		if width(s) <= w {
			return s
		}
	}
	return cut(texts[len(texts)-1], w)
}

// fold breaks prose at spaces. A word that is wider than the room is broken,
// as there is nowhere else to put it.
func fold(s string, w int) []string {
	if w < 1 {
		return nil
	}
	lead := s[:len(s)-len(strings.TrimLeft(s, " "))]
	if len(lead) > w/2 {
		lead = ""
	}
	var out []string
	at := lead
	empty := true
	for word := range strings.FieldsSeq(s) {
		for width(lead)+width(word) > w {
			if !empty {
				out, at, empty = append(out, at), lead, true
			}
			head, rest := split(word, w-width(lead))
			out, word = append(out, lead+head), rest
		}
		switch {
		case empty:
			at, empty = lead+word, word == ""
		case width(at)+1+width(word) > w:
			out, at = append(out, at), lead+word
		default:
			at += " " + word
		}
	}
	if !empty || len(out) == 0 {
		out = append(out, at)
	}
	return out
}

// split cuts the first columns off a word, whole characters only.
func split(word string, w int) (head, rest string) {
	g := uniseg.NewGraphemes(word)
	for g.Next() {
		if head != "" && width(head)+g.Width() > w {
			return head, word[len(head):]
		}
		head += g.Str()
	}
	return head, ""
}

// stop ends a sentence that may have its full stop already.
func stop(s string) string {
	if strings.HasSuffix(s, ".") || strings.HasSuffix(s, "?") {
		return s
	}
	return s + "."
}
