package scenarios

import (
	"fmt"
	"slices"
	"strings"
)

// LoadItems reads a file of items, as [LoadCase] reads a case. What only
// concerns how an item is worded are warnings, see lint_items.go.
func LoadItems(file string, src []byte) (*Items, []Complaint) {
	r := newReader(itemsShape.fields())
	var f itemsFile
	if load(r, "items", file, src, itemsShape, &f) {
		r.checkItems(&f.Items)
	}
	out, failed := r.done()
	if failed {
		return nil, out
	}
	f.File, f.Source = file, src
	return &f.Items, out
}

const (
	singles      = "single best answer"
	orders       = "ordering"
	concordances = "script concordance"
)

func (r *reader) checkItems(f *Items) {
	if len(f.Singles)+len(f.Orders)+len(f.Concordances) == 0 && len(r.complaints) == 0 {
		r.at("items", Error, "no-items", "there are no items in the file", "items under "+singles+", "+orders+" or "+concordances)
	}
	seen := map[string]string{}
	each := func(kind string, h *ItemHead, texts []placed) {
		path := join(kind, h.ID)
		if first, twice := seen[h.ID]; twice {
			r.twice(path, first, "an item of this name")
			return
		}
		seen[h.ID] = path
		r.checkHead(path, h)
		r.lintNotation(path, append(h.texts(), texts...))
	}
	for i := range f.Singles {
		s := &f.Singles[i]
		each(singles, &s.ItemHead, s.texts())
		path := join(singles, s.ID)
		r.checkSingle(path, s)
		r.lintSingle(path, s)
	}
	for i := range f.Orders {
		o := &f.Orders[i]
		each(orders, &o.ItemHead, o.texts())
		r.checkOrdering(join(orders, o.ID), o)
	}
	for i := range f.Concordances {
		c := &f.Concordances[i]
		each(concordances, &c.ItemHead, c.texts())
		r.checkConcordance(join(concordances, c.ID), c)
	}
	r.lintPositions(f)
}

func (r *reader) checkHead(path string, h *ItemHead) {
	if at := join(path, "objective"); r.sound(at) {
		for _, v := range vague {
			if strings.HasPrefix(strings.ToLower(h.Objective)+" ", v+" ") {
				r.at(at, Warning, "vague-objective", fmt.Sprintf("the objective of %s begins with %s, which nobody can see done", quoted(h.ID), quoted(v)), "a verb that can be seen done, such as choose, find, set, decide, tell")
			}
		}
	}
	if at := join(path, "views"); r.sound(at) && len(h.Views) == 1 {
		r.at(at, Error, "one-view", fmt.Sprintf("%s shows one view alone", quoted(h.ID)), "two views or more where sources disagree, or none")
	}
}

// checkSingle holds an item to having one right answer: one key, or, where a
// policy decides, one option under every value that its limit can have.
func (r *reader) checkSingle(path string, s *SingleBest) {
	at := join(path, "options")
	if !r.sound(at) {
		return
	}
	if n := len(s.Options); n < 3 || n > 5 {
		r.at(at, Error, "option-count", fmt.Sprintf("%s has %s", quoted(s.ID), counted(n, "option")), "three to five options")
		return
	}
	seen := map[string]int{}
	for i, o := range s.Options {
		plain := bare(o.Says)
		if first, twice := seen[plain]; twice {
			also := s.Options[first].at
			r.complain(Complaint{Code: "duplicate-option", Pos: o.at, Said: "an option of these words is there already", Allowed: "options that differ", Also: &also})
			continue
		}
		seen[plain] = i
	}
	if r.broken[join(path, "policy decides")] {
		return
	}
	if s.Decides == "" {
		r.checkKey(at, s)
		return
	}
	r.checkDecides(path, s)
}

// checkKey wants one key where no policy decides.
func (r *reader) checkKey(at string, s *SingleBest) {
	keys := 0
	for _, o := range s.Options {
		if o.Key {
			keys++
		}
		if o.When != "" {
			r.complain(Complaint{
				Code: "unsettled-key", Pos: o.at, Said: "an option is right under some policies, and no limit is named that decides",
				Allowed: "policy decides: sites (or another limit) in the item, or key: true at one option",
			})
			return
		}
	}
	if keys != 1 {
		r.at(at, Error, "one-key", fmt.Sprintf("%s has %s", quoted(s.ID), counted(keys, "key")), "key: true at one option, and at no other")
	}
}

