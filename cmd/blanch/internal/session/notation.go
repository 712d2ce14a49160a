package session

import (
	"fmt"
	"strings"

	"blanch/sim"
	"blanch/sim/quantity"
	"blanch/sim/sum"
)

// taken says how amounts were taken that were written so that they can be
// misread, and a rate that the pump rounds.
func (s *Session) taken(typed string, a sim.Action) []string {
	spec, known := sim.ActionNamed(a.Name)
	if !known {
		return nil
	}
	if a.By != "" {
		_, typed, _ = strings.Cut(typed, " to ")
	}
	whole, _ := Begun(spec.Sentence, typed)
	var out []string
	for i, arg := range a.Args {
		if arg.Quantity.Unit.IsZero() || i >= len(whole) {
			continue
		}
		if unsafe := quantity.Unsafe(whole[i]); len(unsafe) > 0 {
			out = append(out, fmt.Sprintf("On notation: this was taken as %s, but as you wrote it, it can be misread (%s): %s.", arg.Quantity, sum.NotationRule, strings.Join(unsafe, "; ")))
		}
	}
	if a.Name == "set" {
		out = append(out, s.rounded(a.Args[0].Word, a.Args[1].Number)...)
	}
	return out
}

// rounded says what a pump makes of a rate that is none of its steps.
func (s *Session) rounded(pump string, mlh float64) []string {
	for _, p := range s.a.Place.Pumps {
		if set := quantity.Round(mlh, p.StepMLH); p.ID == pump && set != mlh {
			return []string{fmt.Sprintf("%s goes in steps of %s mL/h: it will stand at %s mL/h, not at %s mL/h.", pump, quantity.Number(p.StepMLH), quantity.Number(set), quantity.Number(mlh))}
		}
	}
	return nil
}
