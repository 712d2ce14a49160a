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
	out := []session.Line{heading("Units of study, in the order of the job")}
	for _, s := range p.Units(now, bank) {
		out = append(out, told("  %s", s))
		if s.Seen > 0 {
			right := 0
			curve := p.Curve(s.Unit)
			for _, first := range curve {
				if first {
					right++
				}
			}
			out = append(out, told("    Answered so far: %d of %s. Right first time: %d of %s.", s.Seen, questions(s.Critical+s.Others), right, answers(len(curve))))
		}
	}
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
		out = append(out, told("  %s: %s", when, questions(due[d])))
	}
	for _, f := range p.Faults() {
		out = append(out, told("Note on your progress file: %s.", f))
	}
	return append(out, heading("What this says, and what it does not"),
		told("%s The chance that something is recalled is a model's, fitted to other people. Mastered means the standard of this program: each critical question right first time on %d different days, and %d in 10 of the others. It is no licence to practise: local policy and the people who grant it decide.",
			Spacing, review.CriticalDays, review.OthersOutOfTen)), nil
}

func answers(n int) string {
	if n == 1 {
		return "1 answer"
	}
	return fmt.Sprintf("%d answers", n)
}
