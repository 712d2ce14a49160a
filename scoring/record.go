package scoring

import (
	"slices"

	"blanch/scenarios"
	"blanch/sim"
)

// record reads facts from one run, and keeps what they rest on. It can be
// turned to another run: then it reads anew, in the same memory.
type record struct {
	*sim.Result
	policy   *scenarios.Policy
	evidence []int // indices in the journal, as read
	given    []int // evidence given out so far, of this run

	sorted bool            // by kind
	kinds  [][]int         // entries of the journal by kind
	places []int           // memory of kinds
	env    textEnvironment // as far as it has been filled
	known  []reading       // what env holds of the facts, by their numbers
	rest   []int           // what the facts in env rest on

	stretches []stretch // memory of pressorThrough
	checks    []int     // memory of checksOf
}

// turn turns to another run. Facts with arguments ask the record and not the
// run, so they stay.
func (r *record) turn(to *sim.Result) {
	r.Result, r.sorted = to, false
	r.given = make([]int, 0, len(r.given)) // about what the run before gave
	r.evidence, r.rest = r.evidence[:0], r.rest[:0]
	for i := range r.known {
		r.known[i].done = r.known[i].done && facts[i].asked
	}
}

// reading says that a fact has been read, and which part of rest is its own.
type reading struct {
	done     bool
	from, to int
}

// fill puts the facts into the environment. Each is read from the run once;
// what it rests on counts wherever its value is asked for.
func (r *record) fill(uses []Fact) {
	if r.known == nil {
		r.known = make([]reading, len(facts))
	}
	for i := range uses {
		f := &uses[i]
		known := &r.known[f.number]
		if !known.done {
			before, from := len(r.evidence), len(r.rest)
			f.fill(&r.env, r)
			r.rest = append(r.rest, r.evidence[before:]...)
			r.evidence = r.evidence[:before]
			*known = reading{true, from, len(r.rest)}
		}
	}
}

// cite notes what a fact in the environment rests on.
func (r *record) cite(fact int) {
	known := r.known[fact]
	r.evidence = append(r.evidence, r.rest[known.from:known.to]...)
}

// entries lists, in order, the entries of one kind, so that a fact looks only
// at those it can rest on. An answered sum stands among what was done.
func (r *record) entries(kind sim.Kind) []int {
	if !r.sorted {
		r.sortByKind()
		r.sorted = true
	}
	return r.kinds[kind]
}

func (r *record) sortByKind() {
	kindOf := func(i int) sim.Kind {
		if k := r.Journal[i].Kind; k != sim.Answered {
			return k
		}
		return sim.Done
	}
	var count [sim.Hidden + 1]int
	for i := range r.Journal {
		count[kindOf(i)]++
	}
	r.places = slices.Grow(r.places[:0], len(r.Journal))[:len(r.Journal)]
	if r.kinds == nil {
		r.kinds = make([][]int, len(count))
	}
	free := r.places
	for k, n := range count {
		r.kinds[k], free = free[:0:n], free[n:]
	}
	for i := range r.Journal {
		k := kindOf(i)
		r.kinds[k] = append(r.kinds[k], i)
	}
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
	from := len(r.given)
	r.given = append(r.given, slices.Compact(r.evidence)...)
	r.drop()
	return slices.Clip(r.given[from:])
}

// drop leaves out the evidence since the last take.
func (r *record) drop() { r.evidence = r.evidence[:0] }

// at is the moment of an entry, which becomes evidence; never for none.
func (r *record) at(entry int) Moment {
	if entry < 0 || entry >= len(r.Journal) {
		return Moment{}
	}
	r.rests(entry)
	return momentAt(r.Journal[entry].At)
}

// firstEntry is the first entry of a kind that fits, -1 when none does.
func (r *record) firstEntry(kind sim.Kind, fits func(e *sim.Entry) bool) int {
	for _, i := range r.entries(kind) {
		if fits(&r.Journal[i]) {
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
		r.rests(r.firstEntry(sim.Hidden, func(e *sim.Entry) bool {
			return e.What == "first drug in the blood"
		}))
	}
	return m
}
