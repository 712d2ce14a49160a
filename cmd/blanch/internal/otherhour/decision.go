package otherhour

import (
	"fmt"
	"slices"
	"strings"

	"blanch/sim"
)

// Kind says what a decision is about. The zero value is invalid.
type Kind uint8

// Kinds of decision.
const (
	Act      Kind = iota + 1 // one act by itself
	Look                     // looks at one line, one after the other
	Line                     // a cannula placed and tried
	Antidote                 // drawn up and given
	Drip                     // a drip made up, hung and started
	Answer                   // what an alarm led to
)

// Decision is an act with those that follow because of it.
type Decision struct {
	N       int // as listed, from 1
	Kind    Kind
	Within  int      // number of the decision that it follows because of; 0
	At      sim.Time // when it began
	Ends    sim.Time
	What    string // in words
	Found   string // what its look found, as text; empty for nothing
	Alarm   string // the alarm that it answers, as text
	own     []int  // acts of its own
	acts    []int  // with those that follow, in the order they were said
	episode int    // that its look opens; -1
}

// Follows is how many acts follow because of it.
func (d *Decision) Follows() int { return len(d.acts) - len(d.own) }

// decide groups the acts. Every act belongs to one decision of its own, and
// to those which that one lies within.
func (h *Hour) decide() {
	within := make([]int, len(h.acts)) // what an act lies within: index into heads; -1
	for i := range within {
		within[i] = -1
	}
	var heads []Decision
	head := func(d Decision) {
		for _, i := range d.acts {
			if within[i] < 0 {
				within[i] = len(heads)
			}
		}
		heads = append(heads, d)
	}
	for n, ep := range h.episodes {
		switch {
		case ep.round >= 0:
			r := h.rounds[ep.round]
			head(Decision{
				Kind: Look, What: "look at " + r.line, Found: h.firstFinding(r),
				own: r.acts, acts: append(slices.Clone(r.acts), ep.followers...), episode: n,
			})
		case len(ep.followers) > 1:
			head(Decision{Kind: Answer, What: "answer the alarm", Alarm: ep.alarm, acts: ep.followers, episode: -1})
		}
	}
	if drip := h.drip(within); len(drip) > 1 {
		head(Decision{Kind: Drip, What: "make up the drip and start it", acts: drip, episode: -1})
	}
	done := make([]bool, len(h.acts))
	for i := range heads {
		h.number(&heads[i], 0)
		for _, a := range heads[i].own {
			done[a] = true
		}
	}
	leaves := map[int][]Decision{}
	for i := range h.acts {
		if done[i] {
			continue
		}
		d := h.leaf(i, within, done)
		for _, a := range d.own {
			done[a] = true
		}
		leaves[within[i]] = append(leaves[within[i]], d)
	}
	h.list(heads, leaves)
}

// list numbers the decisions in the order of time; those that follow because
// of another stand under it.
func (h *Hour) list(heads []Decision, leaves map[int][]Decision) {
	type top struct {
		d    Decision
		head int
	}
	var tops []top
	for i, d := range heads {
		tops = append(tops, top{d, i})
	}
	for _, d := range leaves[-1] {
		tops = append(tops, top{d, -1})
	}
	slices.SortStableFunc(tops, func(a, b top) int { return a.d.acts[0] - b.d.acts[0] })
	for _, t := range tops {
		h.number(&t.d, 0)
		h.Decisions = append(h.Decisions, t.d)
		if t.head < 0 {
			continue
		}
		n := t.d.N
		for _, under := range leaves[t.head] {
			h.number(&under, n)
			h.Decisions = append(h.Decisions, under)
		}
	}
}

// number completes a decision that comes next in the list.
func (h *Hour) number(d *Decision, within int) {
	d.N, d.Within = len(h.Decisions)+1, within
	d.At = h.acts[d.acts[0]].At
	d.Ends = d.At
	for _, i := range d.acts {
		d.Ends = max(d.Ends, h.acts[i].ends)
	}
}

