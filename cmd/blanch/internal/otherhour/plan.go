package otherhour

import (
	"slices"

	"blanch/sim"
)

// item is one act that is to be played.
type item struct {
	order  int // between items due at one time
	action sim.Action
	sound  bool     // it was possible in the hour as it was, or nobody knows yet
	due    sim.Time // Never until what it follows has been played
	asked  sim.Time // when it was first due
	was    sim.Time // when it began in the hour as it was; Never
	moved  bool     // by the move
	leads  []link
	look   *lookOf // for a look
	check  bool    // the look is over: did it find something?
}

// link is what follows an item, with the learner's own delay.
type link struct {
	to        *item
	wait      sim.Time
	fromStart bool // counted from the beginning of what it follows, not from its end
}

// lookOf is what a look meant in the hour as it was.
type lookOf struct {
	line    string
	episode int  // that its round opened; -1
	saw     bool // its round found something, or led to a judgement
	first   bool // it was this look of the round that did
}

// answer is what a finding leads to.
type answer struct {
	line  string
	items []*item
	first link // from the finding; to is nil when nothing follows
	began bool

	judged bool // the line was judged to be leaking, and no look had found anything
	stands bool // it is given at its time wherever the line leaks, found or not
}

// plan is an hour laid out to be played.
type plan struct {
	h       *Hour
	items   []*item // the whole of it, those that were left out excepted
	answers []answer
}

// spacing leaves room between the orders of acts for those that are added.
const spacing = 4

// plan lays out the hour with one decision moved.
func (h *Hour) plan(m Move) *plan {
	p := &plan{h: h, answers: make([]answer, len(h.episodes))}
	byAct := make([]*item, len(h.acts))
	for i := range h.acts {
		a := &h.acts[i]
		byAct[i] = &item{order: spacing * i, action: a.action, sound: !a.refused, due: a.At, was: a.At, asked: sim.Never}
	}
	for _, r := range h.rounds {
		for _, i := range r.acts {
			byAct[i].look = &lookOf{line: r.line, episode: r.episode, saw: r.saw != sim.Never, first: h.acts[i].ends == r.saw}
		}
	}
	if m.Way == To && m.At == h.Decisions[m.N-1].At {
		m = Move{}
	}
	var d *Decision
	gone := func(int) bool { return false } // no longer where it was
	if m.N > 0 {
		d = &h.Decisions[m.N-1]
		if m.Way == To || m.Way == LeftOut {
			gone = func(i int) bool { return slices.Contains(d.acts, i) }
		}
	}
	for n, ep := range h.episodes {
		if ep.round < 0 {
			continue
		}
		chain := ep.followers
		if d == nil || d.episode != n || m.Way != To {
			chain = slices.DeleteFunc(slices.Clone(chain), gone)
		}
		p.answer(byAct, n, chain)
		p.answers[n].judged = h.rounds[ep.round].judged
		p.answers[n].stands = d == nil || d.episode != n
	}
	for i, it := range byAct {
		if m.Way != LeftOut || !gone(i) {
			p.items = append(p.items, it)
		}
	}
	switch m.Way {
	case To:
		p.shift(byAct, d, m.At)
	case As:
		p.exchange(byAct, m)
	case Also:
		p.again(d, m.At)
	case Add:
		p.add(byAct, m)
	}
	return p
}

// answer lets acts follow the finding of an episode, and each other with the
// learner's own delays. Where some are gone the rest close up.
func (p *plan) answer(byAct []*item, n int, chain []int) {
	ep := p.h.episodes[n]
	an := &p.answers[n]
	an.line = ep.line
	for k, i := range chain {
		it := byAct[i]
		it.due = sim.Never
		an.items = append(an.items, it)
		if k == 0 {
			an.first = link{to: it, wait: p.h.acts[ep.followers[0]].At - ep.at}
			continue
		}
		l := p.h.link(ep.followers[slices.Index(ep.followers, i)-1], i)
		l.to = it
		if chain[k-1] != ep.followers[slices.Index(ep.followers, i)-1] && l.fromStart {
			l.wait, l.fromStart = 0, false
		}
		byAct[chain[k-1]].leads = append(byAct[chain[k-1]].leads, l)
	}
}

// link is how an act followed another in the hour as it was.
func (h *Hour) link(before, i int) link {
	a, b := &h.acts[before], &h.acts[i]
	if b.At >= a.ends {
		return link{wait: b.At - a.ends}
	}
	return link{wait: b.At - a.At, fromStart: true}
}

// shift lets a decision begin at another time; what follows it shifts too.
func (p *plan) shift(byAct []*item, d *Decision, at sim.Time) {
	acts := d.acts
	if d.episode >= 0 {
		acts = d.own // the rest follows the finding
	}
	p.string(byAct, acts, at)
	for _, i := range d.acts {
		byAct[i].moved = true
	}
}

// string lets acts follow each other from a time on.
func (p *plan) string(byAct []*item, acts []int, at sim.Time) {
	byAct[acts[0]].due = at
	for k, i := range acts[1:] {
		l := p.h.link(acts[k], i)
		l.to = byAct[i]
		byAct[i].due = sim.Never
		byAct[acts[k]].leads = append(byAct[acts[k]].leads, l)
	}
}

// again does a decision's own acts at another time as well.
func (p *plan) again(d *Decision, at sim.Time) {
	acts := d.own
	if len(acts) == 0 {
		acts = d.acts
	}
	copies := make([]*item, len(p.h.acts))
	for _, i := range acts {
		c := &item{order: spacing*i - 1, action: p.h.acts[i].action, sound: true, asked: sim.Never, was: sim.Never, moved: true}
		if p.h.acts[i].looks() {
			c.look = &lookOf{line: subject(c.action), episode: -1}
		}
		copies[i] = c
		p.items = append(p.items, c)
	}
	p.string(copies, acts, at)
}

// add does an act that was not done.
func (p *plan) add(byAct []*item, m Move) {
	it := &item{order: spacing * len(p.h.acts), action: m.Does, sound: true, due: m.At, asked: sim.Never, was: sim.Never, moved: true}
	if slices.Contains(looks, m.Does.Name) {
		it.look = &lookOf{line: subject(m.Does), episode: -1}
	}
	p.items = append(p.items, it)
	if m.act < 0 {
		return
	}
	before := byAct[m.act]
	it.order, it.due = before.order-1, before.due
	take := func(l *link) {
		if l.to == before {
			l.to = it
			it.leads = append(it.leads, link{to: before})
		}
	}
	for i := range p.answers {
		take(&p.answers[i].first)
	}
	for _, other := range byAct {
		for i := range other.leads {
			take(&other.leads[i])
		}
	}
}

// exchange gives one act another argument. Where another vein is chosen, what
// was done to the line in the first is done to the line in the other.
func (p *plan) exchange(byAct []*item, m Move) {
	it := byAct[m.act]
	was, is := subject(it.action), subject(m.Does)
	it.action, it.sound, it.moved = m.Does, true, true
	if it.look != nil {
		look := *it.look
		look.line = is
		it.look = &look
	}
	if m.Does.Name != "choose" || was == is {
		return
	}
	for _, later := range byAct[m.act+1:] {
		rename(later, was, is)
	}
}

// rename lets an act be done to another line.
func rename(it *item, was, is string) {
	for i, arg := range it.action.Args {
		if (arg.Kind == "line" || arg.Kind == "vein") && arg.Word == was {
			it.action.Args = slices.Clone(it.action.Args)
			it.action.Args[i].Word = is
		}
	}
	if it.look != nil && it.look.line == was {
		look := *it.look
		look.line = is
		it.look = &look
	}
}
