package sim

import "blanch/sim/circulation"

// recent are the last paces of one drug. Steps of the depot's grid and their
// middles come in few lengths.
type recent struct {
	kept [recently]circulation.Pace
	next int
}

const recently = 4

// pace is that of a drug over s seconds.
func (e *Engine) pace(drug int, s float64) *circulation.Pace {
	r := &e.paces[drug]
	for i := range r.kept {
		if r.kept[i].S == s && s > 0 {
			return &r.kept[i]
		}
	}
	p := &r.kept[r.next]
	r.next = (r.next + 1) % recently
	*p = e.agents[drug].Pace(s)
	return p
}
