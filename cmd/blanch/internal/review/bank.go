package review

import (
	"cmp"
	"errors"
	"fmt"
	"slices"
)

// Bank is the questions that can be put, in the order of unit and level and, in
// a level, of their authors.
type Bank []Question

// NewBank checks the questions and puts them in order. The error tells every
// fault; a bank with a fault is not used.
func NewBank(questions []Question) (Bank, error) {
	var faults []error
	place := map[string]int{}
	for i, q := range questions {
		if err := q.Check(); err != nil {
			faults = append(faults, fmt.Errorf("question %d: %w", i+1, err))
		}
		if first, twice := place[q.Name]; twice && q.Name != "" {
			faults = append(faults, fmt.Errorf("question %d: name %q is that of question %d too, want each once", i+1, q.Name, first))
			continue
		}
		place[q.Name] = i + 1
	}
	if len(faults) > 0 {
		return nil, errors.Join(faults...)
	}
	bank := slices.Clone(questions)
	slices.SortStableFunc(bank, func(a, b Question) int {
		return cmp.Or(cmp.Compare(a.Unit, b.Unit), cmp.Compare(a.Level, b.Level))
	})
	return bank, nil
}

// Check says what is wrong with a question.
func (q Question) Check() error {
	switch {
	case q.Name == "":
		return errors.New("question has no name, want one")
	case !q.Unit.known():
		_, err := q.Unit.MarshalText()
		return fmt.Errorf("question %q: %w", q.Name, err)
	case q.Level < 1:
		return fmt.Errorf("question %q: level is %d, want 1 or more", q.Name, int(q.Level))
	}
	return nil
}
