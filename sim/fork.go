package sim

import (
	"maps"

	"blanch/sim/drug"
	"blanch/sim/tissue"
)

// fork is an independent engine with the same present and the same future.
// Reading forks, so that reading can never change what it reads.
func (e *Engine) fork() *Engine {
	f := &Engine{c: e.c, p: e.p, seed: e.seed, drugs: e.drugs, agents: e.agents, ordered: e.ordered, blocker: e.blocker, heart: e.heart, pulse: e.pulse, veins: e.veins, without: e.without, world: e.world}
	w := &f.world
	w.journal = e.since(0)
	w.records = clone(w.records)
	w.runs = clone(w.runs)
	w.shown = clone(w.shown)
	w.calls = clone(w.calls)
	w.sums = clone(w.sums)
	w.requests = clone(w.requests)
	w.sights = clone(w.sights)
	w.says = clone(w.says)
	w.treated = clone(w.treated)
	w.tries, w.scanned = maps.Clone(w.tries), maps.Clone(w.scanned)
	w.depots, w.acts, w.said = nil, nil, map[string]spoken{} // its memory is its own
	if w.chosen != nil {
		c := *w.chosen
		w.chosen = &c
	}

	sites := map[*site]*site{}
	w.sites = clone(w.sites)
	for i, s := range w.sites {
		c := *s
		c.column = s.column.Copy()
		if s.depot != nil {
			d := *s.depot
			c.depot = &d
		}
		sites[s], w.sites[i] = &c, &c
	}
	bags := map[*bagState]*bagState{}
	w.bags = clone(w.bags)
	for i, b := range w.bags {
		c := *b
		bags[b], w.bags[i] = &c, &c
	}
	pumps := map[*pumpState]*pumpState{}
	w.pumps = clone(w.pumps)
	for i, p := range w.pumps {
		c := *p
		c.tubing = p.tubing.Copy()
		c.site, c.bag = sites[p.site], bags[p.bag]
		pumps[p], w.pumps[i] = &c, &c
	}
	for _, s := range w.sites {
		s.pump = pumps[s.pump]
	}
	for _, b := range w.bags {
		b.pump = pumps[b.pump]
	}
	people := map[*personState]*personState{}
	w.people = clone(w.people)
	for i, p := range w.people {
		c := *p
		people[p], w.people[i] = &c, &c
	}
	acts := map[*running]*running{}
	w.queue = clone(w.queue)
	for i, r := range w.queue {
		c := *r
		c.site, c.pump, c.bag = sites[r.site], pumps[r.pump], bags[r.bag]
		c.who, c.with = people[r.who], people[r.with]
		acts[r], w.queue[i] = &c, &c
	}
	w.hands, w.voice = acts[w.hands], acts[w.voice]
	for _, p := range w.people {
		p.busy = acts[p.busy]
	}
	f.stale()
	return f
}

// Result is everything that marking and debriefing may read. It stays as it
// is when the engine goes on; the journal is shared and must not be changed.
func (e *Engine) Result() *Result {
	if e.at < e.now.Seconds() {
		e = e.fork()
		e.change(e.now)
	}
	r := &Result{
		Case: e.c, Place: e.p, Seed: e.seed, Ended: e.now, Journal: e.since(0), Lines: clone(e.records),
		Runs: clone(e.runs), Answers: clone(e.sums), Requests: clone(e.requests), Sights: clone(e.sights), Outcome: e.out,
	}
	for _, s := range e.sites {
		r.Lines[s.record] = s.LineRecord
	}
	for _, b := range e.bags {
		r.Bags = append(r.Bags, b.BagRecord)
	}
	for i := 1; i < len(e.drugs); i++ {
		if into := e.led.drugs[i].into; into > 0 && e.drugs[i].Role == drug.Vasopressor {
			r.Tissue = append(r.Tissue, TissueDrug{e.drugs[i].Name, into})
		}
	}
	for _, s := range e.sites {
		r.Short = r.Short || s.depot != nil && s.depot.Perfusion() < tissue.IschaemicUnder
	}
	return r
}
