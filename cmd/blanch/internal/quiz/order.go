package quiz

import (
	"fmt"
	"slices"
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
	for _, said := range free(a.order.May, place) {
		out = append(out, told("%s", said))
	}
	out = append(out, told("%s", a.order.Because))
	for _, step := range a.Order.Steps {
		if step.When != "" {
			out = append(out, told("The step %q is done only %s.", strings.TrimSuffix(step.Says, "."), when(a.order.Decides, step.When)))
		}
	}
	return append(out, a.disagreement(p, a.order.Decides)...)
}

// free says which steps may stand in another order: those that may all change
// places with each other together, and what is left pair by pair.
func free(may [][]string, place map[string]int) []string {
	swaps := func(a, b string) bool {
		return slices.ContainsFunc(may, func(p []string) bool { return p[0] == a && p[1] == b || p[0] == b && p[1] == a })
	}
	var out []string
	told := map[string]bool{}
	for _, pair := range may {
		if place[pair[0]] == 0 || place[pair[1]] == 0 || told[pair[0]+" "+pair[1]] {
			continue
		}
		set := []string{pair[0], pair[1]}
		for _, other := range may {
			for _, step := range other {
				if place[step] > 0 && !slices.Contains(set, step) && !slices.ContainsFunc(set, func(s string) bool { return !swaps(s, step) }) {
					set = append(set, step)
				}
			}
		}
		for _, p := range may {
			if slices.Contains(set, p[0]) && slices.Contains(set, p[1]) {
				told[p[0]+" "+p[1]] = true
			}
		}
		if len(set) == 2 {
			out = append(out, fmt.Sprintf("%d and %d may also change places.", place[set[0]], place[set[1]]))
			continue
		}
		var numbers []string
		for _, step := range set {
			numbers = append(numbers, fmt.Sprint(place[step]))
		}
		last := len(numbers) - 1
		out = append(out, fmt.Sprintf("%s and %s may stand in any order.", strings.Join(numbers[:last], ", "), numbers[last]))
	}
	return out
}
