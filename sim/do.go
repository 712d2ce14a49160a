package sim

import (
	"cmp"
	"fmt"
	"slices"
	"strings"
)

// Lasts is how long an action takes when it begins now.
func (e *Engine) Lasts(a Action) Time {
	spec, known := byName[a.Name]
	switch {
	case !known:
		return 0
	case spec.takes != nil:
		return spec.takes(e, a)
	}
	return spec.Takes
}

// Do begins an action at the present time, or refuses it with the reason.
// It never moves time. The first entry it returns is Started or Refused. The
// entries are part of the journal and must not be changed.
func (e *Engine) Do(a Action) []Entry {
	from := len(e.journal)
	r, why := e.ready(a)
	if why != "" {
		e.note(Entry{At: e.now, Kind: Refused, Who: a.By, Act: a.Name, Said: e.sentence(a), Why: why})
		return e.since(from)
	}
	r.said = e.sentence(a)
	e.note(Entry{At: e.now, Kind: Started, Who: a.By, Act: a.Name, Said: r.said, Subject: r.subject()})
	takes := e.Lasts(a)
	r.ends = e.now + takes
	if r.spec.turn != nil {
		r.turn = r.ends - r.spec.turnAt
	}
	if r.spec.Holds != Instant {
		e.occupy(r)
	}
	if r.spec.begin != nil {
		r.spec.begin(e, r)
		e.settle(e.now)
	}
	if takes == 0 {
		e.finish(r)
	}
	return e.since(from)
}

// Possible says why an action could not begin now; empty when it could.
func (e *Engine) Possible(a Action) string {
	r, why := e.ready(a)
	if r != nil {
		e.forget(r)
	}
	return why
}

// ready checks everything that could make the action impossible.
func (e *Engine) ready(a Action) (*running, string) {
	spec, ok := byName[a.Name]
	if !ok {
		return nil, fmt.Sprintf("there is no action %q", a.Name)
	}
	if e.over {
		return nil, "the case has ended"
	}
	r := e.newAct(a, spec)
	why := e.whoCan(r)
	if why == "" {
		why = e.resolve(r)
	}
	if why == "" && spec.refuse != nil {
		why = spec.refuse(e, r)
	}
	if why != "" {
		e.forget(r)
		return nil, why
	}
	return r, ""
}

// whoCan checks that whoever is to act is here, able and free.
func (e *Engine) whoCan(r *running) string {
	if r.act.By != "" {
		p := e.person(r.act.By)
		switch {
		case p == nil:
			return fmt.Sprintf("there is nobody called %q; there are: %s", r.act.By, strings.Join(e.Vocabulary("person"), ", "))
		case !p.here:
			return fmt.Sprintf("%s is not at the bed; send for them first", p.ID)
		case !slices.Contains(r.spec.By, p.Role):
			return fmt.Sprintf("%s (%s) cannot be asked to do that", p.ID, p.Role)
		case p.busy != nil:
			return fmt.Sprintf("%s is busy until %s: %s", p.ID, p.busy.ends.Exact(), p.busy.act)
		}
		r.who = p
		return ""
	}
	if r.spec.Holds == Instant {
		return ""
	}
	if e.hands != nil && e.hands.spec.Away && (r.spec.Bedside || r.spec.Holds == Hands) {
		return fmt.Sprintf("you are away from the bed until %s: %s", e.hands.ends.Exact(), e.hands.act)
	}
	if r.spec.Holds == Hands && e.hands != nil {
		return fmt.Sprintf("your hands are busy until %s: %s", e.hands.ends.Exact(), e.hands.act)
	}
	if r.spec.Holds == Voice && e.voice != nil {
		return fmt.Sprintf("you are speaking until %s: %s", e.voice.ends.Exact(), e.voice.act)
	}
	return ""
}

// resolve finds the line, pump, bag and person that the sentence names.
func (e *Engine) resolve(r *running) string {
	for _, arg := range r.act.Args {
		switch arg.Kind {
		case "vein":
			if e.veinIndex(arg.Word) < 0 {
				return fmt.Sprintf("there is no vein called %q; on offer: %s", arg.Word, strings.Join(e.Vocabulary("vein"), ", "))
			}
		case "line":
			if r.site = e.lastSite(arg.Word); r.site == nil {
				if e.veinIndex(arg.Word) >= 0 {
					return fmt.Sprintf("there is no cannula in %s", arg.Word)
				}
				return fmt.Sprintf("there is no line called %q; there are: %s", arg.Word, orNone(e.Vocabulary("line")))
			}
		case "pump":
			if r.pump = e.pump(arg.Word); r.pump == nil {
				return fmt.Sprintf("there is no pump called %q; there are: %s", arg.Word, strings.Join(e.Vocabulary("pump"), ", "))
			}
		case "bag":
			if r.bag = e.bag(arg.Word); r.bag == nil {
				return fmt.Sprintf("there is no bag called %q; there are: %s", arg.Word, orNone(e.Vocabulary("bag")))
			}
		case "person":
			if r.with = e.person(arg.Word); r.with == nil {
				return fmt.Sprintf("there is nobody called %q; there are: %s", arg.Word, strings.Join(e.Vocabulary("person"), ", "))
			}
		}
	}
	return ""
}

