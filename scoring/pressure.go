package scoring

import (
	"cmp"
	"slices"

	"blanch/sim"
)

func (r *record) peripheralRuns(visit func(run sim.Run)) {
	for _, run := range r.Runs {
		if line := r.lineAt(run.Subject, run.From); line >= 0 && !r.Lines[line].Central && r.isPressor(run) {
			visit(run)
		}
	}
}

// highestDose of the ordered drug, through the arm or through any line.
func (r *record) highestDose(anywhere bool) Dose {
	highest, entry := Dose{unknown}, -1
	for _, run := range r.Runs {
		line := r.lineAt(run.Subject, run.From)
		if line < 0 || !r.isPressor(run) || !r.isOrdered(run) || (!anywhere && r.Lines[line].Central) {
			continue
		}
		if !(run.McgMin <= highest.v) { // not known until the first; no entry tells of what ran when the case opened
			highest, entry = Dose{run.McgMin}, run.Entry
		}
	}
	r.rests(entry)
	return highest
}

// isOrdered says that a run carried the drug of the order.
func (r *record) isOrdered(run sim.Run) bool {
	for _, b := range r.Bags {
		if b.ID == run.Bag {
			return b.Drug == r.Case.Order.Drug
		}
	}
	return true
}

func (r *record) ran(drug string) Moment {
	first, entry := sim.Never, -1
	for _, run := range r.Runs {
		if run.From < first && run.MLH > 0 && r.drugOf(run.Bag) == drug {
			first, entry = run.From, run.Entry
		}
	}
	r.rests(entry)
	return momentAt(first)
}

// withinOrder holds the highest dose against the order, both in the drug's own
// unit a minute.
func (r *record) withinOrder(drug string) bool {
	o, ordered := r.Case.OrderFor(drug)
	if !ordered {
		return false
	}
	highest, entry := 0.0, -1
	for _, run := range r.Runs {
		if run.MLH > 0 && run.McgMin > highest && r.drugOf(run.Bag) == drug {
			highest, entry = run.McgMin, run.Entry
		}
	}
	r.rests(entry)
	return highest > 0 && highest <= sim.PerMinute(o.Most, drug, r.doseKG())*(1+slightly)
}

func (r *record) highestConcentration() Concentration {
	highest, entry := Concentration{unknown}, -1
	r.peripheralRuns(func(run sim.Run) {
		for _, b := range r.Bags {
			if b.ID == run.Bag && !(b.Nominal <= highest.v) {
				highest, entry = Concentration{b.Nominal}, b.Entry
			}
		}
	})
	r.rests(entry)
	return highest
}

func (r *record) drugFree() Span {
	if r.Outcome.FirstDrug >= sim.Never {
		return Span{}
	}
	return spanOfSeconds(r.Outcome.DrugFreeS)
}

// changeoverGap is the longest time without a vasopressor running between
// one line and another.
func (r *record) changeoverGap() Span {
	var runs []sim.Run
	for _, run := range r.Runs {
		if r.isPressor(run) {
			runs = append(runs, run)
		}
	}
	slices.SortStableFunc(runs, func(a, b sim.Run) int { return cmp.Compare(a.From, b.From) })
	longest, ends := sim.Time(0), -1
	for i := 1; i < len(runs); i++ {
		covered := sim.Time(0)
		from := 0
		for j, earlier := range runs[:i] {
			if until := r.until(earlier); until >= covered {
				covered, from = until, j
			}
		}
		if gap := runs[i].From - covered; runs[i].Subject != runs[from].Subject && gap > longest {
			longest, ends = gap, runs[i].Entry
		}
	}
	r.rests(ends)
	return spanOf(longest)
}

// shown visits the pressures shown from the first drug on, with how long each
// stood; the one that stood when the drug came counts from then.
func (r *record) shown(visit func(entry int, mmHg float64, stood sim.Time)) {
	from := r.Outcome.FirstDrug
	if from >= sim.Never {
		return
	}
	last, since := -1, sim.Time(0)
	until := func(at sim.Time) {
		if last >= 0 && at > from {
			visit(last, r.Journal[last].Value, at-max(since, from))
		}
	}
	for _, i := range r.entries(sim.Reading) {
		if e := &r.Journal[i]; isPressure(e) {
			until(e.At)
			last, since = i, e.At
		}
	}
	until(r.Ended)
}

func (r *record) stood(counts func(mmHg float64) bool) Span {
	if r.Outcome.FirstDrug >= sim.Never {
		return Span{}
	}
	var sum sim.Time
	r.shown(func(entry int, mmHg float64, stood sim.Time) {
		if counts(mmHg) {
			sum += stood
			r.rests(entry)
		}
	})
	return spanOf(sum)
}

func (r *record) shownUnder(limit Pressure) Span {
	return r.stood(func(mmHg float64) bool { return mmHg < limit.v })
}

func (r *record) shownOver(limit Pressure) Span {
	return r.stood(func(mmHg float64) bool { return mmHg > limit.v })
}

func (r *record) extreme(beats func(a, b float64) bool) Pressure {
	best, entry := unknown, -1
	r.shown(func(i int, mmHg float64, _ sim.Time) {
		if entry < 0 || beats(mmHg, best) {
			best, entry = mmHg, i
		}
	})
	r.rests(entry)
	return Pressure{best}
}

func (r *record) lowestShown() Pressure {
	return r.extreme(func(a, b float64) bool { return a < b })
}

func (r *record) highestShown() Pressure {
	return r.extreme(func(a, b float64) bool { return a > b })
}
