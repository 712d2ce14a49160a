package picture

import (
	"math"
	"strings"
	"testing"
)

func TestSwellingGolden(t *testing.T) {
	golden(t, "swelling",
		titled("swollen and pale, 60 x 12", ASCII.Swelling(Swelling{35, 50, true}, 60, 12)),
		titled("larger, 78 x 20", ASCII.Swelling(Swelling{35, 50, true}, 78, 20)),
		titled("swollen only, 60 x 12", ASCII.Swelling(Swelling{30, 0, true}, 60, 12)),
		titled("pale within the swelling, 60 x 12", ASCII.Swelling(Swelling{60, 30, true}, 60, 12)),
		titled("longer than the arm is wide, 60 x 12", ASCII.Swelling(Swelling{90, 0, true}, 60, 12)),
		titled("nothing found, 60 x 10", ASCII.Swelling(Swelling{Known: true}, 60, 10)),
		titled("not checked, 60 x 10", ASCII.Swelling(Swelling{SwollenMM: 35}, 60, 10)),
		titled("too small to draw, 30 x 2", ASCII.Swelling(Swelling{35, 50, true}, 30, 2)),
	)
}

// TestSwellingToScale measures the drawn swelling both ways with the bar.
func TestSwellingToScale(t *testing.T) {
	for mm := 5.0; mm <= 65; mm += 0.7 {
		for _, height := range []int{9, 14, 24, 40} {
			lines := ASCII.Swelling(Swelling{SwollenMM: mm, Known: true}, 120, height)
			bar := lines[height-1]
			col := 10 / float64(strings.LastIndexByte(bar, '|')-strings.IndexByte(bar, '|'))
			row := 2 * col
			across, rows, arm := 0, 0, 0
			for y, line := range lines[:height-1] {
				n := strings.Count(line, "+")
				across = max(across, n)
				if n > 0 {
					rows++
				}
				if y > 0 && line[0] == '_' {
					arm = y
				}
			}
			if got := float64(across) * col; math.Abs(got-mm) > col {
				t.Errorf("%v mm, %d rows: %.1f mm along the arm", mm, height, got)
			}
			if got := float64(rows) * row; math.Abs(got-mm) > row {
				t.Errorf("%v mm, %d rows: %.1f mm across the arm", mm, height, got)
			}
			if got := float64(arm) * row; math.Abs(got-armMM) > row {
				t.Errorf("%d rows: the arm is %.1f mm wide", height, got)
			}
		}
	}
}

// TestSwellingUnknown: what was not looked at shows no finding at any size.
func TestSwellingUnknown(t *testing.T) {
	for width := range 90 {
		for height := range 20 {
			got := strings.Join(ASCII.Swelling(Swelling{SwollenMM: 35, PaleMM: 50}, width, height), "\n")
			if strings.ContainsAny(got, "#+") || strings.Contains(got, "swollen") {
				t.Fatalf("%d x %d shows a finding:\n%s", width, height, got)
			}
		}
	}
}
