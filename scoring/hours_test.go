package scoring_test

import (
	"runtime"
	"slices"
	"sync/atomic"
	"testing"

	"blanch/content"
	"blanch/scenarios"
	"blanch/scoring"
	"blanch/sim"
	"blanch/sim/vein"
)

// What the learner of the benchmark does: two lines lie there already, so
// that no luck of the needle cuts an attempt short.
const (
	benchLine   = "right-cephalic-forearm"
	benchSecond = "left-cephalic-forearm"
)

var benchSetUp = []string{
	"read the order",
	"test blood return at " + benchLine,
	"flush " + benchLine + " with 10 mL",
	"mix 4 mg of norepinephrine in 250 mL, adding to the bag",
	"label bag-1",
	"give concentration as 16 mcg/mL",
	"hang bag-1 on pump-1",
	"give rate as 10.9 mL/h",
	"prime pump-1",
	"connect pump-1 to " + benchLine + " primed to the tip",
	"set pump-1 to 10.9 mL/h",
	"start pump-1",
	"tell the patient what to report",
	"fetch the extravasation kit",
}

var benchResponse = []string{
	"judge " + benchLine + " leaking",
	"move pump-1 to " + benchSecond + " primed to the tip",
	"draw back from " + benchLine,
	"mark the edge at " + benchLine,
	"measure around " + benchLine,
	"draw up 5 mg of phentolamine to 10 mL",
	"infiltrate around " + benchLine + " with 9 mL of antidote-1",
	"raise the right arm",
	"pull " + benchLine,
}

// bench is what every attempt of a benchmark shares.
type bench struct {
	c                *scenarios.Case
	place            *sim.Place
	marker           *scoring.Marker
	setUp, respond   []sim.Action
	feel, feelSecond sim.Action
}

// newBench is the shipped case with 20 of its rules, made hours long.
func newBench(tb testing.TB, ends sim.Time, leak sim.Fate) *bench {
	tb.Helper()
	c, faults, err := content.LoadCase("night-bridge")
	if err != nil || c == nil {
		tb.Fatal(faults, err)
	}
	place, faults, err := content.LoadPlace(c.Place)
	if err != nil || place == nil {
		tb.Fatal(faults, err)
	}
	policy, faults, err := content.LoadPolicy(c.Policy)
	if err != nil || policy == nil {
		tb.Fatal(faults, err)
	}
	c.Ends, c.Leak = ends, leak
	for _, id := range []string{benchLine, benchSecond} {
		c.InPlace = append(c.InPlace, sim.InPlace{Vein: id, Cannula: vein.Cannula{Gauge: 20, LengthMM: 29.5}, AngleDeg: 30})
	}
	// What concerns the arm and the start comes first, then the rest.
	urgent := func(r scenarios.Rule) int {
		if slices.Contains([]string{"start", "watch", "respond"}, r.Serves) {
			return 0
		}
		return 1
	}
	slices.SortStableFunc(c.Rules, func(x, y scenarios.Rule) int { return urgent(x) - urgent(y) })
	c.Rules = c.Rules[:20]
	marker, complaints := scoring.Compile(c, policy)
	if marker == nil {
		tb.Fatal(complaints)
	}
	read := func(line string) sim.Action {
		a, err := sim.ParseAction(line)
		if err != nil {
			tb.Fatal(err)
		}
		return a
	}
	out := &bench{c: c, place: place, marker: marker, feel: read("feel around " + benchLine), feelSecond: read("feel around " + benchSecond)}
	for _, line := range benchSetUp {
		out.setUp = append(out.setUp, read(line))
	}
	for _, line := range benchResponse {
		out.respond = append(out.respond, read(line))
	}
	return out
}

// nurse plays one attempt: sets up, feels the arm every 15 min, and treats
// the leak that a check finds.
type nurse struct {
	*bench
	*sim.Engine
	check sim.Action
	found bool
}

// ward is patients side by side, each with a nurse.
func (k *bench) ward(patients int) ([]nurse, error) {
	nurses := make([]nurse, patients)
	for i := range nurses {
		e, err := sim.New(&k.c.Case, k.place, 0)
		if err != nil {
			return nil, err
		}
		nurses[i] = nurse{bench: k, Engine: e}
	}
	return nurses, nil
}

// begin does actions one after another.
func (n *nurse) begin(actions []sim.Action) {
	for _, a := range actions {
		n.Advance(n.FreeFor(a))
		n.Do(a)
	}
}

// look feels the arm at `at` and answers what it shows.
func (n *nurse) look(at sim.Time) {
	n.Advance(max(at, n.FreeFor(n.check)))
	n.Do(n.check)
	for _, en := range n.Advance(n.FreeFor(n.check)) {
		if en.Kind == sim.Found && !n.found && sim.Abnormal(en.What, en.Word, en.Value) {
			n.found, n.check = true, n.feelSecond
			n.begin(n.respond)
			return
		}
	}
}

