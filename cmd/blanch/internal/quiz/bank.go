package quiz

import (
	"fmt"
	"slices"

	"blanch/cmd/blanch/internal/review"
	"blanch/content"
	"blanch/content/drill"
	"blanch/scenarios"
)

// Questions is everything that comes with the program: the drills and the
// items. An error is a fault of the program.
func Questions() ([]Task, error) {
	var out []Task
	for _, d := range drill.Drills() {
		t, err := FromDrill(d)
		if err != nil {
			return nil, err
		}
		out = append(out, t)
	}
	files, err := content.Items()
	if err != nil {
		return nil, err
	}
	for _, f := range files {
		tasks, err := FromItems(f)
		if err != nil {
			return nil, err
		}
		out = append(out, tasks...)
	}
	return out, nil
}

// FromDrill is a drill as a question.
func FromDrill(d drill.Drill) (Task, error) {
	q, err := question("drill/"+d.Name, d.Unit, d.Level, d.Critical)
	return Task{
		Question: q, Objective: d.Objective, Sources: d.Sources,
		Numbers: &Numbers{Apart: uint64(max(0, d.Apart())), Draw: func(seed uint64) Drawn {
			q := d.Draw(seed)
			return Drawn{Stem: q.Stem, Shown: Look(q.Shown), Sum: q.Sum, Device: q.Device}
		}},
	}, err
}

// FromItems is the items of a file as questions.
func FromItems(f *scenarios.Items) ([]Task, error) {
	var out []Task
	add := func(h scenarios.ItemHead, t Task) error {
		q, err := question(f.ID+"/"+h.ID, f.Unit, h.Level, h.Critical)
		t.Question, t.Objective, t.Sources, t.Views = q, h.Objective, h.Sources, h.Views
		out = append(out, t)
		return err
	}
	for _, s := range f.Singles {
		if err := add(s.ItemHead, Task{Single: &s}); err != nil {
			return nil, err
		}
	}
	for _, o := range f.Orders {
		if err := add(o.ItemHead, Task{Order: &o}); err != nil {
			return nil, err
		}
	}
	for _, c := range f.Concordances {
		if err := add(c.ItemHead, Task{Concordance: &c}); err != nil {
			return nil, err
		}
	}
	return out, nil
}

func question(name, unit, level string, critical bool) (review.Question, error) {
	u, err := review.ParseUnit(unit)
	if err != nil {
		return review.Question{}, fmt.Errorf("question %q: %w", name, err)
	}
	at := slices.Index(scenarios.ItemLevels, level)
	if at < 0 {
		return review.Question{}, fmt.Errorf("question %q: level %q is not known", name, level)
	}
	return review.Question{Name: name, Unit: u, Level: review.Level(at + 1), Critical: critical}, nil
}

// BankOf is the questions as package review knows them.
func BankOf(tasks []Task) (review.Bank, error) {
	var qs []review.Question
	for _, t := range tasks {
		qs = append(qs, t.Question)
	}
	return review.NewBank(qs)
}
