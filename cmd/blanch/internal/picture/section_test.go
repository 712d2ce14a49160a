package picture

import (
	"math"
	"math/rand/v2"
	"slices"
	"strings"
	"testing"
)

// lie places a cannula by the published rule, path = depth / sin(angle), depth
// to the near wall (1.4 x depth at 45 degrees: The Ultrasound Journal 2019
// 11:27, Table 1).
func lie(diameter, depth, straight, length, angle, outer float64) Section {
	s := Section{DiameterMM: diameter, DepthMM: depth, StraightMM: straight, LengthMM: length, AngleDeg: angle, OuterMM: outer}
	s.PathMM = depth / math.Sin(angle*math.Pi/180)
	s.InVeinMM = max(0, length-s.PathMM)
	if straight > 0 {
		s.InVeinMM = min(s.InVeinMM, straight)
	}
	return s
}

func TestSectionGolden(t *testing.T) {
	for name, p := range pens {
		draw := func(title string, s Section, width, height int) []string {
			return titled(title, p.Section(s, width, height))
		}
		golden(t, "section-"+name,
			draw("10 degrees, 78 x 10", lie(2.9, 5.5, 0, 47.8, 10, 1.1), 78, 10),
			draw("30 degrees, 78 x 10", lie(2.9, 5.5, 0, 47.8, 30, 1.1), 78, 10),
			draw("45 degrees, 78 x 10", lie(2.9, 5.5, 0, 47.8, 45, 1.1), 78, 10),
			draw("70 degrees, 78 x 10", lie(2.9, 5.5, 0, 47.8, 70, 1.1), 78, 10),
			draw("deep vein, ends in tissue, 78 x 16", lie(4, 16, 0, 25.4, 30, 1.1), 78, 16),
			draw("straight for 20 mm, 60 x 13", lie(4, 5, 20, 47.8, 30, 1.1), 60, 13),
			draw("scaled down, 40 x 8", lie(4, 12, 0, 47.8, 45, 1.1), 40, 8),
			draw("too small to draw, 40 x 4", lie(4, 16, 0, 47.8, 45, 1.1), 40, 4),
		)
	}
}

// drawn is what can be measured in the lines of a Section.
type drawn struct {
	perCM      int
	near, back int      // rows of the walls
	slope      [][2]int // columns and rows of the cannula in tissue, skin to vein
	tip        [2]int
}

// measure reads a drawing by its scale bar, its walls and its marks.
func measure(t *testing.T, lines []string) (d drawn, ok bool) {
	t.Helper()
	bar := strings.TrimRight(lines[len(lines)-1], " ")
	first, last := strings.IndexByte(bar, '|'), strings.LastIndexByte(bar, '|')
	if first < 0 || first == last {
		return d, false
	}
	d.perCM = last - first
	const labels = len("tissue ")
	for y, line := range lines[1 : len(lines)-1] {
		if strings.Count(line[labels:], "_") > 5 {
			if d.near == 0 {
				d.near = y + 1
			} else {
				d.back = y + 1
			}
		}
	}
	for y := 1; y <= d.back; y++ {
		for x := labels; x < len(lines[y]); x++ {
			switch c := lines[y][x]; {
			case c == '>':
				d.tip = [2]int{x, y}
				fallthrough
			case strings.IndexByte("`-.\\|", c) >= 0:
				if y <= d.near {
					d.slope = append(d.slope, [2]int{x, y})
				}
			}
		}
	}
	return d, true
}

