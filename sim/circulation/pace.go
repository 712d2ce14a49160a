package circulation

import "blanch/sim/portable"

// Pace is what of a course depends on the agent and on how far it is followed
// alone. Stretches of the same length come again and again, and share it.
type Pace struct {
	S       float64 // s
	decay   float64 // exp(-k s)
	lag     float64 // exp(-ke s)
	between float64 // (exp(-k s) - exp(-ke s)) / (ke - k), also where the two rates meet
	mean    float64 // of the decay over the stretch; 0 until it is asked for
}

// Pace is the agent's over s seconds.
func (b *Agent) Pace(s float64) Pace { return paceOf(b.K, s) }

func paceOf(k, s float64) Pace {
	decay := portable.Exp(-float64(k * s))
	return Pace{
		S: s, decay: decay, lag: portable.Exp(-float64(ke * s)),
		between: float64(float64(decay*s) * portable.OneMinusExpOver(float64((ke-k)*s))),
	}
}

func (p *Pace) meanDecay(k float64) float64 {
	if p.mean == 0 {
		p.mean = portable.OneMinusExpOver(float64(k * p.S))
	}
	return p.mean
}