// checkDecides wants one right option under any value of the limit.
func (r *reader) checkDecides(path string, s *SingleBest) {
	whole := true
	var conditions []condition
	for i := range s.Options {
		o := &s.Options[i]
		at := fmt.Sprintf("%s/options/%d/", path, i+1)
		if o.Key {
			r.at(at+"key", Error, "unsettled-key", "an option is the key under any policy, and the item says that a policy decides", "right when: and what the limit must be, or no policy decides")
			whole = false
		}
		if o.When == "" {
			continue
		}
		c, err := readCondition(s.Decides, o.When)
		if err != nil {
			r.at(at+"right when", Error, "bad-condition", err.Error(), conditionsOn(s.Decides))
			whole = false
			continue
		}
		o.when = c
		conditions = append(conditions, c)
	}
	r.wantViews(path, s.ID)
	if !whole {
		return
	}
	for _, p := range pose(s.Decides, conditions) {
		if n := len(rightOf(s.Options, p.reading)); n != 1 {
			r.at(join(path, "policy decides"), Error, "unsettled-key",
				fmt.Sprintf("%s has %s where %s is %s", quoted(s.ID), counted(n, "right option"), quoted(s.Decides), p.says),
				"conditions of which one holds whatever the limit is; right when: otherwise holds where none of the others does")
			return
		}
	}
	if len(conditions) < 2 {
		r.at(join(path, "policy decides"), Error, "unsettled-key", fmt.Sprintf("one option of %s is right under every policy", quoted(s.ID)), "key: true and no policy decides, or two options with right when")
	}
}

// conditionsOn says what can be asked of a limit.
func conditionsOn(limit string) string {
	d := deciders[limit]
	switch d.kind {
	case "number":
		return "is, at most, over, at least or under a value in a unit such as " + d.unit + "; unsaid; otherwise"
	case "range":
		return "has or has no value in a unit such as " + d.unit + "; otherwise"
	case "list":
		return "has or has no " + strings.Join(d.words, ", ") + "; unsaid; otherwise"
	case "choice":
		return "is " + strings.Join(d.words, ", ") + "; unsaid; otherwise"
	}
	return "has or has no drug; or a drug, then is, at most, over, at least or under a value per " + d.unit + ", or unsaid; otherwise"
}

// wantViews complains where the key follows a policy and nobody's view is
// shown.
func (r *reader) wantViews(path, id string) {
	if _, given := r.where[join(path, "views")]; !given {
		r.at(path, Error, "one-view", fmt.Sprintf("%s follows the policy and shows no views", quoted(id)), "views: two or more, each with what it holds and who holds it")
	}
}

// checkConcordance holds a panel to what its votes can bear.
func (r *reader) checkConcordance(path string, c *Concordance) {
	at := join(path, "votes")
	if !r.sound(at) {
		return
	}
	if len(c.Votes) != len(ConcordanceScale) {
		r.at(at, Error, "panel-votes", fmt.Sprintf("%s has %s", quoted(c.ID), counted(len(c.Votes), "vote count")), "five, one for each point of the scale")
		return
	}
	all := 0
	for _, v := range c.Votes {
		all += v
	}
	switch {
	case all == 0:
		r.at(at, Error, "panel-votes", fmt.Sprintf("nobody voted on %s", quoted(c.ID)), "the votes of a panel that was asked")
	case all < LeastPanel:
		r.at(at, Warning, "small-panel", fmt.Sprintf("%s voted on %s", counted(all, "panel member"), quoted(c.ID)), fmt.Sprintf("%d or more; scores of a smaller panel are too uncertain", LeastPanel))
	}
	if slices.Contains(c.Votes, all) && all > 0 {
		r.at(at, Warning, "unanimous-panel", fmt.Sprintf("the panel on %s agreed to a member", quoted(c.ID)), "an item that experts judge differently; one with a right answer is a single best answer")
	}
}

// counted is a number of things in words.
func counted(n int, what string) string {
	switch n {
	case 0:
		return "no " + what
	case 1:
		return "1 " + what
	}
	return fmt.Sprintf("%d %ss", n, what)
}
