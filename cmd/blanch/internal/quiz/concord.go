package quiz

import (
	"fmt"

	"blanch/cmd/blanch/internal/session"
	"blanch/scenarios"
	"blanch/sim/quantity"
)

// EnoughCredit is the credit of a script concordance answer from which it
// counts as right for review: half. It is our own choice; the credit itself is
// shown.
const EnoughCredit = 0.5

func (s *Sitting) concordance(word string) ([]session.Line, error) {
	a := s.now
	at, ok := letter(word, len(scenarios.ConcordanceScale))
	if !ok {
		return []session.Line{fault("answer with a letter from A to %c", 'A'+len(scenarios.ConcordanceScale)-1)}, nil
	}
	return s.end(a.Concordance.Credit(at) >= EnoughCredit, fmt.Sprintf("%c", 'A'+at), a.explainConcordance(at))
}

// explainConcordance shows the votes; at is -1 for no answer.
func (a *asked) explainConcordance(at int) []session.Line {
	c := a.Concordance
	credit := func(i int) string { return quantity.Number(quantity.Round(c.Credit(i), 0.01)) }
	out := []session.Line{told("There is no single right answer here: an answer earns credit by how many of a panel gave it. From a credit of %s on it counts as right for review.", quantity.Number(EnoughCredit))}
	if at >= 0 {
		out = append(out, told("Your answer earns a credit of %s out of 1.", credit(at)))
	}
	for i, point := range scenarios.ConcordanceScale {
		mark := ""
		if i == at {
			mark = " (your answer)"
		}
		out = append(out, told("  %c. %s: votes %d, credit %s%s", 'A'+i, point, c.Votes[i], credit(i), mark))
	}
	return append(out, told("Panel: %s", c.Panel), told("%s", c.Because))
}
