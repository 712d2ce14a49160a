package scoring

import (
	"math"
	"slices"

	"blanch/sim"
)

// leaks lists the lines that leaked.
func (r *record) leaks() []int {
	var out []int
	for i, l := range r.Lines {
		if l.Leaks < sim.Never {
			out = append(out, i)
		}
	}
	return out
}

// onLeak says that an entry concerns a line that had begun to leak by then.
func (r *record) onLeak(e *sim.Entry) bool {
	line := r.lineOf(e)
	return line >= 0 && r.Lines[line].Leaks <= e.At
}

// visible rests on nothing: it is never shown during play.
func (r *record) visible(sign string) Moment {
	at := sim.Never
	for _, s := range r.Sights {
		if s.Sign == sign {
			at = min(at, s.At)
		}
	}
	return momentAt(at)
}

func (r *record) found(sign string) Moment {
	return r.at(r.firstEntry(sim.Found, func(e *sim.Entry) bool { return showsSign(e, sign) && r.onLeak(e) }))
}

func (r *record) named(verdict string) Moment {
	return r.at(r.firstEntry(sim.Done, func(e *sim.Entry) bool { return judged(e) == verdict && r.onLeak(e) }))
}

func (r *record) recognised() Moment {
	return earlier(r.found("leak"), r.named("leaking"))
}

func (r *record) wronglyNamed() bool {
	i := r.firstEntry(sim.Done, func(e *sim.Entry) bool { return judged(e) == "leaking" && !r.onLeak(e) })
	r.rests(i)
	return i >= 0
}

// leakStopped is when the last infusion through the last leaking line ended.
func (r *record) leakStopped() Moment {
	stopped := Moment{}
	for _, run := range r.Runs {
		line := r.lineAt(run.Subject, run.From)
		until := r.until(run)
		if line < 0 || r.Lines[line].Leaks >= until {
			continue // it leaked after this run, or never
		}
		if until >= r.Ended {
			return Moment{}
		}
		if !stopped.Known || until > stopped.at {
			stopped = momentAt(until)
		}
	}
	return stopped
}

func (r *record) leakRan() Span {
	from := r.recognised()
	if !from.Known {
		return Span{}
	}
	var sum sim.Time
	for _, run := range r.Runs {
		line := r.lineAt(run.Subject, run.From)
		if line < 0 || run.MLH <= 0 || r.Lines[line].Leaks >= sim.Never {
			continue
		}
		begin := max(run.From, from.at, r.Lines[line].Leaks)
		if end := r.until(run); end > begin {
			sum += end - begin
			r.rests(run.Entry)
		}
	}
	return spanOf(sum)
}

func (r *record) raisedOnLeak() int {
	seen := r.visible("leak")
	if !seen.Known {
		return 0
	}
	n := 0
	for _, line := range r.leaks() {
		last := math.Inf(1)
		for _, run := range r.Runs {
			if !r.isPressor(run) || r.lineAt(run.Subject, run.From) != line {
				continue
			}
			if run.McgMin > last && run.From >= seen.at {
				n++
				r.rests(run.Entry)
			}
			last = run.McgMin
		}
	}
	return n
}

// antidotes lists, in order, when antidote was put into tissue; what went
// through a line that did not leak went into the vein.
func (r *record) antidotes() []int {
	into := slices.Collect(r.done(actInfiltrate, nil))
	into = slices.AppendSeq(into, r.done(actThrough, r.onLeak))
	slices.Sort(into)
	return into
}

func (r *record) antidoteGiven() Moment { return r.firstOf(slices.Values(r.antidotes()), 0) }

func (r *record) antidoteVolume() Volume {
	given := r.antidotes()
	if len(given) == 0 {
		return Volume{unknown}
	}
	sum := 0.0
	for _, i := range given {
		sum += r.Journal[i].Value
		r.rests(i)
	}
	return Volume{sum}
}

func (r *record) antidoteMG() Mass {
	given := r.antidotes()
	if len(given) == 0 {
		return Mass{unknown}
	}
	sum := 0.0
	for _, i := range given {
		b, ok := r.syringe(i)
		if !ok {
			return Mass{unknown}
		}
		if b.Drug != antidote {
			continue
		}
		sum += r.Journal[i].Value * b.Nominal / 1000
		r.rests(i)
	}
	return Mass{sum}
}

// antidoteDilution is the volume of the first syringe that was used.
func (r *record) antidoteDilution() Volume {
	for _, i := range r.antidotes() {
		if b, ok := r.syringe(i); ok {
			r.rests(b.Entry)
			return Volume{b.VolumeML}
		}
	}
	return Volume{unknown}
}

// syringe is the antidote that an infiltration came from.
func (r *record) syringe(entry int) (sim.BagRecord, bool) {
	e := &r.Journal[entry]
	var last sim.BagRecord
	found := false
	for _, b := range r.Bags {
		if b.MixedAt > e.At {
			continue
		}
		if b.ID == e.Word {
			return b, true
		}
		if b.Drug == antidote {
			last, found = b, true
		}
	}
	return last, found
}
