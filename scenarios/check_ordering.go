package scenarios

import (
	"fmt"
	"slices"
	"strings"
)

// checkOrdering holds an ordering to steps whose order can be told.
func (r *reader) checkOrdering(path string, o *Ordering) {
	r.lintLeadIn(join(path, "lead-in"), o.LeadIn)
	at := join(path, "steps")
	if !r.sound(at) {
		return
	}
	if n := len(o.Steps); n < 3 || n > 8 {
		r.at(at, Error, "step-count", fmt.Sprintf("%s has %s", quoted(o.ID), counted(n, "step")), "three to eight steps")
		return
	}
	var ids []string
	for i, s := range o.Steps {
		ids = append(ids, s.ID)
		for _, before := range o.Steps[:i] {
			if bare(before.Says) == bare(s.Says) {
				also := r.pos(join(at, before.ID))
				r.complain(Complaint{Code: "duplicate-option", Pos: r.pos(join(at, s.ID)), Said: "a step of these words is there already", Allowed: "steps that differ", Also: &also})
			}
		}
	}
	if !r.checkSwaps(join(path, "may swap"), o, ids) || !r.checkOnly(path, o, ids) {
		return
	}
	if _, all := o.Held(nil); all == 0 {
		r.at(join(path, "may swap"), Error, "nothing-to-order", fmt.Sprintf("every two steps of %s may swap", quoted(o.ID)), "steps of which at least two must keep their order")
	}
}

// checkOnly joins steps with the conditions under which they belong, and
// wants steps whose order can be told under any value of the limit.
func (r *reader) checkOnly(path string, o *Ordering, ids []string) bool {
	at := join(path, "only when")
	if r.broken[join(path, "policy decides")] || r.broken[at] {
		return false
	}
	if o.Decides == "" || len(o.only) == 0 {
		if (o.Decides == "") != (len(o.only) == 0) {
			r.at(path, Error, "unsettled-key", fmt.Sprintf("%s names a limit that decides, or steps that hang on one, and not both", quoted(o.ID)), "policy decides: and only when: together, or neither")
			return false
		}
		return true
	}
	r.wantViews(path, o.ID)
	whole := true
	var conditions []condition
	for _, only := range o.only {
		here := join(at, only.ID)
		if !r.known(here, "step", only.ID, ids) {
			whole = false
			continue
		}
		c, err := readCondition(o.Decides, only.When)
		if err == nil && c.how == "otherwise" {
			err = fmt.Errorf("a step has no other options for %s to be held against", quoted("otherwise"))
		}
		if err != nil {
			r.at(here, Error, "bad-condition", err.Error(), strings.TrimSuffix(conditionsOn(o.Decides), "; otherwise"))
			whole = false
			continue
		}
		step := &o.Steps[slices.Index(ids, only.ID)]
		step.When, step.when = only.When, c
		conditions = append(conditions, c)
	}
	if !whole {
		return false
	}
	for _, p := range pose(o.Decides, conditions) {
		under := Ordering{Steps: stepsOf(o, func(c condition) bool { return c.holds(p.reading) }), May: o.May}
		if _, all := under.Held(nil); len(under.Steps) < 3 || all == 0 {
			r.at(join(path, "policy decides"), Error, "unsettled-key",
				fmt.Sprintf("%s has too few steps to put in order where %s is %s", quoted(o.ID), quoted(o.Decides), p.says), "three steps or more whose order can be told, whatever the limit is")
			return false
		}
	}
	return true
}

// checkSwaps wants pairs of steps that can swap: not those with a step
// between them that has to stay between.
func (r *reader) checkSwaps(path string, o *Ordering, ids []string) bool {
	whole := true
	for i, pair := range o.May {
		at := fmt.Sprintf("%s/%d", path, i+1)
		if len(pair) != 2 || pair[0] == pair[1] {
			r.at(at, Error, "bad-swap", "this is not a pair of steps", "two steps by their names: [mark, tell]")
			whole = false
			continue
		}
		if !r.known(at, "step", pair[0], ids) || !r.known(at, "step", pair[1], ids) {
			whole = false
		}
	}
	if !whole {
		return false
	}
	// before[i][j]: i comes before j in every right order.
	n := len(ids)
	before := make([][]bool, n)
	for i := range before {
		before[i] = make([]bool, n)
		for j := i + 1; j < n; j++ {
			before[i][j] = !o.swaps(ids[i], ids[j])
		}
	}
	for k := range n {
		for i := range n {
			for j := range n {
				before[i][j] = before[i][j] || before[i][k] && before[k][j]
			}
		}
	}
	for i, pair := range o.May {
		a, b := slices.Index(ids, pair[0]), slices.Index(ids, pair[1])
		if before[min(a, b)][max(a, b)] {
			r.at(fmt.Sprintf("%s/%d", path, i+1), Error, "bad-swap",
				fmt.Sprintf("%s and %s can never swap: a step that stays between them keeps them apart", quoted(pair[0]), quoted(pair[1])), "the pairs with that step as well, or not this pair")
			whole = false
		}
	}
	return whole
}
