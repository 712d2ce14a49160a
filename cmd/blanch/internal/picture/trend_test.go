package picture

import (
	"slices"
	"strings"
	"testing"
)

// hour is an invented first 47 minutes: low, up with the drug, over the upper
// bound, and down again as the line begins to leak.
func hour() Trend {
	t := Trend{Low: 65, High: 80, NowMin: 47}
	for i, mmHg := range []float64{58, 60, 63, 66, 70, 74, 78, 81, 83, 82, 79, 75, 70, 66, 62, 58} {
		t.Readings = append(t.Readings, Reading{float64(3 * i), mmHg})
	}
	return t
}

func TestTrendGolden(t *testing.T) {
	late := hour()
	late.NowMin, late.FromMin = 187, 127
	for i := range late.Readings {
		late.Readings[i].AtMin += 140
	}
	for name, p := range pens {
		golden(t, "trend-"+name,
			titled("44 x 7", p.Trend(hour(), 44, 7)),
			titled("78 x 12", p.Trend(hour(), 78, 12)),
			titled("the last hour of three, 44 x 9", p.Trend(late, 44, 9)),
			titled("no reading yet, one bound, 36 x 6", p.Trend(Trend{Low: 65, NowMin: 3}, 36, 6)),
			titled("too small to draw, 30 x 2", p.Trend(hour(), 30, 2)),
			titled("smaller still, 14 x 1", p.Trend(hour(), 14, 1)),
		)
	}
}

// find returns the columns and rows of a mark inside the plot.
func find(lines []string, mark byte) (at [][2]int) {
	for y, line := range lines[:len(lines)-1] {
		for x := trendLeft; x < len(line)-trendRight; x++ {
			if line[x] == mark {
				at = append(at, [2]int{x, y})
			}
		}
	}
	return at
}

func TestTrendMarksAndPlace(t *testing.T) {
	// 13 rows from 100 down to 40: a row is 5 mmHg. 47 columns hold 40 minutes
	// of one column each.
	base := Trend{Low: 65, High: 80, NowMin: 30}
	for _, test := range []struct {
		mmHg float64
		mark byte
		row  int
	}{
		{64.9, 'v', 8}, {65, 'o', 7}, {80, 'o', 4}, {80.1, '^', 3}, {40, 'v', 12}, {100, '^', 0},
	} {
		tr := base
		tr.Readings = []Reading{{17, test.mmHg}}
		got := find(ASCII.Trend(tr, trendLeft+47+trendRight, 14), test.mark)
		if len(got) != 1 || got[0] != [2]int{trendLeft + 17, test.row} {
			t.Errorf("%v mmHg: %c at %v, want column %d, row %d", test.mmHg, test.mark, got, trendLeft+17, test.row)
		}
	}
}

func TestTrendKeepsLatest(t *testing.T) {
	tr := Trend{Low: 65, NowMin: 30, Readings: []Reading{{10.2, 70}, {10.9, 50}, {10.5, 90}, {31, 95}}}
	lines := ASCII.Trend(tr, 58, 14)
	if low, fine := find(lines, 'v'), find(lines, 'o'); len(low) != 1 || len(fine) != 0 {
		t.Errorf("want only the reading of 10.9 minutes; got:\n%s", strings.Join(lines, "\n"))
	}
}

// TestTrendStands: within 20 minutes of time and 20 mmHg of pressure neither
// axis changes, and a point stays where it was drawn.
func TestTrendStands(t *testing.T) {
	axis := func(lines []string) string {
		var b strings.Builder
		for _, line := range lines {
			b.WriteString(line[:trendLeft])
		}
		return b.String() + lines[len(lines)-1]
	}
	tr := Trend{Low: 65, Readings: []Reading{{5, 92}}}
	var want string
	var first [2]int
	for now := 40.0; now < 60; now++ {
		tr.NowMin, tr.FromMin = now, now-40
		tr.Readings = append(tr.Readings, Reading{now, 62 + now - 40})
		lines := ASCII.Trend(tr, 44, 8)
		if want == "" {
			want, first = axis(lines), find(lines, 'o')[0]
		}
		if got := axis(lines); got != want {
			t.Fatalf("at %v minutes the axes are %q, were %q", now, got, want)
		}
		if !slices.Contains(find(lines, 'o'), first) {
			t.Fatalf("at %v minutes the first point has moved", now)
		}
	}
	tr.NowMin = 60
	if axis(ASCII.Trend(tr, 44, 8)) == want {
		t.Error("the window never moves")
	}
}
