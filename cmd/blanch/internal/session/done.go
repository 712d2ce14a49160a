package session

import (
	"slices"

	"blanch/sim"
	"blanch/sim/sentence"
)

// lastDone says when a row was last completed: one that names nothing of the
// case, whenever that was; one that is done to a line, when it was done to a
// line that runs. Done to anything else says little about what is next, and
// it is empty.
func (s *Session) lastDone(spec sim.Spec, v sim.View) string {
	holes := spec.Holes()
	names := slices.ContainsFunc(holes, func(h sentence.Hole) bool { return isName(h.Kind) })
	toLine := slices.ContainsFunc(holes, func(h sentence.Hole) bool { return h.Kind == "line" })
	if names && !toLine {
		return ""
	}
	for _, en := range slices.Backward(s.entries) {
		if en.Kind == sim.Done && en.Act == spec.Name && (!names || toRunning(en.Said, v)) {
			return "done " + en.At.Clock()
		}
	}
	return ""
}

// toRunning says that a sentence names a line that something runs through.
func toRunning(said string, v sim.View) bool {
	a, err := sim.ParseAction(said)
	return err == nil && slices.ContainsFunc(a.Args, func(arg sentence.Arg) bool {
		return arg.Kind == "line" && slices.ContainsFunc(v.Infusions, func(in sim.InfusionView) bool {
			return in.Running && in.Line == arg.Word
		})
	})
}
