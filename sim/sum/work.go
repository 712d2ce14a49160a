package sum

import (
	"fmt"

	"blanch/sim/quantity"
)

// Steps is the worked solution, the last step being the answer on the device.
func (s *Sum) Steps() []Step {
	out := append([]Step(nil), s.steps...)
	return append(out, Step{Label: s.ending(), Line: s.ended(), Value: s.Answer()})
}

func (s *Sum) ending() string {
	switch s.Kind.Device {
	case "":
		return "answer"
	case "drip chamber":
		return "count"
	}
	return "set the " + s.Kind.Device
}

func (s *Sum) ended() string {
	was, answer := s.unrounded(), s.Answer().String()
	if was == answer {
		return answer
	}
	return fmt.Sprintf("%s, rounded half up to %s: %s", was, quantity.Number(s.Step), answer)
}

// unrounded is the key with so many figures that the rounding can be seen.
func (s *Sum) unrounded() string {
	r := quantity.Round(s.key, s.Step/1000)
	text := quantity.Quantity{Value: r, Unit: s.Unit}.String()
	if !same(r, s.key) {
		return "about " + text
	}
	return text
}

// Working is the worked solution as lines of text, with the numbers of this
// sum and its units.
func (s *Sum) Working() []string {
	var out []string
	for i, step := range s.Steps() {
		out = append(out, fmt.Sprintf("%d. %s: %s", i+1, step.Label, step.Line))
	}
	return out
}
