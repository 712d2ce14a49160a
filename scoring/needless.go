package scoring

import (
	"cmp"
	"slices"

	"blanch/sim"
)

// What is done to an arm or to the dose without a reason that was looked for.

// judgedAs is the first such verdict on a line that carried a vasopressor.
func (r *record) judgedAs(verdict string) Moment {
	return r.at(r.firstEntry(sim.Done, func(e *sim.Entry) bool {
		line := r.lineOf(e)
		return judged(e) == verdict && line >= 0 && !r.Lines[line].Central && r.Lines[line].Pressor <= e.At
	}))
}

// raisedWithout counts the raises through the arm before which an act had not
// been completed in that span: on that line, or where it concerns none.
func (r *record) raisedWithout(act string, within Span) int {
	n := 0
	last := map[string]float64{} // dose, by pump
	for _, run := range r.Runs {
		if !r.isPressor(run) || !r.isOrdered(run) {
			continue
		}
		before, ran := last[run.Pump]
		last[run.Pump] = run.McgMin
		line := r.lineAt(run.Subject, run.From)
		if !ran || run.McgMin <= before || line < 0 || r.Lines[line].Central {
			continue
		}
		done := slices.Collect(r.done(act, func(e *sim.Entry) bool {
			on := r.lineOf(e)
			return e.At <= run.From && (!within.Known || run.From-e.At <= within.long) && (on < 0 || on == line)
		}))
		if len(done) == 0 {
			r.rests(run.Entry)
			n++
		}
	}
	return n
}

// pulledInUse counts the cannulae pulled while no other line carried the drug.
func (r *record) pulledInUse() int {
	return r.countOf(r.done(actPull, func(e *sim.Entry) bool {
		line := r.lineOf(e)
		if line < 0 || r.Lines[line].Central || r.Lines[line].Pressor >= e.At {
			return false
		}
		return !slices.ContainsFunc(r.Runs, func(run sim.Run) bool {
			return r.isPressor(run) && run.From <= e.At && r.until(run) > e.At && r.lineAt(run.Subject, run.From) != line
		})
	}))
}

// withoutInfusion is how long after the start no pump ran a vasopressor.
func (r *record) withoutInfusion() Span {
	start := r.startTime()
	if !start.Known {
		return Span{}
	}
	var runs []sim.Run
	for _, run := range r.Runs {
		if r.isPressor(run) {
			runs = append(runs, run)
		}
	}
	slices.SortStableFunc(runs, func(a, b sim.Run) int { return cmp.Compare(a.From, b.From) })
	covered, none := start.at, sim.Time(0)
	for _, run := range runs {
		if run.From > covered {
			none += run.From - covered
			r.rests(run.Entry)
		}
		covered = max(covered, r.until(run))
	}
	return spanOf(none + max(0, r.Ended-covered))
}

// longestWithoutDrug is the longest gap, between two moments, in which no pump
// ran the drug through any line.
func (r *record) longestWithoutDrug(drug string, from, to Moment) Span {
	if !from.Known {
		return Span{}
	}
	end := min(to.time(), r.Ended)
	covered, longest, ends := from.at, sim.Time(0), []int{-1, -1}
	note := func(until sim.Time, by int) {
		if gap := min(until, end) - covered; gap > longest {
			longest, ends = gap, []int{r.stoppedBy(covered), by}
		}
	}
	for _, run := range r.pressorRuns() {
		if r.drugOf(run.Bag) == drug {
			note(run.From, run.Entry)
			covered = max(covered, r.until(run))
		}
	}
	note(end, -1)
	for _, entry := range ends {
		r.rests(entry)
	}
	return spanOf(longest)
}

// stoppedBy is what was completed at a pump at that instant, -1 for nothing.
func (r *record) stoppedBy(at sim.Time) int {
	return r.firstEntry(sim.Done, func(e *sim.Entry) bool {
		return e.At == at && slices.ContainsFunc(r.Runs, func(run sim.Run) bool { return run.Pump == e.Subject && run.To == at })
	})
}
