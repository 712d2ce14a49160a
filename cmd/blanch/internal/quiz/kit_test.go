package quiz

import (
	"path/filepath"
	"strings"
	"testing"
	"time"

	"blanch/cmd/blanch/internal/progress"
	"blanch/cmd/blanch/internal/review"
	"blanch/cmd/blanch/internal/session"
	"blanch/content"
	"blanch/scenarios"
	"blanch/sim/quantity"
	"blanch/sim/sum"
)

// evening is when the sittings of the tests begin.
var evening = time.Date(2026, 12, 1, 20, 0, 0, 0, time.UTC)

// clock is a clock that goes on a second each time it is asked.
type clock struct{ at time.Time }

func (c *clock) now() time.Time {
	c.at = c.at.Add(time.Second)
	return c.at
}

// rate is the pump rate for 0.1 mcg/kg/min at a weight, from 4 mg in 250 mL.
func rate(t *testing.T, kg float64) *sum.Sum {
	t.Helper()
	k, _ := sum.Named("rate")
	s, err := k.New(map[string]quantity.Quantity{
		"dose": quantity.Of(0.1, "mcg/kg/min"), "weight": quantity.Of(kg, "kg"),
		"amount": quantity.Of(4, "mg"), "volume": quantity.Of(250, "mL"),
	}, quantity.Unit{})
	if err != nil {
		t.Fatal(err)
	}
	return s
}

// numbers is a question of arithmetic whose first draw is at 70 kg: the order of
// its seeds is that of the weights.
func numbers(t *testing.T, critical bool) Task {
	kgs := []float64{70, 83, 52, 64, 91}
	return Task{
		Question:  review.Question{Name: "a rate", Unit: review.Sums, Level: 1, Critical: critical},
		Objective: "Work out a rate",
		Numbers: &Numbers{Apart: uint64(len(kgs)), Draw: func(seed uint64) Drawn {
			return Drawn{Stem: []string{"An order and a bag.", "Which rate?"}, Device: "pump", Sum: rate(t, kgs[seed%uint64(len(kgs))])}
		}},
	}
}

const testItems = `format: 1
items: weighing
unit: watch
title: Weighing signs
script concordance:
  quiet-pump:
    objective: Weigh a silent alarm
    level: advanced
    critical: false
    sources: [Votes that were made up for a test]
    vignette: Norepinephrine runs through a forearm line. The pressure sags.
    hypothesis: The line leaks.
    information: The pressure alarm of the pump is silent.
    panel: Twelve invented members of a panel, for a test.
    votes: [0, 1, 8, 2, 1]
    because: Most leaks are silent.
`

// concordance is a script concordance item with invented votes.
func concordance(t *testing.T) Task {
	t.Helper()
	items, complaints := scenarios.LoadItems("weighing.yaml", []byte(testItems))
	if items == nil {
		t.Fatal(complaints)
	}
	tasks, err := FromItems(items)
	if err != nil {
		t.Fatal(err)
	}
	return tasks[0]
}

// shipped is the question of that name which comes with the program.
func shipped(t *testing.T, name string) Task {
	t.Helper()
	all, err := Questions()
	if err != nil {
		t.Fatal(err)
	}
	for _, task := range all {
		if task.Name == name {
			return task
		}
	}
	t.Fatalf("no question %q", name)
	return Task{}
}

func policy(t *testing.T, id string) *scenarios.Policy {
	t.Helper()
	p, complaints, err := content.LoadPolicy(id)
	if err != nil || p == nil {
		t.Fatal(err, complaints)
	}
	return p
}

// fresh is progress without an answer.
func fresh(t *testing.T) *progress.Progress {
	t.Helper()
	return reopened(t, filepath.Join(t.TempDir(), "reviews.ndjson"))
}

func reopened(t *testing.T, path string) *progress.Progress {
	t.Helper()
	p, err := progress.Open(path)
	if err != nil {
		t.Fatal(err)
	}
	return p
}

// sit begins a sitting; what the options leave out is filled in.
func sit(t *testing.T, o Options) *Sitting {
	t.Helper()
	if o.Progress == nil {
		o.Progress = fresh(t)
	}
	if o.Policy == nil {
		o.Policy = policy(t, "alder-court")
	}
	if o.Now == nil {
		o.Now = (&clock{evening}).now
	}
	s, err := New(o)
	if err != nil {
		t.Fatal(err)
	}
	return s
}

// say answers and gives what is said then, and what is asked next.
func say(t *testing.T, s *Sitting, answer string) string {
	t.Helper()
	s.Ask()
	said, err := s.Answer(answer)
	if err != nil {
		t.Fatal(err)
	}
	return text(said)
}

func text(lines []session.Line) string {
	var b strings.Builder
	for _, l := range lines {
		b.WriteString(l.Text + "\n")
	}
	return b.String()
}

// has wants each of some texts in what was said.
func has(t *testing.T, said string, wants ...string) {
	t.Helper()
	for _, w := range wants {
		if !strings.Contains(said, w) {
			t.Errorf("no %q in:\n%s", w, said)
		}
	}
}

func hasNot(t *testing.T, said string, unwanted ...string) {
	t.Helper()
	for _, w := range unwanted {
		if strings.Contains(said, w) {
			t.Errorf("%q in:\n%s", w, said)
		}
	}
}
