package picture

import "math"

// A Section is the long section through skin, tissue and vein with a cannula
// in it. Lengths are in mm.
type Section struct {
	DiameterMM float64 // of the vein
	DepthMM    float64 // from the skin to the near wall
	StraightMM float64 // of the vein, from the puncture on; 0 where it is not known
	LengthMM   float64 // of the cannula
	OuterMM    float64 // of the cannula, across; 0 where it is not known
	AngleDeg   float64 // between cannula and skin
	PathMM     float64 // of the cannula through tissue, from the skin to the vein
	InVeinMM   float64 // of the cannula inside the vein; 0 where it does not reach
}

// cellAspect is the height of a terminal cell over its width.
const cellAspect = 2

// perCM are the scales a drawing to scale may have, in columns for 1 cm.
var perCM = []int{60, 50, 40, 32, 25, 20, 18, 16, 14, 12, 10, 8, 6, 5, 4, 3, 2}

// Section draws s to scale. The cannula slopes at its angle from the skin to
// the middle of the vein and bends there to lie along it; one that is too
// short ends in tissue. Beyond the straight length the walls are drawn ~. The
// cannula is one line whatever its width, which the words give.
func (p Pen) Section(s Section, width, height int) []string {
	plan, ok := s.plan(width, height)
	if !ok {
		return words(Describe(s), width, height)
	}
	c := newCanvas(width, height)
	plan.layers(c, s)
	plan.cannula(c, p.glyphs(), s)
	facts := s.facts()
	for i, y := 0, plan.back+1; y < height-1 && i < len(facts); i++ {
		if c.text(0, y, longest(width, facts[i]...)) {
			y++
		}
	}
	c.text(0, height-1, scaleBar(plan.perCM, width))
	return c.lines()
}

// A sectionPlan is where things lie in one Section. Row 0 is above the skin
// and row r ends r rows below it, so a wall drawn as a low line in row r lies r
// rows deep.
type sectionPlan struct {
	perCM      int
	mmCol      float64
	mmRow      float64
	labels     int // columns kept for the names of the layers
	entry      int // the column whose left edge is the puncture of the skin
	near, back int // rows of the walls
	reaches    bool
	tipX, tipY float64 // mm from the puncture of the skin
}

func (s Section) plan(width, height int) (sectionPlan, bool) {
	var p sectionPlan
	if !known(s.DiameterMM, s.DepthMM, s.StraightMM, s.LengthMM, s.AngleDeg, s.OuterMM, s.PathMM, s.InVeinMM) ||
		s.DiameterMM <= 0 || s.DepthMM < 0 || s.LengthMM <= 0 || s.AngleDeg <= 0 || s.AngleDeg > 90 {
		return p, false
	}
	sin, cos := math.Sincos(s.AngleDeg * math.Pi / 180)
	p.reaches = s.InVeinMM > 0
	if p.reaches {
		sloping := min(s.InVeinMM, s.DiameterMM/2/sin)
		p.tipY = s.DepthMM + sloping*sin
		p.tipX = p.tipY*cos/sin + s.InVeinMM - sloping
	} else {
		p.tipY = min(s.LengthMM*sin, s.DepthMM)
		p.tipX = p.tipY * cos / sin
	}
	if width >= 30 {
		p.labels = len("tissue ")
	}
	p.entry = p.labels + hub
	for _, p.perCM = range perCM {
		p.mmCol = 10 / float64(p.perCM)
		p.mmRow = cellAspect * p.mmCol
		p.near = max(1, nearest(s.DepthMM/p.mmRow))
		p.back = max(p.near+1, nearest((s.DepthMM+s.DiameterMM)/p.mmRow))
		if p.entry+int(p.tipX/p.mmCol)+3 <= width && 1+p.back+1 <= height && scaleBar(p.perCM, width) != "" {
			return p, true
		}
	}
	return p, false
}

// hub is how many columns of cannula are shown outside the skin at most.
const hub = 4

func nearest(x float64) int { return int(math.Floor(x + 0.5)) }

// layers draws the skin, the walls of the vein and their names.
func (p sectionPlan) layers(c *canvas, s Section) {
	bends := c.width
	if s.StraightMM > 0 && p.reaches {
		sin, cos := math.Sincos(s.AngleDeg * math.Pi / 180)
		bends = p.entry + nearest((s.DepthMM*cos/sin+s.StraightMM)/p.mmCol)
	}
	for x := p.labels; x < c.width; x++ {
		wall := '_'
		if x >= bends {
			wall = '~'
		}
		c.put(x, 0, '_')
		c.put(x, p.near, wall)
		c.put(x, p.back, wall)
	}
	if p.labels > 0 {
		c.text(0, 0, "skin")
		c.text(0, (p.near+p.back+1)/2, "vein")
		if p.near >= 3 {
			c.text(0, (p.near+1)/2, "tissue")
		}
	}
}

