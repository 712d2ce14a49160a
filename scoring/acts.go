package scoring

import (
	"iter"
	"slices"

	"blanch/sim"
)

// done finds completed actions of that name, by whoever did them, that also
// fit.
func (r *record) done(act string, fits func(e *sim.Entry) bool) iter.Seq[int] {
	return func(yield func(int) bool) {
		for _, i := range r.entries(sim.Done) {
			e := &r.Journal[i]
			if e.Act == act && (fits == nil || fits(e)) && !yield(i) {
				return
			}
		}
	}
}

// onLine fits entries that concern a line of the role.
func (r *record) onLine(role string) func(*sim.Entry) bool {
	lines := r.inRole(role)
	return func(e *sim.Entry) bool {
		line := r.lineOf(e)
		for _, l := range lines {
			if l == line {
				return true
			}
		}
		return false
	}
}

func (r *record) firstOf(entries iter.Seq[int], from sim.Time) Moment {
	for i := range entries {
		if r.Journal[i].At >= from {
			return r.at(i)
		}
	}
	return Moment{}
}

func (r *record) lastOf(entries iter.Seq[int]) Moment {
	last := -1
	for i := range entries {
		last = i
	}
	return r.at(last)
}

func (r *record) countOf(entries iter.Seq[int]) int {
	n := 0
	for i := range entries {
		r.rests(i)
		n++
	}
	return n
}

func (r *record) first(act string) Moment { return r.firstOf(r.done(act, nil), 0) }
func (r *record) last(act string) Moment  { return r.lastOf(r.done(act, nil)) }
func (r *record) count(act string) int    { return r.countOf(r.done(act, nil)) }
func (r *record) did(act string) bool     { return r.first(act).Known }

func (r *record) firstSince(act string, from Moment) Moment {
	return r.firstOf(r.done(act, nil), from.time())
}

func (r *record) firstOn(act, role string) Moment {
	return r.firstOf(r.done(act, r.onLine(role)), 0)
}

func (r *record) lastOn(act, role string) Moment {
	return r.lastOf(r.done(act, r.onLine(role)))
}

func (r *record) firstOnSince(act, role string, from Moment) Moment {
	return r.firstOf(r.done(act, r.onLine(role)), from.time())
}

func (r *record) countOn(act, role string) int {
	return r.countOf(r.done(act, r.onLine(role)))
}

func (r *record) didOn(act, role string) bool { return r.firstOn(act, role).Known }

func before(a, b Moment) bool { return a.before(b, false) }

func earlier(a, b Moment) Moment {
	if b.before(a, false) {
		return b
	}
	return a
}

func later(a, b Moment) Moment {
	if b.before(a, false) {
		return a
	}
	return b
}

// longestGap is the longest running time of a vasopressor through one
// peripheral line between two checks of it, within the window. A pause is no
// time without a check: nothing runs.
func (r *record) longestGap(from, to Moment) Span { return r.longestWithout(actFeel, from, to) }

func (r *record) longestGapBloodReturn(from, to Moment) Span {
	return r.longestWithout(actBloodReturn, from, to)
}

// longestWithout is longestGap for any act of looking.
func (r *record) longestWithout(act string, from, to Moment) Span {
	if !from.Known {
		return Span{}
	}
	begin, end := from.at, min(to.time(), r.Ended)
	longest, ends := sim.Time(0), []int{-1, -1}
	for l := range r.Lines {
		if r.Lines[l].Central {
			continue
		}
		gap, before := sim.Time(0), -1
		note := func(now int) {
			if gap > longest {
				longest, ends = gap, []int{before, now}
			}
		}
		checks := r.checksOf(act, l)
		for _, stretch := range r.pressorThrough(l) {
			at := max(begin, stretch.from)
			until := min(end, stretch.to)
			if before < 0 {
				before = stretch.entry
			}
			for len(checks) > 0 && r.Journal[checks[0]].At < until {
				check := r.Journal[checks[0]].At
				gap += max(0, check-at)
				note(checks[0])
				gap, before, at = 0, checks[0], max(at, check)
				checks = checks[1:]
			}
			gap += max(0, until-at)
			note(-1)
		}
	}
	for _, entry := range ends {
		r.rests(entry)
	}
	return spanOf(longest)
}

// checksOf lists, until it is asked again, when an act of looking was completed
// at a line.
func (r *record) checksOf(act string, line int) []int {
	r.checks = slices.AppendSeq(r.checks[:0], r.done(act, func(e *sim.Entry) bool { return r.lineOf(e) == line }))
	return r.checks
}
