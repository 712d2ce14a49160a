package trial

import (
	"encoding/json"
	"errors"
	"os"
	"path/filepath"
	"runtime"
	"slices"
	"strings"
	"testing"

	"blanch/scenarios"
	"blanch/scoring"
	"blanch/sim"
)

func read(tb testing.TB, path string) []byte {
	tb.Helper()
	src, err := os.ReadFile(path)
	if err != nil {
		tb.Fatal(err)
	}
	return src
}

const content = "../../../../content/"

// loadEdited loads a case with some text of it, or of a fragment that it uses,
// changed: pairs of what stands there and what is to stand there.
func loadEdited(tb testing.TB, file string, pairs ...string) *scenarios.Case {
	tb.Helper()
	texts := map[string]string{file: string(read(tb, file))}
	for _, id := range scenarios.Uses([]byte(texts[file])) {
		fragment := content + "fragments/" + id + ".yaml"
		texts[fragment] = string(read(tb, fragment))
	}
	for i := 0; i < len(pairs); i += 2 {
		found := false
		for name, text := range texts {
			if strings.Contains(text, pairs[i]) && !found {
				texts[name], found = strings.Replace(text, pairs[i], pairs[i+1], 1), true
			}
		}
		if !found {
			tb.Fatalf("neither the case nor its fragments hold %q", pairs[i])
		}
	}
	at := scenarios.Fragments{Found: map[string]*scenarios.Fragment{}}
	for name, text := range texts {
		if name != file {
			id := strings.TrimSuffix(filepath.Base(name), ".yaml")
			at.Found[id], _ = scenarios.LoadFragment(name, []byte(text))
		}
	}
	c, faults := scenarios.LoadCase(file, []byte(texts[file]), at)
	if c == nil {
		tb.Fatal(faults)
	}
	return c
}

// loaded is a case file with its place and policy.
func loaded(tb testing.TB, file, placeFile string) (*scenarios.Case, *sim.Place, *scenarios.Policy) {
	tb.Helper()
	c := loadEdited(tb, file)
	place, faults := scenarios.LoadPlace(placeFile, read(tb, placeFile))
	if place == nil {
		tb.Fatal(faults)
	}
	file = content + "policies/" + c.Policy + ".yaml"
	policy, faults := scenarios.LoadPolicy(file, read(tb, file))
	if policy == nil {
		tb.Fatal(faults)
	}
	return c, place, policy
}

func shipped(tb testing.TB) (*scenarios.Case, *sim.Place, *scenarios.Policy) {
	return loaded(tb, content+"cases/night-bridge.yaml", content+"places/tern-ward.yaml")
}

func studyOf(tb testing.TB, c *scenarios.Case, place *sim.Place, policy *scenarios.Policy) *Study {
	tb.Helper()
	s, err := New(c, place, policy)
	if err != nil {
		tb.Fatal(err)
	}
	return s
}

func tried(tb testing.TB, s *Study, n int) *Report {
	tb.Helper()
	r, err := s.Try(n, 1)
	if err != nil {
		tb.Fatal(err)
	}
	return r
}

func (r *Report) kind(id string) KindReport {
	return r.Kinds[slices.IndexFunc(r.Kinds, func(k KindReport) bool { return k.Kind == id })]
}

// A seat that cannot be made is an error, and leaves nobody waiting for a run.
func TestNobodyWaitsWhereASeatFails(t *testing.T) {
	defer runtime.GOMAXPROCS(runtime.GOMAXPROCS(4))
	s := studyOfShipped(t)
	made := 0
	s.sit = func() (*seat, error) {
		if made++; made == 3 {
			return nil, errors.New("no third seat")
		}
		return s.seat()
	}
	before := runtime.NumGoroutine()
	if _, err := s.Try(20, 1); err == nil || err.Error() != "no third seat" {
		t.Errorf("got %v", err)
	}
	if after := runtime.NumGoroutine(); after > before {
		t.Errorf("%d wait still", after-before)
	}
}