// subject is what the journal files the action under.
func (r *running) subject() string {
	switch {
	case r.site != nil:
		return r.site.Subject
	case r.pump != nil:
		return r.pump.ID
	case r.bag != nil:
		return r.bag.ID
	case r.with != nil:
		return r.with.ID
	}
	for _, kind := range []string{"vein", "call", "sum", "arm"} {
		if w := r.act.word(kind); w != "" {
			return w
		}
	}
	return ""
}

// occupy holds hands or voice until the action ends.
func (e *Engine) occupy(r *running) {
	switch {
	case r.who != nil:
		r.who.busy = r
	case r.spec.Holds == Voice:
		e.voice = r
	default:
		e.hands = r
	}
	e.queue = append(e.queue, r)
}

// release frees what the action held.
func (e *Engine) release(r *running) {
	if i := slices.Index(e.queue, r); i >= 0 {
		e.queue = slices.Delete(e.queue, i, i+1)
	}
	if e.hands == r {
		e.hands = nil
	}
	if e.voice == r {
		e.voice = nil
	}
	for _, p := range e.people {
		if p.busy == r {
			p.busy = nil
		}
	}
}

// finish brings an action to its end.
func (e *Engine) finish(r *running) {
	e.release(r)
	why := e.prevented(r)
	switch {
	case why != "":
		if r.spec.broken != nil {
			r.spec.broken(e, r)
		}
		e.note(Entry{At: r.ends, Kind: NotDone, Who: r.act.By, Act: r.act.Name, Said: r.said, Subject: r.subject(), Why: why})
	case r.spec.done != nil:
		r.spec.done(e, r)
	default:
		e.done(r, Entry{})
	}
	if e.changed { // most acts only look or speak
		e.settle(r.ends)
	}
	if why == "" {
		e.cross(r)
		e.raiseSums(r.act.Name, r.ends)
	}
	e.forget(r)
}

// prevented says why an action that comes to its end cannot take effect: what
// someone else did meanwhile made it impossible. Empty when it can.
func (e *Engine) prevented(r *running) string {
	if !r.crossed || r.spec.decided || r.spec.refuse == nil {
		return ""
	}
	return r.spec.refuse(e, r)
}

// cross tells what others are doing that something was done under their hands.
func (e *Engine) cross(r *running) {
	for _, other := range e.queue {
		other.crossed = other.crossed || other.who != r.who
	}
}

// done notes that the action took effect; en carries what it showed.
func (e *Engine) done(r *running, en Entry) {
	en.At, en.Kind, en.Who, en.Act, en.Said = r.ends, Done, r.act.By, r.act.Name, r.said
	if en.Subject == "" {
		en.Subject = r.subject()
	}
	e.note(en)
}

// found notes one finding of an act of looking.
func (e *Engine) found(r *running, what, word string, value float64, unit string) {
	own := ""
	if r.site != nil && word == normalWords[what] {
		own = e.asFound(r.site, what)
	}
	e.note(Entry{
		At: r.ends, Kind: Found, Who: r.act.By, Act: r.act.Name, Subject: r.subject(),
		What: what, Word: cmp.Or(own, word), Value: value, Unit: unit, Own: own != "",
	})
}

// leaveOff breaks off what the learner's hands are doing.
func (e *Engine) leaveOff() {
	r := e.hands
	e.release(r)
	r.ends = e.now
	if r.spec.broken != nil {
		r.spec.broken(e, r)
	}
	e.note(Entry{At: e.now, Kind: LeftOff, Act: r.act.Name, Said: r.said, Subject: r.subject()})
	e.forget(r)
}

// HandsFree is when the learner's hands are free; not later than Now when
// they are.
func (e *Engine) HandsFree() Time {
	if e.hands == nil {
		return e.now
	}
	return e.hands.ends
}

// FreeFor is when whoever is to do the action has what it holds free again:
// hands, voice, and being at the bed. What is only said or decided waits for
// the learner to have finished. It is not later than Now when nothing stands
// in the way.
func (e *Engine) FreeFor(a Action) Time {
	at := e.now
	wait := func(r *running) {
		if r != nil {
			at = max(at, r.ends)
		}
	}
	spec, ok := byName[a.Name]
	switch {
	case !ok:
	case spec.Holds == Instant:
		wait(e.hands)
		wait(e.voice)
	case a.By != "":
		if p := e.person(a.By); p != nil {
			wait(p.busy)
		}
	case spec.Holds == Hands:
		wait(e.hands)
	default:
		wait(e.voice)
		if e.hands != nil && e.hands.spec.Away && spec.Bedside {
			wait(e.hands)
		}
	}
	return at
}

// Next is the next time at which the clock brings anything or a bag runs empty.
func (e *Engine) Next() Time {
	at, _ := e.clockwork()
	if p, _ := e.ahead(); p.what == emptied && p.t < at.Seconds() {
		at = FromSeconds(p.t)
	}
	return max(at, e.now)
}

func orNone(names []string) string {
	if len(names) == 0 {
		return "none yet"
	}
	return strings.Join(names, ", ")
}
