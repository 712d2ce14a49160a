package session

import (
	"blanch/sim"
	"blanch/sim/quantity"
	"blanch/sim/sum"
)

// diagnosis says in a sentence which slip leads to an answer that the policy
// marks wrong; empty when it is right, or when no slip that is known does.
func diagnosis(a *Attempt, r *sim.Result, ans sim.AnswerRecord) string {
	if ans.At == sim.Never || a.marker.Right(r, ans) {
		return ""
	}
	_, kg := a.marker.Key(r, ans)
	s := ans.Worked(kg)
	given, err := sum.Read(ans.Raw)
	if s == nil || err != nil {
		return ""
	}
	if step := a.Policy.RateStepMLH; step > 0 && s.Unit == quantity.MustUnit("mL/h") {
		if set, err := s.To(step); err == nil {
			s = set
		}
	}
	return s.MarkAnswer(given).Diagnosis.Sentence()
}