// The same trial gives the same bytes however many cores share it.
func TestTheSameOnEveryNumberOfCores(t *testing.T) {
	for _, file := range caseFiles(t) {
		var first []byte
		for _, cores := range []int{1, 4} {
			before := runtime.GOMAXPROCS(cores)
			r := tried(t, studyOfFile(t, file, placeOf(t, file)), 6)
			runtime.GOMAXPROCS(before)
			got, err := json.Marshal(r)
			if err != nil {
				t.Fatal(err)
			}
			if first == nil {
				first = got
			} else if string(first) != string(got) {
				t.Errorf("%s: the report differs on %d cores", file, cores)
			}
		}
	}
}

// What the shipped case is held to.
func TestTheShippedCase(t *testing.T) {
	r := tried(t, studyOfShipped(t), 40)
	if r.Faulty() {
		t.Errorf("faults: %+v", r.Findings)
	}
	expert := r.kind(Expert)
	if expert.Passed != r.Runs || expert.Share.Median < 95 {
		t.Errorf("experts: %d of %d pass, median %v %%; want all, and 95 %% or more", expert.Passed, r.Runs, expert.Share.Median)
	}
	for _, id := range []string{Nothing, Hurried, "worst-choice", "trusts-the-monitor", "asks-nobody", "slow-to-start", "waits-for-central"} {
		if k := r.kind(id); k.Passed > 0 {
			t.Errorf("%s passes %d times", id, k.Passed)
		}
	}
	if r.Effect.Value < 0.95 {
		t.Errorf("Cliff's delta of expert and hurried novice is %v", r.Effect.Value)
	}
	for _, e := range r.Endings {
		if e.Reached == 0 {
			t.Errorf("no run reaches: %s", e.Ending)
		}
	}
	// Whoever leaves the leak to run has more of it than the expert.
	if a, b := expert.Ischaemic, r.kind("trusts-the-monitor").Ischaemic; a.Median >= b.Median {
		t.Errorf("ischaemia: expert %v, trusts-the-monitor %v", a, b)
	}
}

// Four cases, each with one deliberate fault, which is named and no other.
func TestFaultyCasesAreNamed(t *testing.T) {
	const files = "../../testdata/try/"
	for file, code := range map[string]string{
		"unwinnable": "cannot-be-won", "nothing-passes": "nothing-passes",
		"unreachable-rule": "unreachable-rule", "both-ace-it": "both-ace-it",
	} {
		s := studyOfFile(t, files+file+".yaml", content+"places/tern-ward.yaml")
		r := tried(t, s, 20)
		var faults []string
		for _, f := range r.Findings {
			if f.Level != Fault {
				continue
			}
			faults = append(faults, f.Code)
			if f.Shown == nil {
				t.Errorf("%s: no run shows %s", file, f.Code)
				continue
			}
			if _, err := s.Show(f.Shown.Kind, f.Shown.Seed); err != nil {
				t.Error(err)
			}
		}
		if !slices.Equal(faults, []string{code}) {
			t.Errorf("%s: faults %q, want %s alone", file, faults, code)
		}
	}
}

// The script of a run plays the same run: the same marks, and the same hour.
func TestScriptsPlayTheSame(t *testing.T) {
	for _, file := range caseFiles(t) {
		s := studyOfFile(t, file, placeOf(t, file))
		for _, k := range Kinds() {
			const seed = 3
			r, err := s.Show(k.ID, seed)
			if err != nil {
				t.Fatal(err)
			}
			steps, faults := scenarios.ParseSteps("run.txt", []byte(scoring.Script(scoring.Inputs(r))))
			if len(faults) > 0 {
				t.Fatalf("%s: %+v", k.ID, faults[0])
			}
			again, _, err := scoring.Play(s.c, s.place, seed, steps)
			if err != nil {
				t.Fatal(err)
			}
			if !slices.Equal(r.Journal, again.Journal) {
				t.Errorf("%s in %s: the script plays another hour", k.ID, file)
			}
			if a, b := s.marker.Mark(r).Text(r), s.marker.Mark(again).Text(again); a != b {
				t.Errorf("%s in %s: other marks", k.ID, file)
			}
		}
	}
}

