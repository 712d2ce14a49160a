package picture

import (
	"math"
	"strings"
)

// A Swelling is what was measured at a site: the width of the swelling and of
// the pale patch, mm, each 0 where there was none.
type Swelling struct {
	SwollenMM, PaleMM float64
	Known             bool // false: the site was not looked at
}

// armMM is the width of the arm in the picture: an adult forearm at about its
// middle, an assumed round figure that gives the swelling something to be
// compared with.
const armMM = 70.0

// Swelling draws the site from above and to scale, the arm lying across the
// picture as two lines. Swelling and patch are drawn round, as wide as they
// were measured, and end at the edge of the arm: # swollen and pale, + swollen
// only, . pale only.
func (p Pen) Swelling(s Swelling, width, height int) []string {
	if s.Known && !(known(s.SwollenMM, s.PaleMM) && s.SwollenMM >= 0 && s.PaleMM >= 0) {
		s = Swelling{}
	}
	caption := s.words()
	scale, rows, ok := s.plan(width, height)
	if !ok {
		return words(caption, width, height)
	}
	c := newCanvas(width, height)
	for x := range c.width {
		c.put(x, 0, '_')
		c.put(x, rows, '_')
	}
	var both, only, patch bool // marks that were used
	if s.Known {
		mmCol := 10 / float64(scale)
		midX, midY := c.width/2, (rows+1)/2
		for y := 1; y <= rows; y++ {
			for x := range c.width {
				far := math.Hypot(float64(x-midX)*mmCol, float64(y-midY)*mmCol*cellAspect)
				mark := s.mark(far)
				if mark != ' ' {
					c.put(x, y, mark)
				}
				both, only, patch = both || mark == '#', only || mark == '+', patch || mark == '.'
			}
		}
	} else {
		c.text((c.width-len(caption[0]))/2, (rows+1)/2, caption[0])
	}
	key := ""
	for _, k := range []struct {
		used bool
		name string
	}{{both, "   # swollen and pale"}, {only, "   + swollen"}, {patch, "   . pale"}} {
		if k.used {
			key += k.name
		}
	}
	bar := scaleBar(scale, width)
	if s.Known {
		finding := "   " + strings.Join(caption, "; ")
		whole := longest(width, bar+finding+key, bar+finding, bar)
		if !strings.HasSuffix(whole, key) && rows+1 < height-1 {
			c.text(0, height-2, strings.TrimSpace(key))
		}
		bar = whole
	}
	c.text(0, height-1, bar)
	return c.lines()
}

// mark is what lies so many mm from the middle. The middle itself stands for
// what is smaller than a cell.
func (s Swelling) mark(far float64) rune {
	swollen := s.SwollenMM > 0 && (2*far <= s.SwollenMM || far == 0)
	pale := s.PaleMM > 0 && (2*far <= s.PaleMM || far == 0)
	switch {
	case swollen && pale:
		return '#'
	case swollen:
		return '+'
	case pale:
		return '.'
	}
	return ' '
}

// words are the two findings, or that there is none.
func (s Swelling) words() []string {
	if !s.Known {
		return []string{"not checked"}
	}
	swollen, pale := "no swelling", "not pale"
	if s.SwollenMM > 0 {
		swollen = "swollen " + number(s.SwollenMM/10, 1) + " cm"
	}
	if s.PaleMM > 0 {
		pale = "pale " + number(s.PaleMM/10, 1) + " cm"
	}
	return []string{swollen, pale}
}

// plan picks the largest scale that shows the whole finding on the whole width
// of the arm: columns for 1 cm, and rows from one edge of the arm to the other.
func (s Swelling) plan(width, height int) (scale, rows int, ok bool) {
	for _, scale = range append(perCM[:len(perCM):len(perCM)], 1) {
		mmCol := 10 / float64(scale)
		rows = nearest(armMM / (cellAspect * mmCol))
		wide := max(s.SwollenMM, s.PaleMM, armMM)
		if 1+rows+1 <= height && wide/mmCol+2 <= float64(width) && scaleBar(scale, width) != "" {
			return scale, rows, true
		}
	}
	return 0, 0, false
}
