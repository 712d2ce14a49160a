package sim

import (
	"errors"
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
		key, working, ok := e.key(q, at)
		if !ok {
			continue
		}
		e.sums = append(e.sums, AnswerRecord{ID: q.ID, Sum: q.What, Key: key, Working: working, From: e.inputs(q, at), Asked: at, At: Never, Entry: len(e.journal)})
		if b, _ := e.about(q); q.What == SumConcentration {
			e.sums[len(e.sums)-1].Bag = b.ID
		}
		e.note(Entry{At: at, Kind: Asked, Subject: q.ID, Word: q.Text, Unit: q.Point})
	}
}

// key computes a sum from the engine's own state and says how; false when
// nothing there answers it yet, and then it is not asked.
func (e *Engine) key(q Question, at Time) (key quantity.Quantity, working string, ok bool) {
	n := func(v, step float64) string { return quantity.Number(quantity.Round(v, step)) }
	b, p := e.about(q)
	switch q.What {
	case SumConcentration:
		if b != nil {
			base, ml := e.base(b.agent), b.nominalML()
			amount := quantity.Round(float64(b.Nominal*ml), 0.001)
			return quantity.Of(b.Nominal, base+"/mL"), fmt.Sprintf("%s %s / %s mL, amount over labelled volume", quantity.Number(amount), base, n(ml, 0.1)), true
		}
	case SumRate:
		if b != nil {
			o, ordered := e.orderOf(b.Drug)
			if !ordered {
				o = e.order()
			}
			per := e.perMin(o.Start, o.Drug)
			return quantity.Of(dose.Rate(per, b.Nominal), "mL/h"), e.rateWorking(o, b.Nominal), true
		}
	case SumRunOut:
		if p != nil && p.bag != nil && p.rate > 0 {
			left := e.leftAt(p, at.Seconds())
			return quantity.Of(dose.RunOutH(left, p.rate), "h"), fmt.Sprintf("%s mL left / %s mL/h", n(left, 0.1), n(p.rate, 0.1)), true
		}
	case SumFirstDrug:
		if p != nil && p.rate > 0 {
			dead := p.site.column.DeadML()
			return quantity.Of(dose.FirstDrugMin(dead, p.rate), "min"), fmt.Sprintf("%s mL of dead volume / %s mL/h x 60", n(dead, 0.01), n(p.rate, 0.1)), true
		}
	case SumDose:
		if p != nil && p.bag != nil {
			base := e.base(p.bag.agent)
			return quantity.Of(dose.Dose(p.rate, p.bag.Nominal), base+"/min"), fmt.Sprintf("%s mL/h x %s %s/mL / 60", n(p.rate, 0.1), quantity.Number(legible(p.bag.Nominal)), base), true
		}
	case SumAntidote:
		if s := e.lastBag(true); s != nil {
			return quantity.Of(s.VolumeML/2, "mL"), fmt.Sprintf("half of %s mL", n(s.VolumeML, 0.1)), true
		}
	}
	return quantity.Quantity{}, "", false
}

// about is the bag that a sum is about, and the pump; nil where there is none.
func (e *Engine) about(q Question) (*bagState, *pumpState) {
	if q.Drug != "" {
		return e.lastBagOf(q.Drug), e.connectedOf(q.Drug)
	}
	return e.lastBag(false), e.firstConnected()
}

// rateWorking is how the rate of an order's starting dose comes about.
func (e *Engine) rateWorking(o Order, conc float64) string {
	start, kg, base := o.Start, "", e.base(e.number(o.Drug))
	if !start.Unit.Same(quantity.MustUnit(base + "/min")) {
		kg = fmt.Sprintf(" x %s kg", quantity.Number(e.c.Patient.WeightKG))
	}
	return fmt.Sprintf("%s%s x 60 / %s %s/mL", start, kg, quantity.Number(legible(conc)), base)
}

// lastBag is the bag, or the syringe, made last.
func (e *Engine) lastBag(syringe bool) *bagState {
	for i := len(e.bags) - 1; i >= 0; i-- {
		if isAntidote(e.bags[i].Drug) == syringe {
			return e.bags[i]
		}
	}
	return nil
}

// lastBagOf is the bag of a drug made last.
func (e *Engine) lastBagOf(drug string) *bagState {
	for i := len(e.bags) - 1; i >= 0; i-- {
		if e.bags[i].Drug == drug {
			return e.bags[i]
		}
	}
	return nil
}

// connectedOf is the first pump that holds a drug and is connected.
func (e *Engine) connectedOf(drug string) *pumpState {
	for _, p := range e.pumps {
		if p.site != nil && p.bag != nil && p.bag.Drug == drug {
			return p
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

func (e *Engine) refuseSum(id, text string) string {
	s := e.sumAsked(id)
	switch {
	case s == nil:
		return fmt.Sprintf("no sum called %q was asked; open: %s", id, orNone(e.Vocabulary("sum")))
	case s.At != Never:
		return fmt.Sprintf("%s was answered already, with %s", id, s.Raw)
	}
	return e.unread(s, text)
}

// unread says why an answer cannot be taken as one; it is then asked again.
func (e *Engine) unread(s *AnswerRecord, text string) string {
	unit := e.question(s.ID).Point
	q, err := quantity.Parse(text)
	switch {
	case errors.Is(err, quantity.ErrNoUnit):
		return fmt.Sprintf("the unit is missing: %s is a number without one; give it in %s", text, unit)
	case err != nil:
		return fmt.Sprintf("that cannot be read as an amount (%v); give it in %s", err, unit)
	case !q.Unit.Same(s.Key.Unit):
		return fmt.Sprintf("%s is another kind of amount; give it in %s", text, unit)
	}
	return ""
}

// answerSum keeps what was typed and what it could be read as. Whether it is
// right is for the marks to say.
func (e *Engine) answerSum(r *running) {
	s := e.sumAsked(r.act.word("sum"))
	s.Raw, s.At, s.Entry = r.act.word("text"), r.ends, len(e.journal)
	s.Given, _ = quantity.Parse(s.Raw) // refuseSum has read it
	e.note(Entry{At: r.ends, Kind: Answered, Act: r.act.Name, Subject: s.ID, Word: s.Raw})
}

// Reckoned is the right answer to a sum that was asked, for those who answer
// in a learner's stead. It is shown to nobody during play.
func (e *Engine) Reckoned(id string) (quantity.Quantity, bool) {
	if s := e.sumAsked(id); s != nil {
		return s.Key, true
	}
	return quantity.Quantity{}, false
}
