package picture

import "testing"

// TestNoDotOnTheWrongSide: at any height what is under the target is below its
// row, what is over the upper limit above, and on the row of a bound is only
// what is nearer to it than to the next row.
func TestNoDotOnTheWrongSide(t *testing.T) {
	const lower, upper = 65.0, 80.0
	for rows := 5; rows <= 40; rows++ {
		for _, axis := range [][2]float64{{40, 100}, {20, 100}, {40, 140}, {0, 300}} {
			s := newScale(axis[0], axis[1], lower, upper, rows)
			last := -1
			for v := axis[1]; v >= axis[0]; v-- {
				y := s.row(v)
				switch {
				case v < lower && y <= s.lower.row, v > upper && y >= s.upper.row, v >= lower && v <= upper && (y > s.lower.row || y < s.upper.row),
					y < last, y < 0, y >= rows:
					t.Errorf("%d rows from %v to %v: %v is on row %d; the bounds are on %d and %d", rows, axis[1], axis[0], v, y, s.upper.row, s.lower.row)
				}
				last = y
			}
			middle := s.row(72.5)
			if middle == s.upper.row || middle == s.lower.row {
				t.Errorf("%d rows from %v to %v: the middle of the range is on the row of a bound", rows, axis[1], axis[0])
			}
		}
	}
	for _, rows := range []int{5, 6} { // of a screen of 24, with a message and without
		s := newScale(40, 100, lower, upper, rows)
		for _, v := range []float64{71, 73} {
			if y := s.row(v); y == s.upper.row || y == s.lower.row {
				t.Errorf("%d rows: %v is on the row of a bound", rows, v)
			}
		}
	}
}

func TestOneBound(t *testing.T) {
	for rows := 3; rows <= 20; rows++ {
		if s := newScale(40, 100, 65, 0, rows); s.row(64) <= s.lower.row || s.row(65) != s.lower.row || s.row(100) != 0 {
			t.Errorf("%d rows: 64 on %d, 65 on %d", rows, s.row(64), s.row(65))
		}
	}
}

// TestLabelsAreTrue: a number on the axis stands where that pressure is drawn,
// and no pressure of another side of a bound is drawn there.
func TestLabelsAreTrue(t *testing.T) {
	s := newScale(40, 100, 65, 80, 5)
	if s.labels(40) || s.labels(100) {
		t.Error("the only row beyond a bound bears a number, and 62 would be drawn on the row of 40")
	}
	if s := newScale(40, 100, 65, 80, 13); !s.labels(40) || !s.labels(60) || !s.labels(100) {
		t.Error("a row that is exact bears no number")
	}
}
