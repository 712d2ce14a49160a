package otherhour

import (
	"blanch/sim"
)

// Play plays the hour with one decision moved.
func (h *Hour) Play(m Move) Played { return h.play(h.plan(m), h.Seed) }

// player plays a plan.
type player struct {
	p      *plan
	e      *sim.Engine
	queue  []*item // due
	wrong  []sim.Entry
	leaks  map[string]bool // lines that leak in truth
	closed map[string]bool // lines whose leak has been answered
	out    Played
}

func (h *Hour) play(p *plan, seed uint64) Played {
	e, err := sim.New(&h.Case.Case, h.Place, seed)
	if err != nil {
		panic("a case that was played cannot be played: " + err.Error())
	}
	pl := &player{p: p, e: e, leaks: map[string]bool{}, closed: map[string]bool{}}
	for _, it := range p.items {
		if it.due < sim.Never {
			pl.ask(it)
		}
	}
	for {
		it := pl.next()
		if it == nil || it.due > h.until {
			break
		}
		pl.see(e.Advance(it.due))
		if it.check {
			pl.over(it)
		} else {
			pl.do(it)
		}
	}
	e.Advance(h.until)
	pl.out.Result = e.Result()
	pl.out.Sheet = h.marker.Mark(pl.out.Result)
	pl.undone()
	return pl.out
}

// ask puts an item into the queue.
func (pl *player) ask(it *item) {
	it.asked = min(it.asked, it.due)
	pl.queue = append(pl.queue, it)
}

// next takes the item that is due first: the end of a look before an act,
// then what was asked first, then in the order of the hour as it was.
func (pl *player) next() *item {
	best := -1
	for i, it := range pl.queue {
		if best < 0 || before(it, pl.queue[best]) {
			best = i
		}
	}
	if best < 0 {
		return nil
	}
	it := pl.queue[best]
	pl.queue = append(pl.queue[:best], pl.queue[best+1:]...)
	return it
}

func before(a, b *item) bool {
	switch {
	case a.due != b.due:
		return a.due < b.due
	case a.check != b.check:
		return a.check
	case a.asked != b.asked:
		return a.asked < b.asked
	}
	return a.order < b.order
}

// see keeps the findings of something wrong, and what began to leak.
func (pl *player) see(entries []sim.Entry) {
	for i := range entries {
		if wrong(&entries[i]) {
			pl.wrong = append(pl.wrong, entries[i])
		}
		if entries[i].Kind == sim.Hidden && entries[i].What == "leak begins" {
			pl.leaks[entries[i].Subject] = true
		}
	}
}

// do begins an act, or waits until hands and voice are free for it. Only what
// was possible in the hour as it was waits.
func (pl *player) do(it *item) {
	e := pl.e
	if it.sound && e.Possible(it.action) != "" {
		if free := e.FreeFor(it.action); free > e.Now() {
			it.due = free
			pl.ask(it)
			return
		}
	}
	now := e.Now()
	entries := e.Do(it.action)
	pl.see(entries)
	ends := now
	if entries[0].Kind == sim.Refused {
		if it.sound {
			pl.out.Skipped = append(pl.out.Skipped, Skipped{now, it.action.String(), entries[0].Why})
		}
	} else {
		ends = endOf(e, it.action)
		if now > it.asked {
			pl.out.Waited = append(pl.out.Waited, Waited{it.asked, now, it.action.String()})
		}
		if it.was < sim.Never && !it.moved {
			pl.out.sooner.add(it.was - now)
			pl.out.later.add(it.asked - it.was)
		}
		if it.look != nil {
			pl.ask(&item{order: it.order, action: it.action, due: ends, asked: sim.Never, look: it.look, moved: it.moved, check: true})
		}
	}
	for _, l := range it.leads {
		l.to.due = ends + l.wait
		if l.fromStart {
			l.to.due = now + l.wait
		}
		pl.ask(l.to)
	}
}

// over ends a look: what it found leads to its answer.
func (pl *player) over(it *item) {
	saw := false
	for i := len(pl.wrong) - 1; i >= 0 && pl.wrong[i].At == it.due; i-- {
		en := &pl.wrong[i]
		saw = saw || en.Act == it.action.Name && en.Who == it.action.By && en.Subject == it.look.line
	}
	if it.moved {
		pl.out.looked = true
		pl.out.saw = pl.out.saw || saw
	}
	n := it.look.episode
	if n >= 0 && it.look.first && pl.leaks[it.look.line] {
		an := &pl.p.answers[n]
		if !saw && !an.judged && an.stands {
			pl.out.blind = append(pl.out.blind, look{it.due, it.look.line})
		}
		saw = saw || an.judged || an.stands
	}
	if !saw {
		return
	}
	if n < 0 || pl.p.answers[n].began {
		if n = pl.unanswered(it.look); n < 0 {
			return
		}
	}
	an := &pl.p.answers[n]
	an.began = true
	pl.closed[it.look.line] = true
	if an.line != it.look.line {
		for _, follower := range an.items {
			rename(follower, an.line, it.look.line)
		}
	}
	if an.first.to != nil {
		an.first.to.due = it.due + an.first.wait
		pl.ask(an.first.to)
	}
}

// unanswered is the answer that a finding leads to which was not there in the
// hour as it was: the first that was not given yet.
func (pl *player) unanswered(look *lookOf) int {
	if look.saw || pl.closed[look.line] {
		return -1
	}
	for n := range pl.p.answers {
		if pl.p.h.episodes[n].round >= 0 && !pl.p.answers[n].began {
			return n
		}
	}
	return -1
}

// hadEnded is why an act was not come to.
const hadEnded = "the hour had ended"

// undone tells what was never come to.
func (pl *player) undone() {
	never := map[*item]bool{}
	for i := range pl.p.answers {
		if an := &pl.p.answers[i]; an.first.to != nil && !an.began {
			pl.out.Unanswered += len(an.items)
			for _, it := range an.items {
				never[it] = true
			}
		}
	}
	done := map[*item]bool{}
	for _, it := range pl.queue {
		done[it] = it.check
	}
	for _, it := range pl.p.items {
		if never[it] {
			continue
		}
		if it.asked == sim.Never || it.due > pl.p.h.until && !done[it] {
			pl.out.Skipped = append(pl.out.Skipped, Skipped{pl.p.h.until, it.action.String(), hadEnded})
		}
	}
}
