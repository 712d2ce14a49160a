package picture

import (
	"math"
	"strconv"
)

// A Trend is mean pressure over simulated time.
type Trend struct {
	Readings []Reading // in any order
	// Low and High bound the wanted pressure, mmHg; 0 where there is no bound.
	Low, High float64
	// NowMin and FromMin are minutes of simulated time. The picture begins at
	// FromMin or up to 20 minutes before it. A caller that keeps FromMin a fixed
	// time before NowMin, below 0 at first, keeps the scale as well.
	NowMin, FromMin float64
}

// A Reading is one mean pressure.
type Reading struct{ AtMin, MmHg float64 }

const (
	timeStep     = 20.0 // minutes by which the window moves, and between its labels
	pressureStep = 20.0 // mmHg by which the axis grows
	// The axis holds at least these, so that an ordinary hour never moves it.
	usualLow, usualHigh = 40.0, 100.0
	highest             = 300.0 // a reading above it is drawn at the edge

	trendLeft  = 4 // three columns of label and the axis
	trendRight = 7 // the name of a target line
)

// Trend draws the readings as points: o inside the bounds, v under the lower,
// ^ over the upper. Of several readings in one column the latest is drawn.
// Target lines are dashed, their number on the axis.
func (p Pen) Trend(t Trend, width, height int) []string {
	plot, ok := t.plan(width, height)
	if !ok {
		return block([]string{longest(max(0, width), t.latest()...)}, width, height)
	}
	c := newCanvas(width, height)
	for y := range plot.rows {
		c.put(trendLeft-1, y, '|')
	}
	plot.target(c, p.glyphs(), plot.scale.lower, "target")
	plot.target(c, p.glyphs(), plot.scale.upper, "upper")
	plot.label(c, plot.low)
	plot.label(c, plot.high)
	for v := plot.low; v < plot.high; v += pressureStep {
		plot.label(c, v)
	}
	plot.times(c)

	latest := map[int]Reading{}
	for _, r := range t.Readings {
		if !t.shows(r) || r.AtMin < plot.from {
			continue
		}
		x := plot.column(r.AtMin)
		if old, taken := latest[x]; !taken || r.AtMin >= old.AtMin {
			latest[x] = r
		}
	}
	for x, r := range latest {
		c.put(x, plot.scale.row(r.MmHg), t.mark(r.MmHg))
	}
	if len(latest) == 0 {
		c.text(trendLeft+1, plot.quietRow(), "no reading")
	}
	return c.lines()
}

// shows reports whether a reading is a number and not of the future.
func (t Trend) shows(r Reading) bool {
	return known(r.AtMin, r.MmHg) && r.AtMin <= t.NowMin
}

func (t Trend) mark(mmHg float64) rune {
	switch {
	case t.Low > 0 && mmHg < t.Low:
		return 'v'
	case t.High > 0 && mmHg > t.High:
		return '^'
	}
	return 'o'
}

// latest words the last reading, the fullest wording first.
func (t Trend) latest() []string {
	var last *Reading
	for i, r := range t.Readings {
		if t.shows(r) && (last == nil || r.AtMin >= last.AtMin) {
			last = &t.Readings[i]
		}
	}
	if last == nil {
		return []string{"no reading"}
	}
	value := number(last.MmHg, 0) + " mmHg"
	state := map[rune]string{'v': ", low", '^': ", high"}[t.mark(last.MmHg)]
	full := "mean pressure " + value + state
	if last.AtMin >= 0 {
		return []string{full + " at " + clock(last.AtMin), full, value + state, value}
	}
	return []string{full, value + state, value}
}

// A trendPlan is where things lie in one Trend.
type trendPlan struct {
	rows      int     // of the plot, the top row first
	columns   int     // of the plot, the axis not counted
	right     int     // columns kept for the names of the target lines
	from      float64 // minutes at the first column
	perColumn float64 // minutes
	low, high float64 // mmHg at the bottom and the top row
	scale     scale
}

func (t Trend) plan(width, height int) (trendPlan, bool) {
	p := trendPlan{rows: height - 1, columns: width - trendLeft, low: usualLow, high: usualHigh}
	if p.columns >= 30 {
		p.right = trendRight
		p.columns -= trendRight
	}
	least := 3
	if t.Low > 0 && t.High > 0 {
		least = 5 // both lines, and a row on each side of each
	}
	if p.rows < least || p.columns < 8 || !known(t.NowMin, t.FromMin) {
		return p, false
	}
	p.from = math.Floor(min(t.FromMin, t.NowMin)/timeStep) * timeStep
	span := (math.Floor(t.NowMin/timeStep)+1)*timeStep - p.from
	for _, p.perColumn = range []float64{0.5, 1, 2, 2.5, 4, 5, 10, 20} {
		if span/p.perColumn <= float64(p.columns) {
			break
		}
	}
	for span/p.perColumn > float64(p.columns) {
		p.perColumn *= 2
	}
	reach := func(v float64) {
		if known(v) {
			v = min(max(v, 0), highest)
			p.low = min(p.low, math.Floor(v/pressureStep)*pressureStep)
			p.high = max(p.high, math.Ceil(v/pressureStep)*pressureStep)
		}
	}
	for _, r := range t.Readings {
		if t.shows(r) && r.AtMin >= p.from {
			reach(r.MmHg)
		}
	}
	for _, v := range []float64{t.Low, t.High} {
		if v > 0 {
			reach(v - 1) // so that there is a row on each side of its line
			reach(v + 1)
		}
	}
	p.scale = newScale(p.low, p.high, t.Low, t.High, p.rows)
	return p, true
}

func (p trendPlan) column(min float64) int {
	return trendLeft + int((min-p.from)/p.perColumn)
}

// target draws one dashed line with its number on the axis and its name at the
// far end.
func (p trendPlan) target(c *canvas, g glyphs, at anchor, name string) {
	if at.mmHg <= 0 {
		return
	}
	for x := range p.columns {
		if g.spaced && x%2 == 1 {
			continue
		}
		c.put(trendLeft+x, at.row, g.target)
	}
	s := number(at.mmHg, 0)
	c.text(trendLeft-1-len(s), at.row, s)
	if p.right > 0 {
		c.text(trendLeft+p.columns+1, at.row, name)
	}
}

// label puts a round number on the axis where its row is its own and free and,
// but for the ends of the axis, the rows next to it are free too.
func (p trendPlan) label(c *canvas, mmHg float64) {
	if !p.scale.labels(mmHg) {
		return
	}
	y := p.scale.row(mmHg)
	for _, near := range []int{y - 1, y, y + 1} {
		if near == y || mmHg != p.low && mmHg != p.high {
			if c.at(trendLeft-2, near) != ' ' && near < p.rows {
				return
			}
		}
	}
	s := strconv.Itoa(int(mmHg))
	c.text(trendLeft-1-len(s), y, s)
}

// times writes the clock under the plot. What lies before 0:00 has no name.
func (p trendPlan) times(c *canvas) {
	for at, free := p.from, 0; ; at += timeStep {
		x := p.column(at)
		if x >= trendLeft+p.columns {
			return
		}
		s := clock(max(at, 0))
		if at >= 0 && x >= free && c.text(x, p.rows, s) {
			free = x + len(s) + 2
		}
		if p.perColumn > timeStep {
			at += (math.Ceil(p.perColumn/timeStep) - 1) * timeStep
		}
	}
}

// quietRow is a row that no target line crosses.
func (p trendPlan) quietRow() int {
	for y := p.rows / 2; y >= 0; y-- {
		if !p.scale.crossed(y) {
			return y
		}
	}
	return 0
}
