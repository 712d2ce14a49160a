package scenarios

import (
	"fmt"
	"slices"
	"strings"

	"blanch/sim"
)

// Fragment is what several cases have in common, under one name: sums that
// are asked, and the rules that judge what every such case has in it.
type Fragment struct {
	ID         string
	Note       string // for authors: what it is for, and what a case must have for it
	Objectives []Objective
	Ask        []sim.Question
	Rules      []Rule

	Source []byte
	File   string
}

// Fragments are the fragments that a case may use.
type Fragments struct {
	Found map[string]*Fragment // by name; nil where the file has faults, which are told with that file
	Names []string             // of all there are, for messages
}

// LoadFragment reads a fragment, as [LoadCase] reads a case. Its rules are
// compiled with each case that uses it.
func LoadFragment(file string, src []byte) (*Fragment, []Complaint) {
	r := newReader(fragmentShape.fields())
	for _, w := range limitRows {
		r.owned = append(r.owned, w.Field)
	}
	var f fragmentFile
	if load(r, "fragment", file, src, fragmentShape, &f) {
		c := &Case{Objectives: f.Objectives, Rules: f.Rules}
		c.Ask = f.Ask
		r.checkObjectives(c)
		r.checkAsk(c)
		r.checkRules(c)
	}
	out, failed := r.done()
	if failed {
		return nil, out
	}
	f.File, f.Source = file, src
	return &f.Fragment, out
}

// Uses lists the fragments that a case names, sound or not, so that they can
// be found before the case is loaded.
func Uses(src []byte) []string {
	ignore := func(Complaint) {}
	s, ok := newSource("", src, ignore)
	if !ok || !strings.Contains(string(s.text), "\nuses:") {
		return nil
	}
	root := parse(s, ignore)
	if root == nil || root.kind != mapping {
		return nil
	}
	var names []string
	for i, key := range root.keys {
		if key.text != "uses" {
			continue
		}
		for _, item := range root.values[i].items {
			if item.kind == scalar && isName(item.text) {
				names = append(names, item.text)
			}
		}
	}
	return names
}

// join puts into a case what its fragments bring. What the case says itself
// under the same name stands; what it leaves out is left out.
func (r *reader) join(c *Case, at Fragments) {
	var objectives []Objective
	var sums []sim.Question
	var rules []Rule
	from := map[string]string{} // the fragment that brought a rule or a sum
	for i, id := range c.Uses {
		path := fmt.Sprintf("uses/%d", i+1)
		if !r.sound(path) {
			r.partial = true
			continue
		}
		f, found := at.Found[id]
		switch {
		case slices.Contains(c.Uses[:i], id):
			r.twice(path, fmt.Sprintf("uses/%d", slices.Index(c.Uses, id)+1), "this fragment")
			continue
		case !found:
			r.partial = true
			r.known(path, "fragment", id, at.Names)
			continue
		case f == nil:
			r.partial = true
			r.at(path, Error, "faulty-fragment", fmt.Sprintf("the fragment %s has faults", quoted(id)), "the faults in its own file put right")
			continue
		}
		for _, o := range f.Objectives {
			if !slices.ContainsFunc(slices.Concat(c.Objectives, objectives), func(have Objective) bool { return have.ID == o.ID }) {
				objectives = append(objectives, o)
			}
		}
		once := func(what, name string, own bool) bool {
			if own || slices.Contains(c.LeavesOut, name) {
				from[name] = id
				return false
			}
			if first, twice := from[name]; twice {
				r.at(path, Error, "given-twice", fmt.Sprintf("the %s %s is in %s and in %s", what, quoted(name), quoted(first), quoted(id)),
					"a "+what+" of that name in the case itself, or its name under leaves out")
				return false
			}
			from[name] = id
			return true
		}
		for _, q := range f.Ask {
			if once("sum", q.ID, slices.ContainsFunc(c.Ask, func(own sim.Question) bool { return own.ID == q.ID })) {
				sums = append(sums, q)
			}
		}
		for _, u := range f.Rules {
			if once("rule", u.ID, slices.ContainsFunc(c.Rules, func(own Rule) bool { return own.ID == u.ID })) {
				rules = append(rules, u)
			}
		}
	}
	if !r.partial {
		brought := make([]string, 0, len(from))
		for name := range from {
			brought = append(brought, name)
		}
		slices.Sort(brought)
		for i, name := range c.LeavesOut {
			if path := fmt.Sprintf("leaves out/%d", i+1); r.sound(path) {
				r.known(path, "rule", name, brought)
			}
		}
	}
	c.Ask = append(sums, c.Ask...)
	c.Rules = append(rules, c.Rules...)
	for _, o := range objectives {
		if slices.ContainsFunc(c.Rules, func(u Rule) bool { return u.Serves == o.ID }) {
			c.Objectives = append(c.Objectives, o)
		}
	}
}