// played is one attempt with its marks.
type played struct {
	result *sim.Result
	sheet  scoring.Sheet
}

// attempts plays the patients of a ward to the end and marks them.
func (k *bench) attempts(seed uint64, nurses []nurse) ([]played, error) {
	for i := range nurses {
		n := &nurses[i]
		if err := n.Reset(seed + uint64(i)); err != nil {
			return nil, err
		}
		n.check, n.found = k.feel, false
		n.begin(k.setUp)
	}
	const every = 15 * sim.Minute
	for at := 2 * every; at < k.c.Ends; at += every {
		for i := range nurses {
			nurses[i].look(at)
		}
	}
	out := make([]played, len(nurses))
	for i := range nurses {
		nurses[i].Advance(k.c.Ends)
		result := nurses[i].Result()
		out[i] = played{result, k.marker.Mark(result)}
	}
	return out, nil
}

// kinds are the attempts that the benchmark plays.
var kinds = []struct {
	name     string
	ends     sim.Time
	leak     sim.Fate
	patients int
	leaks    float64 // share of the attempts that leak
}{
	{"no-leak", 8 * sim.Hour, sim.Fate{Kind: sim.NoLeak}, 1, 0},
	{"leaking", 4 * sim.Hour, placed, 1, 1},
	{"three-patients", 4 * sim.Hour, placed, 3, 1},
	// The hazard of a setting with a protocol (Yerke 2024).
	{"cohort", 8 * sim.Hour, sim.Fate{Kind: sim.ByHazard, PerHour: 0.0032}, 1, 1.0 / 40},
}

var placed = sim.Fate{Kind: sim.Placed, Begins: 70 * sim.Minute, Over: 15 * sim.Minute, Fraction: 0.9}

// BenchmarkPatientHours plays and marks whole attempts: the journal kept,
// thresholds at their exact times, the arm felt every 15 min, 20 rules marked
// at the end. Run it with -cpu 1,2 for one core and two.
func BenchmarkPatientHours(b *testing.B) {
	for _, kind := range kinds {
		b.Run(kind.name, func(b *testing.B) {
			k := newBench(b, kind.ends, kind.leak)
			var seed atomic.Uint64
			var before, after runtime.MemStats
			runtime.ReadMemStats(&before)
			b.ResetTimer()
			b.RunParallel(func(pb *testing.PB) {
				ward, err := k.ward(kind.patients)
				if err != nil {
					b.Error(err)
					return
				}
				for pb.Next() {
					if _, err := k.attempts(seed.Add(uint64(kind.patients)), ward); err != nil {
						b.Error(err)
						return
					}
				}
			})
			b.StopTimer()
			runtime.ReadMemStats(&after)
			hours := float64(b.N*kind.patients) * kind.ends.Seconds() / 3600
			b.ReportMetric(hours/b.Elapsed().Seconds(), "patient-hours/s")
			b.ReportMetric(float64(after.Mallocs-before.Mallocs)/hours, "allocs/patient-hour")
			b.ReportMetric(float64(after.TotalAlloc-before.TotalAlloc)/hours, "B/patient-hour")
		})
	}
}

// What the benchmark plays is what it says: nothing is refused, the arm is
// felt every 15 min, 20 rules are marked, and as many leak as should, each
// found and treated.
func TestWhatTheBenchmarkPlays(t *testing.T) {
	for _, kind := range kinds {
		k := newBench(t, kind.ends, kind.leak)
		ward, err := k.ward(1)
		if err != nil {
			t.Fatal(err)
		}
		const tries = 1000
		leaked := 0.0
		for seed := range uint64(tries) {
			runs, err := k.attempts(seed, ward)
			if err != nil {
				t.Fatal(err)
			}
			run := runs[0]
			acts := map[string]int{}
			for _, en := range run.result.Journal {
				switch {
				case en.Kind == sim.Refused:
					t.Fatalf("%s, seed %d: %s: %s", kind.name, seed, en.At.Exact(), en.Text())
				case en.Kind == sim.Done:
					acts[en.Act]++
				}
			}
			if want := int(kind.ends/(15*sim.Minute)) - 2; acts["feel"] != want {
				t.Fatalf("%s, seed %d: felt %d times, not %d", kind.name, seed, acts["feel"], want)
			}
			if len(run.sheet.Marks) != 20 {
				t.Fatalf("%s: %d marks", kind.name, len(run.sheet.Marks))
			}
			if leaks := run.result.Lines[1].Leaks; leaks < sim.Never {
				leaked++
				if acts["infiltrate"] != 1 && leaks < kind.ends-sim.Hour {
					t.Errorf("%s, seed %d: a leak was not treated", kind.name, seed)
				}
			}
		}
		if share := leaked / tries; share < kind.leaks*0.6 || share > kind.leaks*1.4 {
			t.Errorf("%s: %v of the attempts leak, not about %v", kind.name, share, kind.leaks)
		}
	}
}
