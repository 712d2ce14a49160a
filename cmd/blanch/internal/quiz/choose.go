package quiz

import (
	"fmt"
	"strings"

	"blanch/cmd/blanch/internal/session"
	"blanch/scenarios"
	"blanch/sim/quantity"
)

// letter reads one of n letters from a on.
func letter(word string, n int) (int, bool) {
	word = strings.Trim(word, "().")
	if len(word) != 1 || word[0] < 'a' || int(word[0]-'a') >= n {
		return 0, false
	}
	return int(word[0] - 'a'), true
}

func (s *Sitting) single(word string) ([]session.Line, error) {
	a := s.now
	at, ok := letter(word, len(a.place))
	if !ok {
		return []session.Line{fault("answer with a letter from A to %c", 'A'+len(a.place)-1)}, nil
	}
	chosen := a.place[at]
	right := a.Single.Key(s.o.Policy) == chosen
	return s.end(right, fmt.Sprintf("%c", 'A'+at), a.explainSingle(s.o.Policy, chosen))
}

// explainSingle explains every option; chosen is -1 for none.
func (a *asked) explainSingle(p *scenarios.Policy, chosen int) []session.Line {
	key := a.Single.Key(p)
	out := []session.Line{told("%s", verdict(key == chosen, a.Critical))}
	for at, i := range a.place {
		o := a.Single.Options[i]
		mark := ""
		switch {
		case i == key && i == chosen:
			mark = " (right, and your answer)"
		case i == key:
			mark = " (right)"
		case i == chosen:
			mark = " (your answer)"
		}
		out = append(out, told("  %c. %s%s", 'A'+at, strings.TrimSuffix(o.Says, "."), mark))
		out = append(out, told("     %s", o.Because))
		if o.When != "" {
			out = append(out, told("     Right %s.", when(a.Single.Decides, o.When)))
		}
	}
	return append(out, a.disagreement(p, a.Single.Decides)...)
}

// when says under which policies something is so.
func when(limit, condition string) string {
	if condition == "otherwise" {
		return "under any other policy"
	}
	return fmt.Sprintf("under a policy whose %s is this: %s", limit, strings.TrimPrefix(condition, "is "))
}

// disagreement shows what sources hold, and by whose policy it was marked.
func (a *asked) disagreement(p *scenarios.Policy, limit string) []session.Line {
	var out []session.Line
	if limit != "" {
		out = append(out, told("This was marked by the policy in force, %s. Policies differ here; your own unit's decides.", p.Title))
	}
	if len(a.Views) > 0 {
		out = append(out, told("Where sources disagree:"))
		for _, v := range a.Views {
			out = append(out, told("  - %s: %s", v.By, v.Holds))
		}
	}
	return out
}

// verdict is right or not, and what that means when it is critical.
func verdict(right, critical bool) string {
	switch {
	case right:
		return "Right."
	case critical:
		return "Not right. This question is critical: a miss here can harm."
	}
	return "Not right."
}

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

// unanswered explains a question that was passed.
func (a *asked) unanswered(p *scenarios.Policy) []session.Line {
	switch {
	case a.Numbers != nil:
		return append([]session.Line{told("Passed: it counts as missed.")}, a.working(0, "")...)
	case a.Single != nil:
		return append([]session.Line{told("Passed: it counts as missed.")}, a.explainSingle(p, -1)[1:]...)
	case a.Order != nil:
		return append([]session.Line{told("Passed: it counts as missed.")}, a.explainOrder(p, nil)[1:]...)
	}
	return append([]session.Line{told("Passed: it counts as missed.")}, a.explainConcordance(-1)...)
}
