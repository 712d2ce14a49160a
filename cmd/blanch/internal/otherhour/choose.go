package otherhour

import (
	"slices"

	"blanch/sim"
)

// Choice is what the tool makes of an hour.
type Choice struct {
	Tried  int       // moves that were played
	Clear  bool      // Best makes a difference of LeastMin or more
	By     int       // of measures, when clear
	Best   Candidate // with Way Nothing when there is none
	Played Played
}

// Choose plays every candidate and picks the one with the largest drop in the
// first measure in which any reaches the least difference; then in the next,
// then the earliest. A move that loses marks, or pays for the arm with the
// pressure, is not picked. Where none makes a clear difference it picks the
// one that mends the most marks.
func (h *Hour) Choose() Choice {
	type tried struct {
		Candidate
		played Played
		drop   []float64
		mends  float64
		loses  bool
		at     sim.Time
	}
	before := FiguresOf(h.Before.Result)
	var all []tried
	candidates := h.Candidates()
	for _, c := range candidates {
		p := h.Play(c.Move)
		f := FiguresOf(p.Result)
		all = append(all, tried{c, p, drops(before, f), mended(h.Before.Sheet, p.Sheet), loses(h.Before.Sheet, p.Sheet), h.moment(c.Move)})
	}
	choice := Choice{Tried: len(candidates)}
	for by := range measures {
		best := -1
		for i := range all {
			if all[i].loses || all[i].drop[by] < LeastMin || pays(all[i].drop, by) {
				continue
			}
			if best < 0 || better(all[i].drop, all[best].drop, all[i].at, all[best].at, by) {
				best = i
			}
		}
		if best >= 0 {
			choice.Clear, choice.By, choice.Best, choice.Played = true, by, all[best].Candidate, all[best].played
			return choice
		}
	}
	all = slices.DeleteFunc(all, func(t tried) bool { return t.mends == 0 || pays(t.drop, -1) })
	slices.SortStableFunc(all, func(a, b tried) int {
		switch {
		case a.loses != b.loses && a.loses:
			return 1
		case a.loses != b.loses:
			return -1
		case a.mends > b.mends:
			return -1
		case a.mends < b.mends:
			return 1
		}
		return int(a.at - b.at)
	})
	if len(all) > 0 {
		choice.Best, choice.Played = all[0].Candidate, all[0].played
	}
	return choice
}

// pays says that an earlier measure, or the pressure, is worse by the least
// difference for what is gained.
func pays(drop []float64, by int) bool {
	if by == len(drop)-1 { // a pressure that soared is paid back by one that is where it would have been
		return drop[0] <= -LeastMin
	}
	for i, d := range drop {
		if i != by && d <= -LeastMin {
			return true
		}
	}
	return false
}

func better(a, b []float64, at, bt sim.Time, by int) bool {
	for i := by; i < len(a); i++ {
		if !nearly(a[i], b[i]) {
			return a[i] > b[i]
		}
	}
	return at < bt
}

// moment is when the decision of a move was taken, or is to be.
func (h *Hour) moment(m Move) sim.Time {
	if m.N == 0 {
		return m.At
	}
	return h.Decisions[m.N-1].At
}
