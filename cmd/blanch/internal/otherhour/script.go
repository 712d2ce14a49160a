package otherhour

import (
	"fmt"
	"strings"

	"blanch/sim"
	"blanch/sim/quantity"
)

// Script writes an hour as timed steps that play it again under its seed,
// with a remark at the head.
func Script(r *sim.Result, remark string) string {
	var b strings.Builder
	for line := range strings.Lines(remark) {
		fmt.Fprintf(&b, "# %s\n", strings.TrimSuffix(line, "\n"))
	}
	for _, en := range r.Journal {
		if en.Kind == sim.Started || en.Kind == sim.Refused {
			fmt.Fprintf(&b, "at %s: %s\n", stepTime(en.At), en.Said)
		}
	}
	return b.String()
}

// stepTime writes a time so that a script reads the same millisecond.
func stepTime(at sim.Time) string {
	if at%sim.Minute == 0 {
		return fmt.Sprintf("%d min", at/sim.Minute)
	}
	return quantity.Number(at.Seconds()) + " s"
}
