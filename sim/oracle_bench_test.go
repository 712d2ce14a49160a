package sim

import (
	"testing"
	"time"
)

// BenchmarkAgainstSciPy plays the leaking 4 h case, found and treated, and
// has the oracle integrate the same case in the same run: the metric is how
// many times the engine goes while SciPy goes once, each on one core.
func BenchmarkAgainstSciPy(b *testing.B) {
	python := scipy(b)
	c, p := testCase(), testPlace()
	c.Calls, c.Planned, c.Ask = nil, nil, nil
	p.Cuff = 24 * Hour
	seed := luckySeed(b, 1)
	steps := readScript(b, script("right-basilic-arm"))
	once := func(look func(e *Engine)) *Engine {
		e, err := New(c, p, seed)
		if err != nil {
			b.Fatal(err)
		}
		for _, s := range steps {
			e.Advance(s.at)
			look(e)
			e.Do(s.act)
			look(e)
		}
		e.Advance(c.Ends)
		look(e)
		return e
	}
	var noticed *seen
	e := once(func(e *Engine) {
		if noticed == nil {
			noticed = newSeen(e)
		}
		noticed.check(e)
	})
	if e.out.IschaemicS == 0 || e.out.TissueMcg == 0 {
		b.Fatal("the case does not leak")
	}
	h := &hour{e: e, seen: noticed}
	told, table := h.tell(), symbolTable()
	o := newOracle(b, python)
	defer o.close()
	var theirs time.Duration
	for range 5 { // the first also warms Python up
		r, err := o.ask(table, told)
		if err != nil {
			b.Fatal(err)
		}
		var t tally
		t.worst = map[string]float64{}
		compare(h.seen, r, &t)
		if len(t.fault) > 0 {
			b.Fatal(t.fault[0])
		}
		if took := time.Duration(r.Seconds * float64(time.Second)); theirs == 0 || took < theirs {
			theirs = took
		}
	}
	for b.Loop() {
		once(func(*Engine) {})
	}
	mine := b.Elapsed() / time.Duration(b.N)
	b.ReportMetric(theirs.Seconds()*1e3, "SciPy-ms")
	b.ReportMetric(float64(theirs)/float64(mine), "SciPy/engine")
}
