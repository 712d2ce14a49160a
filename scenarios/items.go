package scenarios

import "slices"

// Items is a file of items for a quiz: questions with their keys, each
// option explained. An item is a whole question; how items are chosen,
// shuffled and spaced is not said here.
type Items struct {
	ID           string
	Unit         string // of [Units]
	Title        string
	Note         string // for authors
	Singles      []SingleBest
	Orders       []Ordering
	Concordances []Concordance

	Source []byte
	File   string
}

// Units are the parts of the job that items belong to, in the order in which
// they are learnt.
var Units = []string{"line", "mix", "sums", "watch", "respond", "bridge"}

// ItemLevels are how hard an item can be.
var ItemLevels = []string{"first", "middle", "advanced"}

// ItemHead is what every kind of item says of itself.
type ItemHead struct {
	ID        string
	Objective string // what an answer shows
	Level     string // of [ItemLevels]
	Critical  bool   // no points elsewhere make up for a wrong answer
	Sources   []string
	Views     []View // where sources disagree: what each of them holds

	at Pos
}

// View is one side of a disagreement between sources.
type View struct {
	Holds string
	By    string
}

// SingleBest asks for the one best of three to five options.
type SingleBest struct {
	ItemHead
	Stem    string
	LeadIn  string
	Options []Option // in the order of the file
	Decides string   // the policy limit that the key follows; empty when no policy does
}

// Option is one answer that is offered.
type Option struct {
	Says    string
	Key     bool   // right under any policy
	When    string // as written: what the deciding limit must be for it to be right
	Because string // why it is right or wrong

	when condition
	at   Pos
}

// Key is the right option under a policy, by its place from 0. The policy
// matters only where the item says that a limit decides; there the key is -1
// without one.
func (s *SingleBest) Key(p *Policy) int {
	if s.Decides == "" {
		return slices.IndexFunc(s.Options, func(o Option) bool { return o.Key })
	}
	if p == nil {
		return -1
	}
	if right := rightOf(s.Options, deciders[s.Decides].reads(p)); len(right) == 1 {
		return right[0]
	}
	return -1
}

// CanBeRight says whether an option is the key under some policy.
func (s *SingleBest) CanBeRight(option int) bool {
	return s.Options[option].Key || s.Options[option].When != ""
}

// Ordering asks for steps to be put in order.
type Ordering struct {
	ItemHead
	Stem    string
	LeadIn  string
	Steps   []OrderStep // in a right order
	May     [][]string  // pairs of steps that may also stand the other way round
	Because string
	Decides string // the policy limit that some steps hang on; empty when no policy does

	only []OrderStep // conditions as the file gives them, joined with Steps by the check
}

// OrderStep is a step with the name that pairs refer to it by.
type OrderStep struct {
	ID, Says string
	When     string // as written: what the deciding limit must be for the step to belong; empty when it always does

	when condition
}

// Under is the item with the steps that belong under a policy. Without one
// the steps that hang on a policy are left out.
func (o *Ordering) Under(p *Policy) *Ordering {
	under := *o
	under.Steps = stepsOf(o, func(c condition) bool { return p != nil && c.holds(deciders[o.Decides].reads(p)) })
	return &under
}

func stepsOf(o *Ordering, holds func(condition) bool) []OrderStep {
	return slices.DeleteFunc(slices.Clone(o.Steps), func(s OrderStep) bool { return s.When != "" && !holds(s.when) })
}

// swaps says whether two steps may stand in either order.
func (o *Ordering) swaps(a, b string) bool {
	return slices.ContainsFunc(o.May, func(p []string) bool {
		return len(p) == 2 && (p[0] == a && p[1] == b || p[0] == b && p[1] == a)
	})
}

// Held counts the pairs of steps whose order matters, and those of them that
// an answer has in the right order. Where a policy decides it is asked of what
// [Ordering.Under] gives. The answer gives each step's place in the
// file, from 0; a step that is left out, given twice or unknown holds no pair.
func (o *Ordering) Held(answer []int) (held, all int) {
	place := make([]int, len(o.Steps))
	for i := range place {
		place[i] = -1
	}
	for at, step := range answer {
		switch {
		case step < 0 || step >= len(place):
		case place[step] == -1:
			place[step] = at
		default:
			place[step] = -2 // given twice
		}
	}
	for i := range o.Steps {
		for j := i + 1; j < len(o.Steps); j++ {
			if o.swaps(o.Steps[i].ID, o.Steps[j].ID) {
				continue
			}
			all++
			if place[i] >= 0 && place[i] < place[j] {
				held++
			}
		}
	}
	return held, all
}

// Right says whether an answer has every step once, in an order that is right.
func (o *Ordering) Right(answer []int) bool {
	sorted := slices.Clone(answer)
	slices.Sort(sorted)
	for i, step := range sorted {
		if i != step {
			return false
		}
	}
	held, all := o.Held(answer)
	return len(answer) == len(o.Steps) && held == all
}

// Concordance asks what new information does to a hypothesis, on a scale of
// five, and compares the answer with those of a panel.
type Concordance struct {
	ItemHead
	Vignette    string
	Hypothesis  string
	Information string
	Panel       string // who they are and how they were asked
	Votes       []int  // for each of [ConcordanceScale]
	Because     string
}

// ConcordanceScale is what the five points say that the information makes of
// the hypothesis. Wording and scoring follow the description of script
// concordance tests by Charlin and others (Teach Learn Med 2000;12:189).
var ConcordanceScale = []string{"much less likely", "less likely", "neither more nor less likely", "more likely", "much more likely"}

// LeastPanel is the panel under which scores are too uncertain to be used:
// reliability was 0.62 with 5 panel members and 0.70 with 10 (Gagnon, Charlin
// and others 2005, Med Educ 39:284).
const LeastPanel = 10

// Credit is what an answer earns: the panel's votes for it, divided by those
// for the option that most of them chose (aggregate scoring, Charlin 2000).
func (c *Concordance) Credit(option int) float64 {
	most := slices.Max(c.Votes)
	if option < 0 || option >= len(c.Votes) || most == 0 {
		return 0
	}
	return float64(c.Votes[option]) / float64(most)
}
