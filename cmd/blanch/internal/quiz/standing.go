package quiz

import (
	"cmp"
	"fmt"
	"slices"
	"time"

	"blanch/cmd/blanch/internal/progress"
	"blanch/cmd/blanch/internal/review"
	"blanch/cmd/blanch/internal/session"
)

// Standing says how far each unit is and what is due when.
func Standing(tasks []Task, p *progress.Progress, now time.Time) ([]session.Line, error) {
	bank, err := BankOf(tasks)
	if err != nil {
		return nil, err
	}
	p.Limit(review.DefaultLimits()) // those of a day, whatever a sitting was given
	out := []session.Line{heading("Units of study, in the order of the job")}
	for _, s := range p.Units(now, bank) {
		out = append(out, told("  %s", s))
	}
	out = append(out, told("%s", review.Rule()))
	out = append(out, heading("What is due"))
	const atOnce = -1 // due now
	due := map[int]int{}
	for _, q := range bank {
		switch c, ok := p.Card(q.Name); {
		case !ok:
		case c.IsDue(now):
			due[atOnce]++
		default:
			due[until(now, c.Due)]++
		}
	}
	var order []int
	for d := range due {
		order = append(order, d)
	}
	slices.SortFunc(order, func(a, b int) int { return cmp.Compare(a, b) })
	if len(order) == 0 {
		out = append(out, told("  Nothing was answered yet. blanch quiz begins."))
	}
	const most = 7
	for i, d := range order {
		if i == most {
			rest := 0
			for _, later := range order[i:] {
				rest += due[later]
			}
			out = append(out, told("  later: %s", questions(rest)))
			break
		}
		when := days(d)
		if d == atOnce {
			when = "now"
		}
		held := ""
		if n := len(p.Next(now, bank).Items); d == atOnce && n < due[d] {
			held = fmt.Sprintf(", up to %d today, the lowest levels first", n)
		}
		out = append(out, told("  %s: %s%s", when, questions(due[d]), held))
	}
	for _, f := range p.Faults() {
		out = append(out, told("Note on your progress file: %s.", f))
	}
	return append(out, heading("What this says, and what it does not"),
		told("%s When something comes again is a model's guess, fitted to other people. The standard is this program's own. It is no licence to practise: local policy and the people who grant it decide.", Spacing)), nil
}
