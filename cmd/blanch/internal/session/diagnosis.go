package session

import (
	"blanch/sim"
	"blanch/sim/quantity"
	"blanch/sim/sum"
)

// diagnosis says in a sentence which slips an answer fits that the policy marks
// wrong: a guess, since other mistakes can lead to the same number. It works the sum step by step. It is empty when the answer is
// right, or when no slip that is known leads there.
func diagnosis(a *Attempt, r *sim.Result, ans sim.AnswerRecord) []Line {
	if ans.At == sim.Never || a.marker.Right(r, ans) {
		return nil
	}
	_, kg := a.marker.Key(r, ans)
	s := ans.Worked(kg)
	given, err := sum.Read(ans.Raw)
	if s == nil || err != nil {
		return nil
	}
	if step := a.Policy.RateStepMLH; step > 0 && s.Unit == quantity.MustUnit("mL/h") {
		if set, err := s.To(step); err == nil {
			s = set
		}
	}
	said := s.MarkAnswer(given).Diagnosis.Fits()
	if said == "" {
		return nil
	}
	out := rows(indented("    ", said))
	for _, line := range s.Working() {
		out = append(out, rows(indented("      ", line))...)
	}
	return out
}
