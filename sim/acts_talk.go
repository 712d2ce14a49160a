package sim

import (
	"fmt"
	"slices"
	"strings"

	"blanch/sim/drug"
	"blanch/sim/sentence"
)

// Speaking with others: sending for help, calls, handover.
func talkActs() []Spec {
	return []Spec{
		{
			Name: "send-for", Sentence: "send for {person}", Step: 11, Holds: Voice, Takes: 10 * Second,
			Does:       "ask someone to come to the bed",
			Impossible: "they are here, on the way, or cannot be reached yet",
			refuse: func(e *Engine, r *running) string {
				switch {
				case r.with.here:
					return r.with.ID + " is at the bed"
				case r.with.comes != Never:
					return r.with.ID + " is on the way"
				}
				return e.reachable(r.with)
			},
			done: func(e *Engine, r *running) { r.with.comes = r.ends + r.with.Arrives; e.done(r, Entry{}) },
		},
		{
			Name: "call", Sentence: "call {person} about {facts} asking for {request}", Step: 11, Holds: Voice, Takes: 90 * Second,
			Does:       "tell them these facts and ask for that; they can decline, and you can call again",
			Impossible: "they cannot be reached yet",
			refuse:     func(e *Engine, r *running) string { return e.reachable(r.with) },
			done:       func(e *Engine, r *running) { e.called(r) },
		},
		{
			Name: "hand-over", Sentence: "hand over to {person} giving {facts}", Step: 11, Holds: Voice, Takes: 2 * Minute, Bedside: true,
			Does:       "give the patient to whoever takes over; it ends the case",
			Impossible: "they are not at the bed, or it is too early to hand over",
			refuse: func(e *Engine, r *running) string {
				switch {
				case e.now < e.c.Relief:
					return "nobody takes over before " + e.c.Relief.Clock()
				case !r.with.here:
					return r.with.ID + " is not at the bed; send for them first"
				}
				return ""
			},
			done: func(e *Engine, r *running) {
				e.requests = append(e.requests, RequestRecord{
					Person: r.with.ID, Facts: r.act.list("facts"), Request: "handover", Granted: true, At: r.ends, Entry: len(e.journal),
				})
				e.done(r, Entry{})
				e.end(r.ends)
			},
		},
		{
			Name: "answer", Sentence: "answer {call}", Step: 7, Holds: Hands, Lasts: "some minutes", Away: true,
			Does:       "go and see to it yourself; you cannot look at this arm meanwhile",
			Impossible: "it does not want you, or it is over",
			takes: func(e *Engine, a Action) Time {
				o := e.open(a.word("call"))
				return e.c.Calls[o.call].Takes
			},
			refuse: refuseCall, decided: true,
			begin: func(e *Engine, r *running) { e.open(r.act.word("call")).closed = true },
			done: func(e *Engine, r *running) {
				e.note(Entry{At: r.ends, Kind: Replied, Act: r.act.Name, Subject: r.act.word("call"), Word: e.call(r.act.word("call")).Answered})
				e.done(r, Entry{})
			},
		},
		{
			Name: "decline", Sentence: "decline {call}", Step: 7, Holds: Voice, Takes: 10 * Second,
			Does:       "say that you cannot come and who could",
			Impossible: "it does not want you, or it is over",
			refuse:     refuseCall, decided: true,
			begin: func(e *Engine, r *running) { e.open(r.act.word("call")).closed = true },
			done: func(e *Engine, r *running) {
				e.note(Entry{At: r.ends, Kind: Replied, Act: r.act.Name, Subject: r.act.word("call"), Word: e.call(r.act.word("call")).Declined})
				e.done(r, Entry{})
			},
		},
	}
}

func refuseCall(e *Engine, r *running) string {
	if e.open(r.act.word("call")) == nil {
		return fmt.Sprintf("nothing called %q wants you now; open: %s", r.act.word("call"), orNone(e.Vocabulary("call")))
	}
	return ""
}

