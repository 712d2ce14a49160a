package trial

import (
	"fmt"
	"runtime"
	"sync"

	"blanch/scenarios"
	"blanch/scoring"
	"blanch/sim"
)

// Study is a case in its place under a policy, ready to be tried.
type Study struct {
	Called string // the case, as the command names it
	With   string // what else the command needs, such as " --policy FILE"

	c      *scenarios.Case
	place  *sim.Place
	policy *scenarios.Policy
	marker *scoring.Marker
	papers *papers
	sit    func() (*seat, error) // makes a seat
}

// New readies a study. The rules must compile under the policy.
func New(c *scenarios.Case, place *sim.Place, policy *scenarios.Policy) (*Study, error) {
	marker, faults := scoring.Compile(c, policy)
	if marker == nil {
		return nil, fmt.Errorf("%s: the rules of the case do not compile under policy %s: %s", c.File, policy.ID, faults[0].Said)
	}
	if _, err := sim.New(&c.Case, place, 1); err != nil {
		return nil, err
	}
	s := &Study{Called: c.ID, c: c, place: place, policy: policy, marker: marker, papers: readPapers(c, place, policy)}
	s.sit = s.seat
	return s, nil
}

// Run is what one learner made of the case.
type Run struct {
	Kind    int // in Kinds
	Seed    uint64
	Share   float64 // of the points that applied
	Passed  bool
	Ended   sim.Time
	Endings [nEndings]bool

	Leaked    bool
	Ischaemic float64 // minutes

	verdicts []scoring.Verdict
}

// seat is one engine with a learner at it, used again for run after run.
type seat struct {
	s       *Study
	learner learner
	tried   []int // by action: begun
	refused []int // by action: refused
	number  map[string]int
}

func (s *Study) seat() (*seat, error) {
	e, err := sim.New(&s.c.Case, s.place, 1)
	if err != nil {
		return nil, err
	}
	t := &seat{s: s, tried: make([]int, len(actions)), refused: make([]int, len(actions)), number: map[string]int{}}
	t.learner = learner{bed: bed{e}, p: s.papers}
	for i, a := range actions {
		t.number[a.Name] = i
	}
	return t, nil
}

// run lets a learner of a kind play under a seed.
func (t *seat) run(k *Kind, seed uint64) (*sim.Result, error) {
	e := t.learner.e
	if err := e.Reset(seed); err != nil {
		return nil, err
	}
	t.learner.begin(k, seed)
	t.learner.play()
	return e.Result(), nil
}

// count books which actions were begun and which refused.
func (t *seat) count(r *sim.Result) {
	for i := range r.Journal {
		switch en := &r.Journal[i]; en.Kind {
		case sim.Started:
			t.tried[t.number[en.Act]]++
		case sim.Refused:
			t.refused[t.number[en.Act]]++
		}
	}
}

// mark turns a result into a run.
func (s *Study) mark(kind int, r *sim.Result) Run {
	sheet := s.marker.Mark(r)
	out := Run{Kind: kind, Seed: r.Seed, Passed: sheet.Passed, Ended: r.Ended, Endings: endingsOf(r), Ischaemic: r.Outcome.IschaemicS / 60}
	if sheet.OutOf > 0 {
		out.Share = sheet.Earned / sheet.OutOf
	}
	out.verdicts = make([]scoring.Verdict, len(sheet.Marks))
	for i, m := range sheet.Marks {
		out.verdicts[i] = m.Verdict
	}
	for _, l := range r.Lines {
		out.Leaked = out.Leaked || l.Leaks < sim.Never
	}
	return out
}

// chunk is how many runs a core takes at a time.
const chunk = 8

// play plays n runs of each kind from a seed on, over all cores. The runs
// stand in the order of kinds and seeds, whoever played them.
func (s *Study) play(kinds []Kind, n int, seed uint64) (runs []Run, tried, refused []int, err error) {
	runs = make([]Run, len(kinds)*n)
	next := make(chan int)
	seats := make([]*seat, min(runtime.GOMAXPROCS(0), (len(runs)+chunk-1)/chunk))
	fails := make([]error, len(seats))
	for c := range seats { // all of them first: whoever waits for a run must be given one, or sent home
		if seats[c], err = s.sit(); err != nil {
			return nil, nil, nil, err
		}
	}
	var wg sync.WaitGroup
	for c := range seats {
		wg.Add(1)
		go func() {
			defer wg.Done()
			for from := range next {
				for i := from; i < min(len(runs), from+chunk) && fails[c] == nil; i++ {
					var r *sim.Result
					if r, fails[c] = seats[c].run(&kinds[i/n], seed+uint64(i%n)); fails[c] == nil {
						runs[i] = s.mark(i/n, r)
						seats[c].count(r)
					}
				}
			}
		}()
	}
	for i := 0; i < len(runs); i += chunk {
		next <- i
	}
	close(next)
	wg.Wait()
	tried, refused = make([]int, len(actions)), make([]int, len(actions))
	for c, t := range seats {
		if fails[c] != nil {
			return nil, nil, nil, fails[c]
		}
		for i := range tried {
			tried[i] += t.tried[i]
			refused[i] += t.refused[i]
		}
	}
	return runs, tried, refused, nil
}

// Show plays one run again and gives the whole of it.
func (s *Study) Show(kind string, seed uint64) (*sim.Result, error) {
	k, ok := KindNamed(kind)
	if !ok {
		return nil, fmt.Errorf("there is no kind of learner called %q", kind)
	}
	t, err := s.seat()
	if err != nil {
		return nil, err
	}
	return t.run(&k, seed)
}

// Ending is a way in which a run can end, or a place that it can reach.
type Ending int

// The endings. A run can have more than one.
const (
	HandedOver Ending = iota // someone took the patient over
	OnCentral                // the infusion reached the central line
	Stopped                  // nothing ran at the end
	RanOut                   // the time ran out
	NotStarted               // no drug ever ran
	nEndings
)

// String is the ending in words.
func (e Ending) String() string {
	return [...]string{"handed over", "infusion on the central line", "nothing runs at the end", "the time ran out", "no drug ever ran"}[e]
}

func endingsOf(r *sim.Result) (out [nEndings]bool) {
	for _, q := range r.Requests {
		out[HandedOver] = out[HandedOver] || q.Request == "handover" && q.Granted
	}
	out[RanOut] = !out[HandedOver]
	out[NotStarted] = len(r.Runs) == 0
	out[Stopped] = !out[NotStarted]
	for _, run := range r.Runs {
		if run.To >= r.Ended && run.MLH > 0 {
			out[Stopped] = false
		}
		out[OnCentral] = out[OnCentral] || run.Subject == "central"
	}
	return out
}
