package scoring

import (
	"slices"

	"blanch/sim"
)

func (r *record) asked(request string) Moment {
	return r.request(func(q sim.RequestRecord) bool { return q.Request == request })
}

func (r *record) granted(request string) Moment { return r.grantedSince(request, momentAt(0)) }

func (r *record) grantedSince(request string, from Moment) Moment {
	return r.request(func(q sim.RequestRecord) bool {
		return q.Request == request && q.Granted && from.before(momentAt(q.At), true)
	})
}

func (r *record) told(role, fact string) bool { return r.toldSince(role, fact, momentAt(0)) }

func (r *record) toldSince(role, fact string, from Moment) bool {
	return r.request(func(q sim.RequestRecord) bool {
		return slices.Contains(q.Facts, fact) && (role == anyone || string(r.roleOf(q.Person)) == role) && from.before(momentAt(q.At), true)
	}).Known
}

func (r *record) handoverGave(fact string) bool {
	return r.request(func(q sim.RequestRecord) bool {
		return q.Request == handover && slices.Contains(q.Facts, fact)
	}).Known
}

// handover is what the records call a handover among the requests.
const handover = "handover"

// decided is the first time the learner said that this was the plan.
func (r *record) decided(plan string) Moment {
	return r.firstOf(r.done(actDecide, func(e *sim.Entry) bool { return e.Word == plan }), 0)
}

// orderMended is the first answer of a doctor to a question about an order
// that was not meant as written.
func (r *record) orderMended() Moment {
	if r.Case.Mended == nil {
		return Moment{}
	}
	return r.at(r.firstEntry(sim.Replied, func(e *sim.Entry) bool { return e.Act == actQuery && r.roleOf(e.Subject) == sim.Doctor }))
}

// request is the moment of the first call that fits.
func (r *record) request(fits func(q sim.RequestRecord) bool) Moment {
	for _, q := range r.Requests {
		if fits(q) {
			r.rests(q.Entry)
			return momentAt(q.At)
		}
	}
	return Moment{}
}

func (r *record) roleOf(person string) sim.Role {
	for _, p := range r.Place.People {
		if p.ID == person {
			return p.Role
		}
	}
	return ""
}

func (r *record) answeredCall(call string) bool { return r.ofCall(actAnswerCall, call) }
func (r *record) declinedCall(call string) bool { return r.ofCall(actDeclineCall, call) }

func (r *record) ofCall(act, call string) bool {
	return r.firstOf(r.done(act, func(e *sim.Entry) bool { return e.Subject == call }), 0).Known
}

func (r *record) lapsedCall(call string) bool {
	return r.at(r.firstEntry(sim.Lapsed, func(e *sim.Entry) bool {
		return e.Subject == call
	})).Known
}
