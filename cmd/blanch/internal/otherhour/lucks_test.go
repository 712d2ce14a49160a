package otherhour

import (
	"reflect"
	"runtime"
	"strings"
	"testing"

	"blanch/sim"
)

// drawn is an hour of the shipped case with leaks that are drawn.
func drawn(t testing.TB, id string) *Hour {
	t.Helper()
	h := walked(t, id)
	a := h.Attempt
	c := *a.Case
	c.Leak = sim.Fate{Kind: sim.ByHazard, PerHour: 0.5}
	a.Case = &c
	h, err := New(a)
	if err != nil {
		t.Fatal(err)
	}
	return h
}

// TestLucksOnAnyCores wants the same figures and the same text however many
// cores share the work.
func TestLucksOnAnyCores(t *testing.T) {
	h := drawn(t, "line-at-once")
	m := Move{Way: LeftOut, N: 33}
	cores := runtime.GOMAXPROCS(1)
	defer runtime.GOMAXPROCS(cores)
	one := h.Lucks(m, 40)
	runtime.GOMAXPROCS(4)
	four := h.Lucks(m, 40)
	if !reflect.DeepEqual(one, four) || h.TellLucks(m, one) != h.TellLucks(m, four) {
		t.Error("four cores give other figures than one")
	}
	if len(one.Lucks) != 40 || one.Tried < 40 {
		t.Errorf("%d lucks of %d tried, want 40", len(one.Lucks), one.Tried)
	}
}

// TestClosedLoop wants the answer to follow the look that finds, under every
// luck, with the learner's own delay, and nothing answered that nobody found.
func TestClosedLoop(t *testing.T) {
	h := drawn(t, "unchecked")
	own := walked(t, "unchecked")
	h.episodes, h.rounds = own.episodes, own.rounds // how a leak is answered is learnt where there was one
	ep := own.episodes[0]
	judged := own.acts[ep.followers[0]].At - ep.at
	leaked, answered, spared, elsewhere := 0, 0, 0, 0
	for seed := range uint64(400) {
		r := h.under(seed, Move{})
		f := FiguresOf(r)
		if !h.sameLines(r) {
			continue
		}
		found, said, given := sim.Never, sim.Never, false
		line := ""
		for i := range r.Journal {
			en := &r.Journal[i]
			switch {
			case wrong(en):
				if found == sim.Never {
					found, line = en.At, en.Subject
				}
			case en.Kind == sim.Started && en.Act == "judge":
				said = min(said, en.At)
				if en.Subject != line {
					t.Errorf("seed %d: %s leaks and %s is judged to", seed, line, en.Subject)
				}
				if line != ep.line {
					elsewhere++
				}
			case en.Kind == sim.Started && en.Act == "infiltrate":
				given = true
			}
		}
		switch {
		case found == sim.Never && (said < sim.Never || given):
			t.Errorf("seed %d: answered at %s, and nobody found anything", seed, said.Exact())
		case found == sim.Never:
			spared++
		case found < sim.Never && said < found+judged:
			t.Errorf("seed %d: found at %s and judged at %s, want at least %s later", seed, found.Exact(), said.Exact(), words(judged))
		case found < sim.Never && said < sim.Never:
			answered++
		}
		if f.Visible < sim.Never {
			leaked++
		}
	}
	if leaked == 0 || answered == 0 || spared == 0 || elsewhere == 0 {
		t.Errorf("%d leaked, %d were answered, %d of them at another line, %d had nothing to answer: every sort is wanted", leaked, answered, elsewhere, spared)
	}
}

// TestLucksAreTold reads what is said of them.
func TestLucksAreTold(t *testing.T) {
	h := walked(t, "nothing")
	text := h.TellLucks(Move{}, h.Lucks(Move{}, 3))
	for _, want := range []string{"Under 3 other lucks", "0 of 3", "no finding was answered", "places its leak"} {
		if !strings.Contains(strings.Join(strings.Fields(text), " "), want) {
			t.Errorf("%q is not said:\n%s", want, text)
		}
	}
	h = walked(t, "unchecked")
	c := h.Choose()
	lucks := h.Lucks(c.Best.Move, 5)
	for _, l := range lucks.Lucks {
		if !l.Leaked[0] || l.After.Ischaemia >= l.Before.Ischaemia {
			t.Errorf("seed %d: the leak is placed, so the look helps under every luck: %+v", l.Seed, l)
		}
	}
}

// Of ten leaks found after 1 to 10 minutes the middle lies between two of
// them, and nine in ten are below the last: not the later of the two, and not
// the last.
func TestLucksInQuantiles(t *testing.T) {
	var all Lucks
	for n := range 10 {
		f := Figures{Visible: sim.Hour, Found: sim.Hour + sim.Time(n+1)*sim.Minute, Ischaemia: float64(n + 1)}
		all.Lucks = append(all.Lucks, Luck{Before: f, After: f, Leaked: [2]bool{true, true}})
	}
	text := walked(t, "nothing").TellLucks(Move{}, all)
	for _, want := range []string{"From first sign to found, median 5.5 min", "nine in ten at most 9.1 min", "if it leaked, median 5.5 min"} {
		if !strings.Contains(strings.Join(strings.Fields(text), " "), want) {
			t.Errorf("%q is not said:\n%s", want, text)
		}
	}
}
