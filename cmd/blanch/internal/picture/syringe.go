package picture

import (
	"math"
	"strings"
)

// SyringeLines is the height of every Syringe.
const SyringeLines = 4

// Syringe draws a syringe lying down with its tip to the left, filled to scale,
// the scale under it and the volume in words. A volume beyond the capacity is
// drawn as a full syringe; the words keep the number.
func (p Pen) Syringe(volumeML, capacityML float64, width int) []string {
	width = max(0, width)
	if !known(volumeML, capacityML) || volumeML < 0 || capacityML <= 0 {
		return block([]string{longest(width, "volume not known", "not known", "?")}, width, SyringeLines)
	}
	volume := number(volumeML, 2) + " mL"
	caption := longest(width, volume+" in a "+number(capacityML, 2)+" mL syringe", volume)
	const tip, rod = 4, 6
	room := width - tip - rod
	if room < 10 {
		return block([]string{caption}, width, SyringeLines)
	}
	room = min(room, 50)
	c := newCanvas(width, SyringeLines)
	full := nearest(min(volumeML/capacityML, 1) * float64(room))
	c.text(0, 0, strings.Repeat(" ", tip)+strings.Repeat("_", room))
	c.text(0, 1, "---["+strings.Repeat("#", full)+"]"+strings.Repeat("=", room-full+rod-2)+"|")
	step := tick(capacityML, room)
	for i := 0; ; i++ {
		at := float64(i) * step
		if at > capacityML*(1+1e-9) {
			break
		}
		x := tip + nearest(at/capacityML*float64(room))
		s := number(at, 2)
		c.text(x-(len(s)-1)/2, 2, s)
	}
	c.text(0, 3, caption)
	return c.lines()
}

// tick is the smallest step of 1, 2 or 5 times a power of ten whose numbers
// stand clear of each other on so many columns.
func tick(capacity float64, columns int) float64 {
	const clear = 6
	for e := math.Floor(math.Log10(capacity)) - 2; ; e++ {
		for _, m := range []float64{1, 2, 5} {
			if step := m * math.Pow(10, e); step/capacity*float64(columns) >= clear {
				return step
			}
		}
	}
}
