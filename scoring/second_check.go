package scoring

import (
	"cmp"
	"slices"

	"blanch/sim"
)

// occasion is a moment at which a policy can want a second person.
type occasion struct {
	entry int   // what brought it
	by    []int // the entries of the checks that served it; empty when none did
}

// occasions lists, in order, how often a moment came in the run. Only what
// carried a vasopressor counts.
func (r *record) occasions(what string) []occasion {
	switch what {
	case "handover":
		return r.handedOver()
	case "changeover":
		return r.changeovers()
	}
	runs := r.pressorRuns()
	var out []occasion
	bags, pumps := map[string]bool{}, map[string]bool{}
	strength := map[string]float64{} // of the bag that ran last, by drug
	for i, run := range runs {
		bag, pump := bags[run.Bag], pumps[run.Pump]
		bags[run.Bag], pumps[run.Pump] = true, true
		b := r.bagNamed(run.Bag)
		before, ran := strength[b.Drug]
		strength[b.Drug] = b.Nominal
		var came, served bool
		var by []int
		check := func(act, subject string, from sim.Time) bool {
			n := r.checkBetween(act, subject, from, run.From)
			if n >= 0 {
				by = append(by, n)
			}
			return n >= 0
		}
		switch what {
		case "bag":
			came = !bag
			served = came && check(secondCheckAct["bag"], run.Bag, 0)
		case "pump":
			came = !pump
			served = came && check(secondCheckAct["pump"], run.Pump, 0)
		case "set-up":
			came = i == 0
			served = came && check(secondCheckAct["bag"], run.Bag, 0) && check(secondCheckAct["pump"], run.Pump, 0)
		case "new-bag":
			came = i > 0 && !bag
			served = came && check(secondCheckAct["bag"], run.Bag, 0)
		case "new-concentration":
			came = !bag && ran && before != b.Nominal
			served = came && check(secondCheckAct["pump"], run.Pump, r.hung(run.Pump, run.From))
		}
		if !served {
			by = nil
		}
		if came && b.Entry >= 0 { // a bag of before the case was for others to check
			out = append(out, occasion{run.Entry, by})
		}
	}
	return out
}

// changeovers are the moves of a running pump from one line to another; a
// check serves one when it comes before the next.
func (r *record) changeovers() []occasion {
	runs := r.pressorRuns()
	var out []occasion
	for i, run := range runs {
		before, next := -1, r.Ended
		for j, other := range runs {
			switch {
			case other.Pump != run.Pump:
			case j < i:
				before = j
			case j > i && other.Subject != run.Subject:
				next = min(next, other.From)
			}
		}
		if before < 0 || runs[before].Subject == run.Subject {
			continue
		}
		o := occasion{entry: run.Entry}
		if n := r.checkBetween(secondCheckAct["pump"], run.Pump, run.From, next); n >= 0 {
			o.by = []int{n}
		}
		out = append(out, o)
	}
	return out
}

// handedOver has an occasion for each pump that ran when the patient was
// handed over; a check serves it when bag, line and rate were those handed
// over.
func (r *record) handedOver() []occasion {
	var out []occasion
	for _, q := range r.Requests {
		if q.Request != handover {
			continue
		}
		for _, run := range r.pressorRuns() {
			if run.From > q.At || r.until(run) < q.At {
				continue
			}
			o := occasion{entry: q.Entry}
			if n := r.checkBetween(secondCheckAct["pump"], run.Pump, run.From, q.At); n >= 0 {
				o.by = []int{n}
			}
			out = append(out, o)
		}
	}
	return out
}

// checkBetween is the first completed check of that kind of a bag or pump
// between two times, -1 for none.
func (r *record) checkBetween(act, subject string, from, to sim.Time) int {
	return r.firstEntry(sim.Done, func(e *sim.Entry) bool {
		return e.Act == act && e.Subject == subject && e.At >= from && e.At <= to
	})
}

// hung is when the bag that a pump had at that time was hung.
func (r *record) hung(pump string, at sim.Time) sim.Time {
	last := sim.Time(0)
	for i := range r.done(actHang, func(e *sim.Entry) bool { return e.Subject == pump && e.At <= at }) {
		last = r.Journal[i].At
	}
	return last
}

func (r *record) bagNamed(id string) sim.BagRecord {
	for _, b := range r.Bags {
		if b.ID == id {
			return b
		}
	}
	return sim.BagRecord{}
}

// drugOf is what is in a bag.
func (r *record) drugOf(bag string) string { return r.bagNamed(bag).Drug }

// pressorRuns are the stretches in which a vasopressor ran, in order.
func (r *record) pressorRuns() []sim.Run {
	var out []sim.Run
	for _, run := range r.Runs {
		if r.isPressor(run) {
			out = append(out, run)
		}
	}
	slices.SortStableFunc(out, func(a, b sim.Run) int { return cmp.Compare(a.From, b.From) })
	return out
}

// secondCheck is the first time a second person checked the bag or the pump,
// or served one of the other moments.
func (r *record) secondCheck(what string) Moment {
	if act, plain := secondCheckAct[what]; plain {
		return r.first(act)
	}
	for _, o := range r.occasions(what) {
		if len(o.by) > 0 {
			return r.at(slices.Max(o.by))
		}
	}
	return Moment{}
}

// missedSecondChecks counts how often a moment came without a second person.
func (r *record) missedSecondChecks(what string) int {
	n := 0
	for _, o := range r.occasions(what) {
		if len(o.by) == 0 {
			n++
			r.rests(o.entry)
		}
	}
	return n
}
