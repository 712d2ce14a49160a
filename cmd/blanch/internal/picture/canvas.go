package picture

import "strings"

// A canvas is a grid of one-column characters. Writing outside it is no error:
// a drawing is clipped at the edge.
type canvas struct {
	width, height int
	cells         []rune
}

func newCanvas(width, height int) *canvas {
	c := &canvas{width: max(0, width), height: max(0, height)}
	c.cells = make([]rune, c.width*c.height)
	for i := range c.cells {
		c.cells[i] = ' '
	}
	return c
}

func (c *canvas) put(x, y int, r rune) {
	if x >= 0 && x < c.width && y >= 0 && y < c.height {
		c.cells[y*c.width+x] = r
	}
}

func (c *canvas) at(x, y int) rune {
	if x < 0 || x >= c.width || y < 0 || y >= c.height {
		return ' '
	}
	return c.cells[y*c.width+x]
}

// text writes s whole, or not at all where it would cross the edge or cover
// something; it reports which.
func (c *canvas) text(x, y int, s string) bool {
	if x < 0 || y < 0 || y >= c.height || x+len(s) > c.width {
		return false
	}
	for i := range len(s) {
		if c.at(x+i, y) != ' ' {
			return false
		}
	}
	for i, r := range s {
		c.put(x+i, y, r)
	}
	return true
}

func (c *canvas) lines() []string {
	lines := make([]string, c.height)
	var b strings.Builder
	for y := range lines {
		b.Reset()
		for _, r := range c.cells[y*c.width : (y+1)*c.width] {
			b.WriteRune(r)
		}
		lines[y] = b.String()
	}
	return lines
}
