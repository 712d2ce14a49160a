package sim

import "blanch/sim/quantity"

// Reckoned is the right answer to a sum that was asked, for those who answer
// in a learner's stead. It is shown to nobody during play.
func (e *Engine) Reckoned(id string) (quantity.Quantity, bool) {
	if s := e.sumAsked(id); s != nil {
		return s.Key, true
	}
	return quantity.Quantity{}, false
}