// row is the row that shows a depth, on the same side of each wall.
func (p sectionPlan) row(mm float64) int {
	return 1 + int(math.Floor(mm/p.mmRow))
}

// cannula draws the slope, the bend and the tip.
func (p sectionPlan) cannula(c *canvas, g glyphs, s Section) {
	sin, cos := math.Sincos(s.AngleDeg * math.Pi / 180)
	side := func(mm float64, row int) int {
		switch {
		case mm < 0:
			return 0
		case mm <= s.DepthMM:
			return min(max(row, 1), p.near)
		}
		return min(max(row, p.near+1), p.back)
	}
	column := func(mm float64) int { return p.entry + int(math.Floor(mm/p.mmCol)) }

	if rowsPerColumn := sin / max(cos, 1e-9) / cellAspect; rowsPerColumn <= 1 {
		for x := p.entry - hub; x <= column(p.tipY*cos/sin); x++ {
			mm := (float64(x-p.entry) + 0.5) * p.mmCol * sin / cos
			if mm < -p.mmRow {
				continue
			}
			mm = min(mm, p.tipY)
			row := p.row(mm)
			glyph := '\\'
			if rowsPerColumn < 0.75 {
				part := mm/p.mmRow - math.Floor(mm/p.mmRow)
				switch at := side(mm, row); { // moved to its side of a wall
				case at > row:
					part = 0
				case at < row:
					part = 1
				}
				glyph = g.slope[min(int(part*float64(len(g.slope))), len(g.slope)-1)]
			}
			c.put(x, side(mm, row), glyph)
		}
	} else {
		glyph := '\\'
		if rowsPerColumn > 3 {
			glyph = '|'
		}
		for row := 0; row <= p.row(p.tipY); row++ {
			mm := min((float64(row)-0.5)*p.mmRow, p.tipY)
			c.put(column(mm*cos/sin), side(mm, row), glyph)
		}
	}
	tipRow := side(p.tipY, p.row(p.tipY))
	if p.reaches && p.tipY <= s.DepthMM {
		tipRow = p.near + 1
	}
	tip := column(p.tipX)
	for x := column(p.tipY*cos/sin) + 1; x < tip; x++ {
		c.put(x, tipRow, '=')
	}
	c.put(tip, tipRow, '>')
	if !p.reaches {
		_ = c.text(tip+1, tipRow, " ends in tissue") || c.text(tip+1, tipRow-1, " ends in tissue")
	}
}

// facts are the numbers behind the picture, the fullest wording of each first.
func (s Section) facts() [][]string {
	mm := func(x float64) string { return number(x, 1) + " mm" }
	at := "at " + number(s.AngleDeg, 0) + " degrees: "
	facts := [][]string{{
		at + mm(s.PathMM) + " of tissue, " + mm(s.InVeinMM) + " of " + mm(s.LengthMM) + " in the vein, " + s.percent(),
		at + mm(s.InVeinMM) + " in the vein, " + s.percent(),
		s.percent() + " in the vein",
	}}
	vein := "vein " + mm(s.DiameterMM) + " across, " + mm(s.DepthMM) + " under the skin"
	if s.OuterMM > 0 {
		facts = append(facts, []string{vein + "; cannula " + mm(s.OuterMM) + " across", vein})
	} else {
		facts = append(facts, []string{vein})
	}
	if s.bends() {
		facts = append(facts, []string{"~ no longer straight: " + mm(s.StraightMM) + " from the puncture"})
	}
	return facts
}

// bends reports whether the end of the straight length holds the cannula back.
func (s Section) bends() bool {
	return s.StraightMM > 0 && s.InVeinMM > 0 && s.LengthMM-s.PathMM > s.InVeinMM+0.05
}

func (s Section) percent() string {
	return number(100*s.InVeinMM/s.LengthMM, 0) + " %"
}

// scaleBar is a bar whose ends are 1 cm apart, with words where they fit.
func scaleBar(perCM, width int) string {
	bar := make([]byte, perCM+1)
	for i := range bar {
		bar[i] = '-'
	}
	bar[0], bar[perCM] = '|', '|'
	return longest(width, "1 cm is this long: "+string(bar), "1 cm "+string(bar))
}
