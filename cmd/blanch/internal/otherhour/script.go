package otherhour

import (
	"fmt"
	"strings"

	"blanch/scoring"
	"blanch/sim"
)

// Script writes an hour as timed steps that play it again under its seed,
// with a remark at the head.
func Script(r *sim.Result, remark string) string {
	var b strings.Builder
	for line := range strings.Lines(remark) {
		fmt.Fprintf(&b, "# %s\n", strings.TrimSuffix(line, "\n"))
	}
	return b.String() + scoring.Script(scoring.Inputs(r))
}
