package quiz

import (
	"fmt"
	"strings"

	"blanch/cmd/blanch/internal/session"
	"blanch/scenarios"
)

func (s *Sitting) ordering(text string) ([]session.Line, error) {
	a := s.now
	answer, err := a.readOrder(text)
	if err != nil {
		return []session.Line{fault("%v", err)}, nil
	}
	return s.end(a.order.Right(answer), text, a.explainOrder(s.o.Policy, answer))
}

// readOrder reads the places as they were shown, and gives the steps.
func (a *asked) readOrder(text string) ([]int, error) {
	n := len(a.place)
	words := strings.FieldsFunc(text, func(r rune) bool { return r == ' ' || r == ',' || r == ';' || r == '-' || r == '>' })
	if len(words) == 1 && len(words[0]) == n && n <= 9 {
		words = strings.Split(words[0], "")
	}
	want := fmt.Errorf("give each number from 1 to %d once, in the order you would do the steps", n)
	if len(words) != n {
		return nil, want
	}
	var out []int
	seen := map[int]bool{}
	for _, w := range words {
		at := 0
		if _, err := fmt.Sscanf(w, "%d", &at); err != nil || fmt.Sprint(at) != w || at < 1 || at > n || seen[at] {
			return nil, want
		}
		seen[at] = true
		out = append(out, a.place[at-1])
	}
	return out, nil
}

// explainOrder shows a right order; answer is nil for none.
func (a *asked) explainOrder(p *scenarios.Policy, answer []int) []session.Line {
	right := a.order.Right(answer)
	out := []session.Line{told("%s", verdict(right, a.Critical))}
	if held, all := a.order.Held(answer); !right && answer != nil {
		out = append(out, told("Of %d pairs of steps whose order matters, you have %d in the right order.", all, held))
	}
	out = append(out, told("A right order, with the numbers from above:"))
	at := map[int]int{}
	for place, i := range a.place {
		at[i] = place + 1
	}
	place := map[string]int{}
	for i, step := range a.order.Steps {
		place[step.ID] = at[i]
		out = append(out, told("  %d. %s", at[i], step.Says))
	}
	for _, pair := range a.order.May {
		if place[pair[0]] > 0 && place[pair[1]] > 0 {
			out = append(out, told("%d and %d may also stand the other way round.", place[pair[0]], place[pair[1]]))
		}
	}
	out = append(out, told("%s", a.order.Because))
	for _, step := range a.Order.Steps {
		if step.When != "" {
			out = append(out, told("The step %q belongs %s.", step.Says, when(a.order.Decides, step.When)))
		}
	}
	return append(out, a.disagreement(p, a.order.Decides)...)
}
