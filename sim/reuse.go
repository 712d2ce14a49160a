package sim

import (
	"slices"

	"blanch/sim/sentence"
)

// What an engine has played with before it plays with again: see Reset.

// again adds one more to a list, in the memory of the one that stood there in
// an attempt before.
func again[T any](list *[]*T, one T) *T {
	n := len(*list)
	if n < cap(*list) {
		*list = (*list)[:n+1]
	} else {
		*list = append(*list, nil)
	}
	if (*list)[n] == nil {
		(*list)[n] = new(T)
	}
	*(*list)[n] = one
	return (*list)[n]
}

// emptied is the world as it was before anything was in it, with the memory of
// this one.
func (w *world) emptied() world {
	clear(w.tries)
	clear(w.scanned)
	return world{
		journal: w.journal[:0], shown: w.shown[:0], sites: w.sites[:0], records: w.records[:0], pumps: w.pumps[:0],
		bags: w.bags[:0], runs: w.runs[:0], people: w.people[:0], queue: w.queue[:0], calls: w.calls[:0], sums: w.sums[:0],
		requests: w.requests[:0], sights: w.sights[:0], says: w.says[:0], treated: w.treated[:0], tries: w.tries, scanned: w.scanned,
		depots: w.depots[:0], acts: append(w.acts, w.queue...), said: w.said,
	}
}

// newAct is an action that begins now.
func (w *world) newAct(a Action, spec *Spec) *running {
	var r *running
	if last := len(w.acts) - 1; last >= 0 {
		r, w.acts = w.acts[last], w.acts[:last]
	} else {
		r = new(running)
	}
	*r = running{act: a, spec: spec, began: w.now, turn: Never}
	return r
}

// forget gives back an action that nothing refers to any more.
func (w *world) forget(r *running) { w.acts = append(w.acts, r) }

// spoken is an action with its sentence.
type spoken struct {
	act  Action
	said string
}

// sentence is the action's canonical sentence: the one of the last time, when
// the same was said.
func (w *world) sentence(a Action) string {
	last := w.said[a.Name]
	if last.said == "" || !last.act.is(a) {
		last = spoken{a, a.String()}
		last.act.Args = slices.Clone(a.Args)
		w.said[a.Name] = last
	}
	return last.said
}

// is says that two actions are the same.
func (a Action) is(b Action) bool {
	return a.Name == b.Name && a.By == b.By && slices.EqualFunc(a.Args, b.Args, sentence.Arg.Is)
}
