package scoring

import (
	"slices"

	"blanch/scenarios"
	"blanch/sim"
)

// record reads facts from one run, and keeps what they rest on.
type record struct {
	*sim.Result
	policy   *scenarios.Policy
	evidence []int // indices in the journal, as read
}

// rests notes that a fact rests on this entry of the journal.
func (r *record) rests(entry int) {
	if entry >= 0 && entry < len(r.Journal) {
		r.evidence = append(r.evidence, entry)
	}
}

// take gives the evidence since the last take, in order, none twice.
func (r *record) take() []int {
	slices.Sort(r.evidence)
	out := slices.Clone(slices.Compact(r.evidence))
	r.evidence = r.evidence[:0]
	return out
}

// at is the moment of an entry, which becomes evidence; never for none.
func (r *record) at(entry int) Moment {
	if entry < 0 || entry >= len(r.Journal) {
		return Moment{}
	}
	r.rests(entry)
	return momentAt(r.Journal[entry].At)
}

// firstEntry is the first entry that fits, -1 when none does.
func (r *record) firstEntry(fits func(i int, e sim.Entry) bool) int {
	for i, e := range r.Journal {
		if fits(i, e) {
			return i
		}
	}
	return -1
}

// start is the first moment a pump ran a vasopressor through a line.
func (r *record) start() Moment {
	m := r.startTime()
	if m.Known {
		for _, run := range r.Runs {
			if run.From == m.at && r.isPressor(run) {
				r.rests(run.Entry)
				break
			}
		}
	}
	return m
}

func (r *record) startTime() Moment {
	first := sim.Never
	for _, run := range r.Runs {
		if r.isPressor(run) {
			first = min(first, run.From)
		}
	}
	return momentAt(first)
}

func (r *record) firstDrug() Moment {
	m := momentAt(r.Outcome.FirstDrug)
	if m.Known {
		r.rests(r.firstEntry(func(_ int, e sim.Entry) bool {
			return e.Kind == sim.Hidden && e.What == "first drug in the blood"
		}))
	}
	return m
}