// TestSectionToScale measures drawings of many lines against the numbers they
// were made from, each within one cell.
func TestSectionToScale(t *testing.T) {
	r := rand.New(rand.NewPCG(7, 8))
	measured, short := 0, 0
	for range 3000 {
		s := lie(1.5+5*r.Float64(), 1.5+16*r.Float64(), 0, 19+45*r.Float64(), 8+80*r.Float64(), 0)
		width, height := 40+r.IntN(100), 8+r.IntN(30)
		lines := ASCII.Section(s, width, height)
		d, ok := measure(t, lines)
		if !ok {
			continue
		}
		measured++
		fail := func(what string, got, want float64) {
			t.Fatalf("%s: drawn %.2f, want %.2f: %+v\n%s", what, got, want, s, strings.Join(lines, "\n"))
		}
		col := 10 / float64(d.perCM)
		row := 2 * col // a cell is twice as high as wide
		if got := float64(d.near) * row; math.Abs(got-s.DepthMM) > row {
			fail("depth of the vein", got, s.DepthMM)
		}
		if got := float64(d.back-d.near) * row; math.Abs(got-s.DiameterMM) > row {
			fail("diameter of the vein", got, s.DiameterMM)
		}

		sin, cos := math.Sincos(s.AngleDeg * math.Pi / 180)
		entry := float64(len("tissue ") + hub)
		for _, cell := range d.slope {
			x, y := (float64(cell[0])+0.5-entry)*col, (float64(cell[1])-0.5)*row
			// The distance to the true line, in columns or in rows.
			if off := min(math.Abs(x-y*cos/sin)/col, math.Abs(y-x*sin/cos)/row); off > 1 {
				fail("the slope, cells off", off, 0)
			}
		}
		if len(d.slope) > 1 {
			first, last := d.slope[0], d.slope[len(d.slope)-1]
			dx, dy := float64(last[0]-first[0])*col, float64(last[1]-first[1])*row
			if off := min(math.Abs(dx-dy*cos/sin)/col, math.Abs(dy-dx*sin/cos)/row); off > 1.5 {
				fail("the angle, cells off", off, 0)
			}
		}

		// Where the tip lies, walking the cannula's length along the drawing.
		want := s.LengthMM * cos
		if s.InVeinMM > 0 {
			sloping := min(s.InVeinMM, s.DiameterMM/2/sin)
			want = (s.PathMM+sloping)*cos + s.InVeinMM - sloping
		} else {
			short++
		}
		if got := (float64(d.tip[0]) + 0.5 - entry) * col; math.Abs(got-want) > col {
			fail("the tip", got, want)
		}
		if inVein := d.tip[1] > d.near; inVein != (s.InVeinMM > 0) {
			fail("the row of the tip", float64(d.tip[1]), float64(d.near))
		}
	}
	if measured < 1500 || short < 100 {
		t.Errorf("only %d drawings measured, %d too short to reach", measured, short)
	}
}

// TestSectionSteeper: at one scale a steeper cannula enters the vein nearer to
// the puncture.
func TestSectionSteeper(t *testing.T) {
	last := 1 << 20
	for _, angle := range []float64{15, 25, 35, 45, 60, 75, 90} {
		d, ok := measure(t, ASCII.Section(lie(3, 6, 0, 30, angle, 1), 78, 9))
		if !ok {
			t.Fatalf("%v degrees: not drawn", angle)
		}
		at := d.slope[len(d.slope)-1][0] * 1000 / d.perCM
		if at >= last {
			t.Errorf("%v degrees: enters at %d, no nearer than %d", angle, at, last)
		}
		last = at
	}
}

func TestDescribe(t *testing.T) {
	for _, test := range []struct {
		s    Section
		want []string
	}{
		{lie(2.9, 5.5, 0, 47.8, 30, 1.1), []string{
			"The vein lies 5.5 mm under the skin.",
			"At 30 degrees the cannula passes 11 mm of tissue; 36.8 mm of its 47.8 mm lie in the vein, 77 %.",
			"The vein is 2.9 mm across and the cannula 1.1 mm, 0.38 of it.",
		}},
		{lie(4, 16, 0, 25.4, 30, 0), []string{
			"The vein lies 16 mm under the skin.",
			"At 30 degrees the way to it is 32 mm; the cannula is 25.4 mm long and ends in tissue.",
			"The vein is 4 mm across.",
		}},
		{lie(4, 5, 20, 47.8, 30, 0), []string{
			"The vein lies 5 mm under the skin.",
			"At 30 degrees the cannula passes 10 mm of tissue; 20 mm of its 47.8 mm lie in the vein, 42 %.",
			"The vein is 4 mm across.",
			"The vein is straight for 20 mm from the puncture, and no more of the cannula can lie in it.",
		}},
	} {
		if got := Describe(test.s); !slices.Equal(got, test.want) {
			t.Errorf("got %q,\nwant %q", got, test.want)
		}
	}
}
