package trial

import (
	"path/filepath"
	"regexp"
	"slices"
	"strings"
	"testing"

	"blanch/scenarios"
	"blanch/sim"
)

// hour is a run of the shipped case as this kind plays it.
type hour struct {
	*sim.Result
	t *testing.T
}

// asShipped is read once: the case as it ships.
var asShipped *Study

func played(t *testing.T, kind string, seed uint64, change func(*scenarios.Case)) hour {
	t.Helper()
	s := asShipped
	if change != nil || s == nil {
		s = varied(t, func(c *scenarios.Case, _ *sim.Place) {
			if change != nil {
				change(c)
			}
		})
	}
	if change == nil {
		asShipped = s
	}
	r, err := s.Show(kind, seed)
	if err != nil {
		t.Fatal(err)
	}
	return hour{r, t}
}

// first is when an act was first done from a time on; Never when it was not.
func (h hour) first(act string, from sim.Time) sim.Time {
	for _, en := range h.Journal {
		if en.Kind == sim.Started && en.Act == act && en.At >= from {
			return en.At
		}
	}
	return sim.Never
}

// found is when a look first showed a sign of the leak.
func (h hour) found() sim.Time {
	for _, en := range h.Journal {
		if en.Kind == sim.Found && sim.SignOf(en.What) != "" && sim.Abnormal(en.What, en.Word, en.Value) {
			return en.At
		}
	}
	return sim.Never
}

// What each kind is called after, it does.
func TestKindsDoWhatTheySay(t *testing.T) {
	for seed := uint64(1); seed <= 3; seed++ {
		expert := played(t, Expert, seed, nil)
		found := expert.found()
		if stop, pull := expert.first("stop", found), expert.first("pull", found); stop == sim.Never || pull < expert.first("draw-back", found) {
			t.Errorf("seed %d: the expert stops at %s, draws back at %s and pulls at %s", seed, stop.Exact(), expert.first("draw-back", found).Exact(), pull.Exact())
		}

		puller := played(t, "pulls-at-once", seed, nil)
		found = puller.found()
		if pull := puller.first("pull", found); pull == sim.Never || pull > found+5*sim.Minute || pull > puller.first("draw-back", found) {
			t.Errorf("seed %d: pulls-at-once pulls at %s, found at %s", seed, pull.Exact(), found.Exact())
		}
		if f := played(t, "flushes-the-leak", seed, nil); f.first("flush", f.found()) > f.found()+5*sim.Minute {
			t.Errorf("seed %d: flushes-the-leak does not flush", seed)
		}
		for _, act := range []string{"call", "send-for", "query-order"} {
			// Whoever takes over at the end of the shift is sent for.
			if at := played(t, "asks-nobody", seed, nil).first(act, 0); at < 150*sim.Minute {
				t.Errorf("seed %d: asks-nobody does %s", seed, act)
			}
		}
		for _, act := range []string{"feel", "uncover", "compare", "measure"} {
			monitor := played(t, "trusts-the-monitor", seed, func(c *scenarios.Case) { c.Leak = sim.Fate{Kind: sim.NoLeak} })
			if monitor.first(act, 0) != sim.Never {
				t.Errorf("seed %d: trusts-the-monitor does %s", seed, act)
			}
		}
		if at := played(t, "slow-to-start", seed, nil).first("start", 0); at < hesitatesFor || at == sim.Never {
			t.Errorf("seed %d: slow-to-start starts at %s", seed, at.Exact())
		}
		waits := played(t, "waits-for-central", seed, nil)
		for _, run := range waits.Runs {
			if run.Subject != "central" {
				t.Errorf("seed %d: waits-for-central runs through %s", seed, run.Subject)
			}
		}
		if len(waits.Runs) == 0 {
			t.Errorf("seed %d: waits-for-central never runs anything", seed)
		}
		sound := played(t, Everything, seed, func(c *scenarios.Case) { c.Leak = sim.Fate{Kind: sim.NoLeak} })
		if sound.first("infiltrate", 0) == sim.Never || sound.first("draw-back", 0) == sim.Never {
			t.Errorf("seed %d: treats-everything leaves a sound arm alone", seed)
		}
		if n := len(played(t, Nothing, seed, nil).Runs); n > 0 {
			t.Errorf("seed %d: does-nothing runs %d times", seed, n)
		}
		for _, a := range played(t, "slips-in-sums", seed, nil).Answers {
			if given, err := a.Given.In(a.Key.Unit); a.At < sim.Never && (err != nil || given > a.Key.Value*0.2 && given < a.Key.Value*5) {
				t.Errorf("seed %d: slips-in-sums gives %s for %s", seed, a.Raw, a.Key)
			}
		}
		for _, a := range expert.Answers {
			given, err := a.Given.In(a.Key.Unit)
			if err != nil || given < a.Key.Value*0.99 || given > a.Key.Value*1.01 {
				t.Errorf("seed %d: the expert gives %s for %s", seed, a.Raw, a.Key)
			}
		}
	}
}

// Turning the rate up comes before any look at the arm.
func TestTurnsItUpDoesNotLookFirst(t *testing.T) {
	raised := 0
	for seed := uint64(1); seed <= 20; seed++ {
		r := played(t, "turns-it-up", seed, nil)
		for _, l := range r.Lines {
			if l.Leaks < sim.Never && r.first("set", l.Leaks) < r.first("feel", l.Leaks) {
				raised++
			}
		}
	}
	if raised < 5 {
		t.Errorf("raised before a look in %d of 20 runs", raised)
	}
}

func TestKindsAreToldApart(t *testing.T) {
	var ids []string
	steps := known(t)
	for _, k := range Kinds() {
		if k.ID == "" || k.Says == "" || strings.ContainsAny(k.ID, " A_") || slices.Contains(ids, k.ID) {
			t.Errorf("the kind %q, %q", k.ID, k.Says)
		}
		ids = append(ids, k.ID)
		// A step that is named must be one that a skill asks about.
		for _, names := range []map[string]float64{k.steps, k.vices} {
			for name, chance := range names {
				if !steps[name] || chance < 0 || chance > 1 {
					t.Errorf("%s: the step %q has chance %v", k.ID, name, chance)
				}
			}
		}
	}
}

// asked is a question of a skill for a step or a vice.
var asked = regexp.MustCompile(`(?:will|vice|once|onceOn|happens|happensAt)\("([a-z-]+)"|kind\.steps\["([a-z-]+)"\]|const step = "([a-z-]+)"`)

// known are the steps and vices that the skills ask about, read from the
// sources.
func known(t *testing.T) map[string]bool {
	files, err := filepath.Glob("*.go")
	if err != nil {
		t.Fatal(err)
	}
	m := map[string]bool{}
	for _, file := range files {
		for _, found := range asked.FindAllStringSubmatch(string(read(t, file)), -1) {
			m[found[1]+found[2]+found[3]] = true
		}
	}
	return m
}
