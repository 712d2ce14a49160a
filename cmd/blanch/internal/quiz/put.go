package quiz

import (
	"fmt"
	"strings"

	"blanch/cmd/blanch/internal/session"
	"blanch/scenarios"
	"blanch/sim/sum"
)

// put is the question as it is read. Whole leaves out how to answer it.
func (a *asked) put(p *scenarios.Policy, plain, whole bool) []session.Line {
	switch {
	case a.Numbers != nil:
		return a.putNumbers(plain, whole)
	case a.Single != nil:
		return a.putSingle(p, whole)
	case a.Order != nil:
		return a.putOrder(p, whole)
	}
	return a.putConcordance(whole)
}

func (a *asked) putNumbers(plain, whole bool) []session.Line {
	var out []session.Line
	last := len(a.drawn.Stem) - 1
	for _, par := range a.drawn.Stem[:last] {
		out = append(out, told("%s", par))
	}
	for _, sh := range a.drawn.Shown {
		switch {
		case plain || sh.Drawn == nil:
			if sh.Words != "" {
				out = append(out, told("%s", sh.Words))
			}
		default:
			for _, r := range sh.Drawn {
				out = append(out, row(r))
			}
		}
	}
	out = append(out, told("%s", a.drawn.Stem[last]))
	if whole || a.drawn.Device == "" || a.stage == sum.SetDevice {
		return out
	}
	return append(out, a.wanted()...)
}

// wanted says what was typed in the stages before, and what this one asks for.
func (a *asked) wanted() []session.Line {
	var out []session.Line
	if a.typed.SetUp != "" {
		out = append(out, told("Your set-up: %s", a.typed.SetUp))
	}
	if a.typed.Computed != "" {
		out = append(out, told("You computed: %s", a.drawn.Sum.Mark(a.typed.Computed).Answer.Value))
	}
	return append(out, a.asksFor())
}

func (a *asked) asksFor() session.Line {
	switch a.stage {
	case sum.SetUp:
		return told("Set it up with numbers only, as in 2 x 30 / 5, so that it comes to the answer's unit. Enter passes over this; an answer with its unit ends the question.")
	case sum.Compute:
		return told("What does it come to, with its unit and not yet rounded? Enter passes over this.")
	}
	asks := deviceOf(a.drawn.Device).asks
	if !a.drawn.Sum.Unit.IsZero() {
		asks += ", with its unit"
	}
	return told("%s?", asks)
}

// Recap is the question being put, in words and without its options, to stand
// above what is said about the answer: the steps can then be held against the
// numbers as they were given.
func (s *Sitting) Recap() []session.Line {
	if s.now == nil {
		return nil
	}
	a, out := s.now, s.title()
	switch {
	case a.Numbers != nil:
		return append(out, a.putNumbers(true, true)...)
	case a.Single != nil:
		return append(out, told("%s", a.Single.Stem), told("%s", a.Single.LeadIn))
	case a.Order != nil:
		return append(out, told("%s", a.order.Stem), told("%s", a.order.LeadIn))
	}
	c := a.Concordance
	return append(out, told("%s", c.Vignette), told("If you were thinking: %s", c.Hypothesis), told("and then you learn: %s", c.Information))
}

// device is how the last stage of a sum is named, and asked for.
type device struct{ name, asks string }

func deviceOf(name string) device {
	switch name {
	case "syringe":
		return device{"measure", "What do you measure in the syringe"}
	case "drip chamber":
		return device{"count the drops", "What do you count at the drip chamber"}
	case "label":
		return device{"write the label", "What do you write on the label"}
	}
	return device{"set the " + name, "What do you set on the " + name}
}

func (a *asked) putSingle(p *scenarios.Policy, whole bool) []session.Line {
	out := []session.Line{told("%s", a.Single.Stem)}
	out = append(out, inForce(p, a.Single.Decides)...)
	out = append(out, told("%s", a.Single.LeadIn))
	for at, i := range a.place {
		out = append(out, told("  %c. %s", 'A'+at, a.Single.Options[i].Says))
	}
	if whole {
		return out
	}
	return append(out, told("Answer with a letter."))
}

func (a *asked) putOrder(p *scenarios.Policy, whole bool) []session.Line {
	out := []session.Line{told("%s", a.order.Stem)}
	out = append(out, inForce(p, a.order.Decides)...)
	out = append(out, told("%s", a.order.LeadIn))
	example := make([]string, len(a.place))
	for at, i := range a.place {
		out = append(out, told("  %d. %s", at+1, a.order.Steps[i].Says))
		example[at] = fmt.Sprint(len(a.place) - at)
	}
	if whole {
		return out
	}
	return append(out, told("Answer with all the numbers in order, as in %s.", strings.Join(example, " ")))
}

func (a *asked) putConcordance(whole bool) []session.Line {
	c := a.Concordance
	out := []session.Line{
		told("%s", c.Vignette),
		told("If you were thinking: %s", c.Hypothesis),
		told("and then you learn: %s", c.Information),
		told("this makes it"),
	}
	for i, point := range scenarios.ConcordanceScale {
		out = append(out, told("  %c. %s", 'A'+i, point))
	}
	if whole {
		return out
	}
	return append(out, told("Answer with a letter."))
}

// inForce says what the policy says on the limit that decides.
func inForce(p *scenarios.Policy, limit string) []session.Line {
	if limit == "" || p == nil {
		return nil
	}
	for _, l := range p.Limits() {
		if l.Key == limit {
			return []session.Line{told("Policy in force, %s: %s: %s.", p.Title, l.Key, strings.TrimSuffix(l.Says, "."))}
		}
	}
	return nil
}
