package tissue

import "blanch/sim/portable"

const (
	drawnShare = 0.25
	drawnFade  = 10.0 * 60 // s
)

// DrawBack takes out of the depot what can still be drawn back through the
// cannula delayS seconds after the flow into it stopped, and returns the
// drug and fluid removed.
func (s *State) DrawBack(delayS float64) (mcg, ml float64) {
	share := float64(drawnShare * portable.Exp(-max(0, delayS)/drawnFade))
	mcg, ml = float64(s.M*share), float64(s.V*share)
	s.M -= mcg
	s.V -= ml
	s.A -= float64(s.A * share)
	return mcg, ml
}

// Infiltrate adds antidote in its own volume.
func (s *State) Infiltrate(ml, antidoteMcg float64) {
	s.V += ml
	s.A += antidoteMcg
}
