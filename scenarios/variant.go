package scenarios

import (
	"fmt"

	"blanch/sim"
)

// Change is one way in which a walk-through differs from the one it is like.
// It replaces every step with a given sentence, or every step of a stretch
// of time, by the steps of Do; with none they are left out.
type Change struct {
	InsteadOf string   // a sentence, as in the steps it is taken from
	From, To  sim.Time // a stretch: from the first step timed at or after From to before the first at or after To
	Do        []Step
	Pos       Pos
}

var changeShape = shape[Change]{name: "change", rows: []row[Change]{
	may("instead of", line, func(c *Change) *string { return &c.InsteadOf },
		"Every step with this sentence is replaced.", "draw back from left-cephalic-forearm"),
	may("from", span(timeSays), func(c *Change) *sim.Time { return &c.From },
		"Every step from the first that is timed at this or later is replaced.", "33 min"),
	may("to", span(timeSays), func(c *Change) *sim.Time { return &c.To },
		"As far as the first step that is timed at this or later, which stays.", "110 min"),
	may("do", steps, func(c *Change) *[]Step { return &c.Do },
		"What is done in their place; nothing when left out.", "[then: pull left-cephalic-forearm]"),
}}

// vary makes the steps of the walk-throughs that are like another, which
// must stand above them.
func (r *reader) vary(walks []Walk) {
	byID := map[string][]Step{}
	var names []string
	for i := range walks {
		w := &walks[i]
		path := "walk-throughs/" + w.ID
		switch _, own := r.where[path+"/steps"]; {
		case w.Like == "" && !own && !r.broken[path+"/steps"] && !r.broken[path+"/like"]:
			r.at(path, Error, "missing-field", quoted(w.ID)+" has neither steps nor a walk-through that it is like", "steps: and a list, or like: and the name of a walk-through above")
		case w.Like != "" && own:
			r.at(path+"/steps", Error, "two-ways", quoted(w.ID)+" has steps of its own and is like another", "changes under but:")
		case w.Like == "" && len(w.But) > 0:
			r.at(path+"/but", Error, "missing-field", quoted(w.ID)+" has changes, but nothing that they change", "like: and the name of a walk-through above")
		case w.Like != "" && r.sound(path+"/like") && r.known(path+"/like", "walk-through", w.Like, names):
			w.Steps = append([]Step(nil), byID[w.Like]...)
			for j, c := range w.But {
				if at := fmt.Sprintf("%s/but/%d", path, j+1); r.sound(at) || !r.broken[at] {
					w.Steps = r.change(w.Steps, c, at)
				}
			}
			r.stepOrder(w.Steps)
		}
		byID[w.ID] = w.Steps
		names = append(names, w.ID)
	}
}

// change makes one change to a list of steps.
func (r *reader) change(steps []Step, c Change, at string) []Step {
	const allowed = `"instead of:" and a sentence, or "from:" and "to:"`
	_, from := r.where[at+"/from"]
	_, to := r.where[at+"/to"]
	if (c.InsteadOf == "") != (from && to) || from != to {
		r.at(at, Error, "change-unclear", "this change does not say in one way which steps it replaces", allowed)
		return steps
	}
	var out []Step
	replaced := false
	within := false
	for _, s := range steps {
		hit := c.InsteadOf != "" && s.Said == c.InsteadOf
		if from && s.When == AtTime {
			within = s.At >= c.From && s.At < c.To
		}
		hit = hit || within
		if !hit {
			out = append(out, s)
			continue
		}
		if !replaced || c.InsteadOf != "" {
			out = append(out, c.Do...)
		}
		replaced = true
	}
	if !replaced {
		r.at(at, Error, "nothing-to-change", "no step above is replaced by this change", "a sentence, or a stretch of time, of the walk-through that this one is like")
	}
	return out
}
