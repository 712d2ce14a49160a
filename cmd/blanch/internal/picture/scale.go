package picture

import "math"

// anchor is a pressure that has a row of its own; none while mmHg is 0.
type anchor struct {
	mmHg float64
	row  int
}

// scale says on which row a pressure is drawn. The bounds have their own rows
// and between them it is even, so that few rows never put a pressure on the
// wrong side of a bound, nor on its row when it is not near.
type scale struct {
	top, upper, lower, bottom anchor
}

// newScale places the bounds as near as can be to where an even axis has them,
// with a row free on each side of each.
func newScale(low, high, lower, upper float64, rows int) scale {
	s := scale{top: anchor{high, 0}, bottom: anchor{low, rows - 1}}
	even := func(mmHg float64) float64 { return (high - mmHg) / (high - low) * float64(rows-1) }
	if upper <= lower && lower > 0 {
		upper = 0
	}
	switch {
	case lower > 0 && upper > 0:
		best := math.Inf(1)
		for y := 1; y < rows-3; y++ {
			for z := y + 2; z < rows-1; z++ {
				if off := math.Abs(even(upper)-float64(y)) + math.Abs(even(lower)-float64(z)); off < best {
					best, s.upper, s.lower = off, anchor{upper, y}, anchor{lower, z}
				}
			}
		}
	case lower > 0:
		s.lower = anchor{lower, inside(even(lower), rows)}
	case upper > 0:
		s.upper = anchor{upper, inside(even(upper), rows)}
	}
	return s
}

// inside is the nearest row that is neither the first nor the last.
func inside(at float64, rows int) int { return min(max(int(math.Round(at)), 1), rows-2) }

// exact is the place of a pressure in rows from the top.
func (s scale) exact(mmHg float64) float64 {
	mmHg = min(max(mmHg, s.bottom.mmHg), s.top.mmHg)
	above, below := s.top, s.bottom
	for _, a := range []anchor{s.upper, s.lower} {
		switch {
		case a.mmHg <= 0:
		case mmHg >= a.mmHg:
			below = anchor{max(below.mmHg, a.mmHg), min(below.row, a.row)}
		default:
			above = anchor{min(above.mmHg, a.mmHg), max(above.row, a.row)}
		}
	}
	return float64(above.row) + (above.mmHg-mmHg)/(above.mmHg-below.mmHg)*float64(below.row-above.row)
}

// row is where a pressure is drawn.
func (s scale) row(mmHg float64) int {
	y := int(math.Round(s.exact(mmHg)))
	if s.lower.mmHg > 0 && mmHg < s.lower.mmHg {
		y = max(y, s.lower.row+1)
	}
	if s.upper.mmHg > 0 && mmHg > s.upper.mmHg {
		y = min(y, s.upper.row-1)
	}
	return y
}

// labels says that a row stands for a pressure well enough to bear its number:
// not the only row beyond a bound, which stands for all that lies there.
func (s scale) labels(mmHg float64) bool {
	const near = 0.25 // of a row
	switch y := s.row(mmHg); {
	case s.upper.mmHg > 0 && mmHg > s.upper.mmHg && s.upper.row == 1,
		s.lower.mmHg > 0 && mmHg < s.lower.mmHg && s.lower.row == s.bottom.row-1:
		return false
	default:
		return math.Abs(s.exact(mmHg)-float64(y)) <= near
	}
}

// crossed says that the line of a bound is on a row.
func (s scale) crossed(y int) bool {
	return s.upper.mmHg > 0 && s.upper.row == y || s.lower.mmHg > 0 && s.lower.row == y
}
