package review

import (
	"bytes"
	"context"
	"encoding/json"
	"math"
	"math/rand/v2"
	"os"
	"os/exec"
	"path/filepath"
	"testing"
	"time"
)

// The scheduler is held to someone else's: ts-fsrs 5.4.2 of
// open-spaced-repetition (npm, MIT licence), which testdata/tsfsrs pins by
// checksum. It is fetched into a temporary folder and is no part of the program.

type history struct {
	W       []float64 `json:"w,omitempty"`
	Wanted  float64   `json:"wanted"`
	Longest int       `json:"longest"`
	Reviews [][2]int  `json:"reviews"` // grade, days
}

type played struct {
	Version   string
	Histories []struct {
		W     Weights
		Steps [][4]float64 // stability, difficulty, interval, recall before
	}
}

// tsFSRS plays histories with ts-fsrs.
func tsFSRS(t *testing.T, histories []history) played {
	t.Helper()
	unable := t.Skipf
	if os.Getenv("CI") == "true" {
		unable = t.Fatalf
	}
	for _, name := range []string{"node", "npm"} {
		if _, err := exec.LookPath(name); err != nil {
			unable("no %s to run ts-fsrs with (Debian: nodejs, npm)", name)
		}
	}
	dir := t.TempDir()
	for _, name := range []string{"package.json", "package-lock.json", "oracle.cjs"} {
		src, err := os.ReadFile(filepath.Join("testdata", "tsfsrs", name))
		if err != nil {
			t.Fatal(err)
		}
		if err := os.WriteFile(filepath.Join(dir, name), src, 0o600); err != nil {
			t.Fatal(err)
		}
	}
	ctx, stop := context.WithTimeout(t.Context(), time.Minute)
	defer stop()
	npm := exec.CommandContext(ctx, "npm", "ci", "--ignore-scripts", "--no-audit", "--no-fund",
		"--fetch-retries=1", "--fetch-retry-mintimeout=1000", "--fetch-retry-maxtimeout=2000", "--cache", filepath.Join(dir, "cache"))
	npm.Dir = dir
	if out, err := npm.CombinedOutput(); err != nil {
		unable("ts-fsrs cannot be fetched (no network?): %v\n%s", err, out)
	}
	request, err := json.Marshal(map[string]any{"histories": histories})
	if err != nil {
		t.Fatal(err)
	}
	node := exec.Command("node", "oracle.cjs")
	node.Dir, node.Stdin, node.Stderr = dir, bytes.NewReader(request), os.Stderr
	out, err := node.Output()
	if err != nil {
		t.Fatal(err)
	}
	var p played
	if err := json.Unmarshal(out, &p); err != nil {
		t.Fatal(err)
	}
	if len(p.Histories) != len(histories) {
		t.Fatalf("%d histories came back of %d", len(p.Histories), len(histories))
	}
	t.Logf("ts-fsrs says that it is %s", p.Version)
	return p
}

// randomHistories has all grades, reviews on one day, early, in time and late.
// The second half has weights of its own.
func randomHistories(n int) []history {
	r := rand.New(rand.NewPCG(6, 21))
	out := make([]history, n)
	for i := range out {
		h := history{Wanted: 0.7 + 0.01*float64(r.IntN(29)), Longest: []int{Longest, maxStability}[r.IntN(2)]}
		w := Published()
		if i >= n/2 {
			for j := range w {
				w[j] *= 0.8 + 0.4*r.Float64()
			}
			h.W = w[:]
		}
		m, err := NewModel(w, h.Wanted, h.Longest)
		if err != nil {
			panic(err)
		}
		var s Memory
		for range 1 + r.IntN(25) {
			g := []Grade{Again, Hard, Good, Good, Good, Easy}[r.IntN(6)]
			days := 0
			if s != (Memory{}) {
				due := m.Interval(s.Stability)
				days = []int{0, 1, 2, due, due, due + r.IntN(30), r.IntN(due + 1), r.IntN(400)}[r.IntN(8)]
			}
			h.Reviews = append(h.Reviews, [2]int{int(g), days})
			s = m.Next(s, days, g)
		}
		out[i] = h
	}
	return out
}