// A learner cannot do otherwise where only what is hidden differs: until
// something else is shown, two fates give the same acts, whatever a case opens
// with.
func TestLearnersSeeOnlyWhatIsShown(t *testing.T) {
	for _, file := range caseFiles(t) {
		var studies [2]*Study
		for i, fate := range []sim.Fate{
			{Kind: sim.Placed, Begins: 30 * sim.Minute, Over: sim.Minute, Fraction: 0.9},
			{Kind: sim.NoLeak},
		} {
			c, place, policy := loaded(t, file, placeOf(t, file))
			c.Leak = fate
			studies[i] = studyOf(t, c, place, policy)
		}
		for _, k := range Kinds() {
			var hours [2][]sim.Entry
			for i, s := range studies {
				r, err := s.Show(k.ID, 5)
				if err != nil {
					t.Fatal(err)
				}
				for _, en := range r.Journal {
					if en.Kind != sim.Hidden {
						hours[i] = append(hours[i], en)
					}
				}
			}
			for n := 0; n < min(len(hours[0]), len(hours[1])); n++ {
				a, b := hours[0][n], hours[1][n]
				if a == b {
					continue
				}
				if a.Kind == sim.Started || a.Kind == sim.Refused || b.Kind == sim.Started {
					t.Errorf("%s in %s acts on what was not shown: %s %q, or %s %q", k.ID, file, a.At.Exact(), a.Text(), b.At.Exact(), b.Text())
				}
				break
			}
		}
	}
}

func TestHiddenEntriesDoNotPassTheDoor(t *testing.T) {
	s := studyOfShipped(t)
	seat, err := s.seat()
	if err != nil {
		t.Fatal(err)
	}
	seen := 0
	seat.learner.show([]sim.Entry{{Kind: sim.Hidden, What: "leak begins"}, {Kind: sim.Reading}}, func(en *sim.Entry) {
		seen++
		if en.Kind == sim.Hidden {
			t.Error("a hidden entry was shown")
		}
	})
	if seen != 1 {
		t.Errorf("%d entries shown", seen)
	}
}

// A trial of another policy is judged by it, and played by it.
func TestThePolicyIsTheLearnersToo(t *testing.T) {
	c, place, policy := shipped(t)
	often := *policy
	often.CheckEarly = 10 * sim.Minute
	looks := func(p *scenarios.Policy) (n int) {
		r, err := studyOf(t, c, place, p).Show(Expert, 1)
		if err != nil {
			t.Fatal(err)
		}
		for _, en := range r.Journal {
			if en.Kind == sim.Done && en.Act == "feel" {
				n++
			}
		}
		return n
	}
	if a, b := looks(policy), looks(&often); b <= a {
		t.Errorf("%d looks where the policy wants one every 10 min, %d where every 30 min", b, a)
	}
}

func TestReportsFitTheScreen(t *testing.T) {
	r := tried(t, studyOfShipped(t), 5)
	text := r.Text()
	for line := range strings.Lines(text) {
		if line = strings.TrimRight(line, "\n"); len([]rune(line)) > 80 || line != strings.TrimRight(line, " ") {
			t.Errorf("a line of %d columns: %q", len([]rune(line)), line)
		}
	}
	for _, k := range Kinds() {
		if !strings.Contains(text, k.ID) {
			t.Errorf("%s is not in the report", k.ID)
		}
	}
}

func BenchmarkThousandLearners(b *testing.B) {
	c, place, policy := shipped(b)
	c.Ends, c.Relief = 4*sim.Hour, 235*sim.Minute
	c.Patient.Untreated = append(slices.Clone(c.Patient.Untreated), sim.Point{At: 5 * sim.Hour, MmHg: 47})
	s := studyOf(b, c, place, policy)
	kinds := Kinds()
	n := (1000 + len(kinds) - 1) / len(kinds)
	b.ReportAllocs()
	for b.Loop() {
		if _, _, _, err := s.play(kinds, n, 1); err != nil {
			b.Fatal(err)
		}
	}
	b.ReportMetric(float64(n*len(kinds)*b.N)/b.Elapsed().Seconds(), "learners/s")
}

func studyOfShipped(t *testing.T) *Study {
	return studyOfFile(t, content+"cases/night-bridge.yaml", content+"places/tern-ward.yaml")
}

func studyOfFile(t *testing.T, file, placeFile string) *Study {
	c, place, policy := loaded(t, file, placeFile)
	return studyOf(t, c, place, policy)
}
