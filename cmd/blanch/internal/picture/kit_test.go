package picture

import (
	"strings"
	"testing"
)

func TestKitGolden(t *testing.T) {
	label := []string{"norepinephrine 4 mg", "in sodium chloride 0.9 % 250 mL", "16 mcg/mL"}
	golden(t, "kit",
		titled("bag, 40 x 8", ASCII.Bag(label, 40, 8)),
		titled("bag, 28 x 9", ASCII.Bag(label, 28, 9)),
		titled("no room for the bag, 24 x 4", ASCII.Bag(label, 24, 4)),
		titled("no room for the label, 24 x 2", ASCII.Bag(label, 24, 2)),
		titled("syringe, 60", ASCII.Syringe(7.5, 10, 60)),
		titled("full syringe, 30", ASCII.Syringe(3, 3, 30)),
		titled("empty syringe, 60", ASCII.Syringe(0, 50, 60)),
		titled("no room for the syringe, 16", ASCII.Syringe(7.5, 10, 16)),
		titled("pump, 40", ASCII.PumpFields("12.4", "mL/h", "running", 40)),
		titled("no room for the boxes, 20", ASCII.PumpFields("12.4", "mL/h", "running", 20)),
	)
}

// TestSyringeToScale: the filled part over the barrel is the volume over the
// capacity, within one column.
func TestSyringeToScale(t *testing.T) {
	for _, capacity := range []float64{1, 3, 5, 10, 20, 50} {
		for part := 0.0; part <= 1; part += 0.03 {
			for _, width := range []int{25, 44, 70} {
				lines := ASCII.Syringe(part*capacity, capacity, width)
				barrel, full := strings.Count(lines[0], "_"), strings.Count(lines[1], "#")
				if off := part*float64(barrel) - float64(full); off > 1 || off < -1 {
					t.Errorf("%v of %v mL at %d: %d of %d columns", part*capacity, capacity, width, full, barrel)
				}
			}
		}
	}
}
