package sim

import (
	"fmt"

	"blanch/sim/dose"
	"blanch/sim/quantity"
)

// raiseSums asks the sums that this action raises once it is done.
func (e *Engine) raiseSums(action string, at Time) {
	for _, q := range e.c.Ask {
		if q.When != action || e.sumAsked(q.ID) != nil {
			continue
		}
		key, ok := e.key(q, at)
		if !ok {
			continue
		}
		e.sums = append(e.sums, AnswerRecord{ID: q.ID, Sum: q.What, Key: key, Asked: at, At: Never, Entry: len(e.journal)})
		e.note(Entry{At: at, Kind: Asked, Subject: q.ID, Word: q.Text, Unit: q.Point})
	}
}

// key computes a sum from the engine's own state; false when nothing there
// answers it yet, and then it is not asked.
func (e *Engine) key(q Question, at Time) (quantity.Quantity, bool) {
	b, p := e.lastBag(false), e.firstConnected()
	switch q.What {
	case SumConcentration:
		if b != nil {
			return quantity.Of(b.Nominal, "mcg/mL"), true
		}
	case SumRate:
		if b != nil {
			return quantity.Of(dose.Rate(e.mcgMin(e.c.Order.Start), b.Nominal), "mL/h"), true
		}
	case SumRunOut:
		if p != nil && p.bag != nil && p.rate > 0 {
			return quantity.Of(dose.RunOutH(e.leftAt(p, at.Seconds()), p.rate), "h"), true
		}
	case SumFirstDrug:
		if p != nil && p.rate > 0 {
			return quantity.Of(dose.FirstDrugMin(p.site.column.DeadML(), p.rate), "min"), true
		}
	case SumDose:
		if p != nil && p.bag != nil {
			return quantity.Of(dose.Dose(p.rate, p.bag.Nominal), "mcg/min"), true
		}
	case SumAntidote:
		if s := e.lastBag(true); s != nil {
			return quantity.Of(s.VolumeML/2, "mL"), true
		}
	}
	return quantity.Quantity{}, false
}

// lastBag is the bag, or the syringe, made last.
func (e *Engine) lastBag(syringe bool) *bagState {
	for i := len(e.bags) - 1; i >= 0; i-- {
		if (e.bags[i].Drug == antidote) == syringe {
			return e.bags[i]
		}
	}
	return nil
}

func (e *Engine) firstConnected() *pumpState {
	for _, p := range e.pumps {
		if p.site != nil {
			return p
		}
	}
	return nil
}

func (e *Engine) sumAsked(id string) *AnswerRecord {
	for i := range e.sums {
		if e.sums[i].ID == id {
			return &e.sums[i]
		}
	}
	return nil
}

func (e *Engine) refuseSum(id string) string {
	s := e.sumAsked(id)
	switch {
	case s == nil:
		return fmt.Sprintf("no sum called %q was asked; open: %s", id, orNone(e.Vocabulary("sum")))
	case s.At != Never:
		return fmt.Sprintf("%s was answered already, with %s", id, s.Raw)
	}
	return ""
}

// answerSum keeps what was typed and what it could be read as. Whether it is
// right is for the marks to say.
func (e *Engine) answerSum(r *running) {
	s := e.sumAsked(r.act.word("sum"))
	s.Raw, s.At, s.Entry = r.act.word("text"), r.ends, len(e.journal)
	q, err := quantity.Parse(s.Raw)
	if err != nil {
		s.Fault = err.Error()
	} else {
		s.Given = q
	}
	e.note(Entry{At: r.ends, Kind: Answered, Act: r.act.Name, Subject: s.ID, Word: s.Raw})
}
