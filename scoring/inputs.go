package scoring

import (
	"fmt"
	"strings"

	"blanch/sim"
	"blanch/sim/quantity"
)

// Said is one action's sentence at its time, as it went into a run.
type Said struct {
	At   sim.Time
	Text string
}

// Inputs are the actions of a run in their order, refused ones too.
func Inputs(r *sim.Result) []Said {
	var said []Said
	for _, en := range r.Journal {
		if en.Kind == sim.Started || en.Kind == sim.Refused {
			said = append(said, Said{en.At, en.Said})
		}
	}
	return said
}

// Script writes what went into a run as timed steps, by which it plays again
// under its seed, to the same millisecond.
func Script(said []Said) string {
	var b strings.Builder
	for _, s := range said {
		at := quantity.Number(s.At.Seconds()) + " s"
		if s.At%sim.Minute == 0 {
			at = fmt.Sprintf("%d min", s.At/sim.Minute)
		}
		fmt.Fprintf(&b, "at %s: %s\n", at, s.Text)
	}
	return b.String()
}