// TestAgainstTSFSRS wants every memory, chance of recall and interval of random
// histories to be those of ts-fsrs. It rounds each memory to 8 decimals, so the
// same is done here after each step; it also rounds F, R and the factor of the
// interval, and what this leaves is bounded by 1e-6 of the value or 1e-6,
// whichever is more. Intervals are equal, but where this moves one over a half.
func TestAgainstTSFSRS(t *testing.T) {
	if testing.Short() {
		t.Skip("fetches ts-fsrs")
	}
	n := 2000
	if os.Getenv("BLANCH_LONG") != "" {
		n = 50000
	}
	histories := randomHistories(n)
	theirs := tsFSRS(t, histories)
	round := func(v float64) float64 { return math.Round(v*1e8) / 1e8 }
	worst, steps, sameDay, halves, grades := 0.0, 0, 0, 0, map[Grade]int{}
	near := func(i, step int, what string, got, want float64) {
		off := math.Abs(got-want) / max(1, want)
		worst = max(worst, off)
		if !(off <= 1e-6) {
			t.Fatalf("history %d, review %d: %s is %.9f, ts-fsrs has %.9f\n%+v", i, step+1, what, got, want, histories[i])
		}
	}
	for i, h := range histories {
		m, err := NewModel(theirs.Histories[i].W, h.Wanted, h.Longest)
		if err != nil {
			t.Fatal(err)
		}
		if h.W == nil && theirs.Histories[i].W != Published() {
			t.Fatalf("default weights are %v, ts-fsrs has %v", Published(), theirs.Histories[i].W)
		}
		var s Memory
		for j, r := range h.Reviews {
			want := theirs.Histories[i].Steps[j]
			near(i, j, "recall", m.Recall(s, float64(r[1])), want[3])
			s = m.Next(s, r[1], Grade(r[0]))
			s.Stability, s.Difficulty = round(s.Stability), round(s.Difficulty)
			near(i, j, "stability", s.Stability, want[0])
			near(i, j, "difficulty", s.Difficulty, want[1])
			if got := m.Interval(s.Stability); float64(got) != want[2] {
				// Their rounded factor may fall on the other side of a half.
				if exact := m.days(s.Stability); math.Abs(exact-math.Floor(exact)-0.5) < 1e-6*exact && math.Abs(float64(got)-want[2]) == 1 {
					halves++
					continue
				}
				t.Fatalf("history %d, review %d: interval is %d days, ts-fsrs has %g\n%+v", i, j+1, got, want[2], h)
			}
			steps++
			grades[Grade(r[0])]++
			if j > 0 && r[1] == 0 {
				sameDay++
			}
		}
	}
	// The comparison notices each weight: none may be 1 % off.
	for k := range len(Weights{}) {
		w := Published()
		w[k] *= 1.01
		if w == Published() || agree(t, w, histories[:n/2], theirs) {
			t.Errorf("w%d is 1 %% off and no history tells", k)
		}
	}
	t.Logf("%d histories, %d reviews (%v), %d on one day: worst difference %.2g, %d intervals on the other side of a half", n, steps, grades, sameDay, worst, halves)
	if halves > steps/10000 {
		t.Errorf("%d intervals of %d are not those of ts-fsrs", halves, steps)
	}
	if sameDay < steps/20 || len(grades) != 4 {
		t.Errorf("histories lack reviews on one day or a grade")
	}
}

// agree reports whether weights give the memories of all histories.
func agree(t *testing.T, w Weights, histories []history, theirs played) bool {
	for i, h := range histories {
		m, err := NewModel(w, h.Wanted, h.Longest)
		if err != nil {
			t.Fatal(err)
		}
		var s Memory
		for j, r := range h.Reviews {
			s = m.Next(s, r[1], Grade(r[0]))
			want := theirs.Histories[i].Steps[j]
			if math.Abs(s.Stability-want[0]) > 1e-6*max(1, want[0]) || math.Abs(s.Difficulty-want[1]) > 1e-6*want[1] {
				return false
			}
		}
	}
	return true
}
