package quiz

import (
	"fmt"
	"strings"

	"blanch/cmd/blanch/internal/session"
	"blanch/scenarios"
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
			out = append(out, told("     This is right %s.", when(a.Single.Decides, o.When)))
		}
	}
	return append(out, a.disagreement(p, a.Single.Decides)...)
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
		return "Not right. " + harms
	}
	return "Not right."
}

const harms = "This question is critical: a miss here can harm."

// unanswered explains a question that was passed.
func (a *asked) unanswered(p *scenarios.Policy) []session.Line {
	said := told("Passed: it counts as missed.")
	if a.Critical {
		said = told("Passed: it counts as missed. %s", harms)
	}
	out := []session.Line{said}
	switch {
	case a.Numbers != nil:
		return append(out, a.working(0, "")...)
	case a.Single != nil:
		return append(out, a.explainSingle(p, -1)[1:]...)
	case a.Order != nil:
		return append(out, a.explainOrder(p, nil)[1:]...)
	}
	return append(out, a.explainConcordance(-1)...)
}