// open is the call of that name that still waits; nil when none does.
func (e *Engine) open(id string) *openCall {
	for i := range e.calls {
		if o := &e.calls[i]; !o.closed && e.c.Calls[o.call].ID == id {
			return o
		}
	}
	return nil
}

func (e *Engine) call(id string) CallOn {
	for _, c := range e.c.Calls {
		if c.ID == id {
			return c
		}
	}
	return CallOn{}
}

// reachable says why a person cannot be spoken to; empty when they can.
func (e *Engine) reachable(p *personState) string {
	if e.now < p.away.Until {
		return p.away.Heard
	}
	return ""
}

// called decides what comes of a call: granted, or declined with the reason.
func (e *Engine) called(r *running) {
	p, facts, request := r.with, r.act.list("facts"), r.act.word("request")
	var missing []string
	for _, need := range p.Needs {
		if !slices.Contains(facts, need) {
			missing = append(missing, need)
		}
	}
	rec := RequestRecord{Person: p.ID, Facts: facts, Request: request, At: r.ends, Entry: len(e.journal)}
	switch {
	case !slices.Contains(p.Grants, request):
		rec.Reply = "That is not mine to give. " + e.whoGrants(request)
	case len(missing) > 0:
		rec.Reply = fmt.Sprintf("I cannot decide on that. Call again and tell me: %s.", strings.Join(missing, ", "))
	default:
		rec.Granted = true
		rec.Reply = e.grant(p, request, r.ends)
	}
	e.requests = append(e.requests, rec)
	e.note(Entry{At: r.ends, Kind: Replied, Act: r.act.Name, Subject: p.ID, What: request, Word: rec.Reply, Value: truth(rec.Granted)})
	e.done(r, Entry{})
}

// whoGrants says who could give what was asked.
func (e *Engine) whoGrants(request string) string {
	for _, p := range e.people {
		if slices.Contains(p.Grants, request) {
			return fmt.Sprintf("Ask the %s.", p.ID)
		}
	}
	return "Nobody here can give that."
}

// grant does what was asked and says so.
func (e *Engine) grant(p *personState, request string, at Time) string {
	switch request {
	case "central-access":
		if e.central.granted != Never {
			return "That is under way already."
		}
		e.askCentral(at)
		return "Yes. Someone will come to place a central line; I cannot promise the minute."
	case "antidote":
		if e.beyondBlockers() {
			return "Yes, but no alpha blocker undoes vasopressin. Nitrate on the skin and warmth, or terbutaline, as your protocol says, now."
		}
		return "Yes. Give phentolamine as your protocol says, now."
	case "review", "surgical-opinion":
		if !p.here && p.comes == Never {
			p.comes = at + p.Arrives
		}
		return "Yes. I am coming."
	}
	return "Go on as your protocol says, and call again if it changes."
}

// beyondBlockers says that something has leaked which no alpha blocker undoes.
func (e *Engine) beyondBlockers() bool {
	for _, s := range e.sites {
		if s.depot == nil {
			continue
		}
		for _, of := range s.depot.Of[:s.depot.Drugs] {
			if of.Receptor == drug.V1 {
				return true
			}
		}
	}
	return false
}

// arrive brings whoever is due at `at`.
func (e *Engine) arrive(at Time) {
	for _, p := range e.people {
		if p.comes == at {
			p.here, p.comes = true, Never
			e.note(Entry{At: at, Kind: Came, Subject: p.ID, Word: e.greets(p)})
			return
		}
	}
}

// greets is what somebody says on coming who was called to look; empty for
// anybody else.
func (e *Engine) greets(p *personState) string {
	for _, r := range e.requests {
		if r.Person == p.ID && r.Granted && (r.Request == "review" || r.Request == "surgical-opinion") {
			return "I am here. Tell me what you see and what you have done."
		}
	}
	return ""
}

func truth(b bool) float64 {
	if b {
		return 1
	}
	return 0
}

// FactNames are the facts that a call or a handover can give.
func FactNames() []string { return append([]string(nil), sentence.Facts...) }

// RequestNames are what a call can ask for.
func RequestNames() []string { return append([]string(nil), sentence.Requests...) }
