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

// Study is how far the units of study are, for a face that lets one be chosen.
type Study struct {
	Units []string // a row each, all of them together first
	Due   string   // how many questions wait
	Lines []session.Line
}

// StudyOf is the study of a learner.
func StudyOf(tasks []Task, p *progress.Progress, now time.Time) (Study, error) {
	lines, err := Standing(tasks, p, now)
	if err != nil {
		return Study{}, err
	}
	bank, err := BankOf(tasks)
	if err != nil {
		return Study{}, err
	}
	reviews, fresh := 0, 0
	for _, item := range p.Next(now, bank).Items {
		if item.New {
			fresh++
		} else {
			reviews++
		}
	}
	s := Study{Lines: lines, Units: []string{"0  all units, in the order of the job"}}
	switch {
	case reviews == 0 && fresh == 0:
		s.Due = "Nothing is due now, and today's share of new ones is done."
	case reviews == 0:
		s.Due = fmt.Sprintf("Nothing is due again; up to %d new ones today.", fresh)
	case fresh == 0:
		s.Due = fmt.Sprintf("%s due again today.", questionsAre(reviews))
	default:
		s.Due = fmt.Sprintf("%s due again today, and up to %d new ones.", questionsAre(reviews), fresh)
	}
	for i, u := range p.Units(now, bank) {
		s.Units = append(s.Units, fmt.Sprintf("%d  %s: %s", i+1, u.Unit, u.Numbers()))
	}
	return s, nil
}

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
			held = fmt.Sprintf(", up to %d today, critical ones and lower levels first", n)
		}
		out = append(out, told("  %s: %s%s", when, questions(due[d]), held))
	}
	for _, f := range p.Faults() {
		out = append(out, told("Note on your progress file: %s.", f))
	}
	return append(out, heading("What this says, and what it does not"),
		told("%s When something comes again is a model's guess, fitted to other people. The standard is this program's own. It is no licence to practise: local policy and the people who grant it decide.", Spacing)), nil
}
