package tissue

import "blanch/sim/portable"

const (
	drawnShare = 0.25
	drawnFade  = 10.0 * 60 // s
	burnAfter  = 15.0 * 60 // s
)

// DrawBack takes out of the depot what can still be drawn back through the
// cannula delayS seconds after the flow into it stopped, and returns the
// drugs and the fluid removed.
func (s *State) DrawBack(delayS float64) (drugs [Most]float64, ml float64) {
	s.open = 0
	share := float64(drawnShare * portable.Exp(-max(0, delayS)/drawnFade))
	for i := range s.Drugs {
		drugs[i] = float64(s.M[i] * share)
		s.M[i] -= drugs[i]
	}
	leaked, other := float64(s.V*share), float64(s.U*share)
	s.V -= leaked
	s.U -= other
	ml = leaked + other
	s.A -= float64(s.A * share)
	s.B -= float64(s.B * share)
	return drugs, ml
}

// Infiltrate adds a blocker or a relaxant in its own volume.
func (s *State) Infiltrate(ml, blockerMcg, relaxantMcg float64) {
	s.open = 0
	s.U += ml
	s.A += blockerMcg
	s.B += relaxantMcg
}

// BurnsAfterS is how long a hot pack may lie on skin that is short of blood
// before it burns, in seconds.
const BurnsAfterS = burnAfter