// leaf is the decision that begins with an act and has none under it.
func (h *Hour) leaf(i int, within []int, done []bool) Decision {
	for _, kind := range []struct {
		kind Kind
		take func(in func(int) bool, from int) []int
	}{{Line, h.placing}, {Antidote, h.giving}, {Look, h.looking}} {
		in := func(j int) bool { return !done[j] && within[j] == within[i] }
		own := kind.take(in, i)
		if len(own) == 0 {
			continue
		}
		d := Decision{Kind: kind.kind, own: own, acts: own, episode: -1}
		line := subject(h.acts[i].action)
		switch kind.kind {
		case Line:
			d.What = "place a cannula in " + line
		case Antidote:
			d.What = "draw up the antidote and give it"
		case Look:
			d.What = "look at " + line
		}
		return d
	}
	return Decision{Kind: Act, What: h.acts[i].said, own: []int{i}, acts: []int{i}, episode: -1}
}

// next are the acts from one on that may belong together; what answers a
// call, or gives a sum, may come between.
func (h *Hour) next(in func(int) bool, from int, fits func(a *act) bool) []int {
	var out []int
	for i := from; i < len(h.acts); i++ {
		a := &h.acts[i]
		switch {
		case ofCalls(a.action):
			continue
		case !in(i) || !fits(a):
			return out
		case len(out) > 0 && a.At > h.acts[out[len(out)-1]].ends+pause:
			return out
		}
		out = append(out, i)
	}
	return out
}

// placing is a cannula from the choice of the vein to what proves it.
func (h *Hour) placing(in func(int) bool, from int) []int {
	first := h.acts[from].action
	if !slices.Contains([]string{"examine", "scan", "choose"}, first.Name) {
		return nil
	}
	vein, inserted := subject(first), false
	own := h.next(in, from, func(a *act) bool {
		inserted = inserted || a.action.Name == "insert"
		return a.action.Name == "insert" || subject(a.action) == vein &&
			slices.Contains([]string{"examine", "scan", "choose", "blood-return", "flush", "view-tip", "secure"}, a.action.Name)
	})
	if !inserted {
		return nil
	}
	return own
}

// giving is the antidote from the kit to the tissue.
func (h *Hour) giving(in func(int) bool, from int) []int {
	if h.acts[from].action.Name != "draw-up" {
		return nil
	}
	return h.next(in, from, func(a *act) bool {
		return slices.Contains([]string{"draw-up", "give", "infiltrate", "antidote-through"}, a.action.Name)
	})
}

// looking is what is left of a round of looks.
func (h *Hour) looking(in func(int) bool, from int) []int {
	for _, r := range h.rounds {
		if i := slices.Index(r.acts, from); i >= 0 && h.acts[from].action.Name != "flush" {
			return slices.DeleteFunc(slices.Clone(r.acts[i:]), func(j int) bool { return !in(j) })
		}
	}
	return nil
}

// drip is what was done from the first mix to the first start of a pump.
func (h *Hour) drip(within []int) []int {
	of := []string{"mix", "label", "check-bag", "hang", "prime", "connect", "connect-primed", "set", "check-pump", "start", "give"}
	var out []int
	for i := range h.acts {
		a := &h.acts[i]
		if within[i] >= 0 || !slices.Contains(of, a.action.Name) || len(out) == 0 && a.action.Name != "mix" {
			continue
		}
		out = append(out, i)
		if a.action.Name == "start" && !a.refused {
			return out
		}
	}
	return nil
}

// firstFinding is what a round of looks found first, as text.
func (h *Hour) firstFinding(r round) string {
	for _, i := range r.acts {
		if h.acts[i].saw == r.saw {
			return strings.TrimSuffix(h.acts[i].saws, ".")
		}
	}
	return ""
}

// Decision is the one of that number.
func (h *Hour) Decision(n int) (*Decision, error) {
	if n < 1 || n > len(h.Decisions) {
		switch len(h.Decisions) {
		case 0:
			return nil, fmt.Errorf("there is no decision %d: nothing was decided in this hour", n)
		case 1:
			return nil, fmt.Errorf("there is no decision %d: there is only decision 1", n)
		}
		return nil, fmt.Errorf("there is no decision %d: they are numbered from 1 to %d", n, len(h.Decisions))
	}
	return &h.Decisions[n-1], nil
}
