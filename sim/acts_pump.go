package sim

import (
	"fmt"
	"math"

	"blanch/sim/dose"
	"blanch/sim/quantity"
)

// Pumps, tubing and rates.
func pumpActs() []Spec {
	return []Spec{
		{
			Name: "hang", Sentence: "hang {bag} on {pump}", Step: 5, Holds: Hands, Takes: 40 * Second, By: []Role{Nurse},
			Does:       "spike a bag for a pump; what the tubing holds stays in it",
			Impossible: "it is a syringe of antidote, or hangs elsewhere, or the pump runs",
			refuse: func(_ *Engine, r *running) string {
				switch {
				case isAntidote(r.bag.Drug):
					return r.bag.ID + " is a syringe"
				case r.bag.pump != nil:
					return fmt.Sprintf("%s hangs on %s already", r.bag.ID, r.bag.pump.ID)
				case r.pump.running:
					return r.pump.ID + " is running; stop it first"
				}
				return ""
			},
			done: func(e *Engine, r *running) {
				e.change(r.ends)
				if old := r.pump.bag; old != nil {
					old.pump = nil
				}
				r.pump.bag, r.bag.pump = r.bag, r.pump
				e.done(r, Entry{Subject: r.pump.ID})
			},
		},
		{
			Name: "prime", Sentence: "prime {pump}", Step: 5, Holds: Hands, Takes: Minute, By: []Role{Nurse},
			Does:       "run the bag through the tubing until no air is left",
			Impossible: "no bag hangs on it, the bag holds too little, or it is connected to a patient",
			refuse: func(e *Engine, r *running) string {
				switch {
				case r.pump.bag == nil:
					return "no bag hangs on " + r.pump.ID
				case r.pump.site != nil:
					return r.pump.ID + " is connected to a patient; disconnect it first"
				case r.pump.bag.left < e.p.TubingML:
					return fmt.Sprintf("%s holds less than the %s mL the tubing needs", r.pump.bag.ID, quantity.Number(e.p.TubingML))
				}
				return ""
			},
			done: func(e *Engine, r *running) {
				e.change(r.ends)
				p := r.pump
				e.led.spill(p.tubing.Fill(p.bag.fluid()))
				e.fromBag(p.bag, e.p.TubingML)
				p.primed = true
				e.done(r, Entry{})
			},
		},
		{
			Name: "connect", Sentence: "connect {pump} to {line}", Step: 5, Holds: Hands, Takes: 30 * Second, By: []Role{Nurse},
			Does:       "join the tubing to the line's extension, which is still full of saline",
			Impossible: "the tubing is full of air, the pump is running, or the line is out or taken",
			refuse:     refuseConnect,
			done: func(e *Engine, r *running) {
				e.change(r.ends)
				e.join(r.pump, r.site)
				e.done(r, Entry{})
			},
		},
		{
			Name: "connect-primed", Sentence: "connect {pump} to {line} primed to the tip", Step: 5, Holds: Hands, Takes: 90 * Second, By: []Role{Nurse},
			Does:       "as connect, with a fresh extension run through with the drug first: no dead time",
			Impossible: "as for connect, or it is a central line",
			refuse: func(e *Engine, r *running) string {
				if r.site.Central {
					return "a central lumen cannot be run through beforehand"
				}
				if r.pump.bag != nil && r.pump.bag.left < e.p.ExtensML {
					return r.pump.bag.ID + " holds too little to fill an extension"
				}
				return refuseConnect(e, r)
			},
			done: func(e *Engine, r *running) {
				e.change(r.ends)
				e.join(r.pump, r.site)
				e.fillExtension(r.pump, r.site)
				e.done(r, Entry{})
			},
		},
		{
			Name: "set", Sentence: "set {pump} to {rate}", Step: 5, Holds: Hands, Takes: 15 * Second, By: []Role{Nurse},
			Does:       "program or change the rate; a running pump changes at once",
			Impossible: "the pump cannot run that fast or that slowly, or its library refuses the dose",
			refuse: func(e *Engine, r *running) string {
				mlh := r.act.number("rate")
				set := quantity.Round(mlh, r.pump.StepMLH)
				switch {
				case mlh > r.pump.MostMLH:
					return fmt.Sprintf("%s runs at most at %s mL/h", r.pump.ID, quantity.Number(r.pump.MostMLH))
				case set <= 0:
					return fmt.Sprintf("%s takes no rate under %s mL/h; to give nothing, stop %s", r.pump.ID, quantity.Number(r.pump.StepMLH), r.pump.ID)
				}
				return e.refusedDose(r.pump, set)
			},
			done: func(e *Engine, r *running) {
				e.change(r.ends)
				r.pump.rate = quantity.Round(r.act.number("rate"), r.pump.StepMLH)
				e.done(r, Entry{Value: r.pump.rate, Unit: "mL/h"})
				e.warn(r.pump, r.ends)
			},
		},
		{
			Name: "check-pump", Sentence: "check the settings of {pump} with {person}", Step: 5, Holds: Hands, Takes: 45 * Second,
			Does:       "a second person reads bag, line and rate and works the dose out on their own",
			Impossible: "they are not at the bed or are busy, or no bag hangs on it",
			refuse: func(e *Engine, r *running) string {
				if r.pump.bag == nil {
					return "no bag hangs on " + r.pump.ID
				}
				return e.besides(r)
			},
			begin: func(_ *Engine, r *running) { r.with.busy = r },
			done: func(e *Engine, r *running) {
				b := r.pump.bag
				perMin := dose.Dose(r.pump.rate, b.Nominal)
				word := "I make that, and it is within the order"
				o, ordered := e.orderOf(b.Drug)
				switch {
				case !ordered:
					word = "I make that; the order is for another drug"
				case perMin < float64(checkLeast*e.perMin(o.Least, b.Drug)) || perMin > float64(checkMost*e.perMin(o.Most, b.Drug)):
					word = "stop, I make that, and it is outside the order"
				}
				e.note(Entry{At: r.ends, Kind: Replied, Act: r.act.Name, Subject: r.with.ID, What: "dose", Word: word, Value: legible(perMin), Unit: e.base(b.agent) + "/min"})
				e.done(r, Entry{})
			},
		},
		{
			Name: "start", Sentence: "start {pump}", Step: 6, Holds: Hands, Takes: 5 * Second, By: []Role{Nurse},
			Does:       "let it run at the rate that is set",
			Impossible: "no rate is set, no bag hangs on it, it holds nothing, it is not connected, it is being moved, or its library refuses the dose",
			refuse: func(e *Engine, r *running) string {
				p := r.pump
				switch {
				case p.running:
					return p.ID + " is running already"
				case e.willRun(p):
					return p.ID + " is being moved, and runs on after that"
				case p.bag == nil:
					return "no bag hangs on " + p.ID
				case p.bag.left <= 0:
					return p.bag.ID + " is empty"
				case p.rate <= 0:
					return "no rate is set on " + p.ID
				case p.site == nil:
					return p.ID + " is not connected to a line"
				}
				return e.refusedDose(p, p.rate)
			},
			done: func(e *Engine, r *running) {
				e.change(r.ends)
				r.pump.running = true
				e.done(r, Entry{})
				e.warn(r.pump, r.ends)
			},
		},
		{
			Name: "stop", Sentence: "stop {pump}", Step: 6, Holds: Hands, Takes: 5 * Second, By: []Role{Nurse, Doctor},
			Does:       "stop it; the line stays connected",
			Impossible: "it is not running",
			refuse: func(e *Engine, r *running) string {
				if !r.pump.running && !e.willRun(r.pump) {
					return r.pump.ID + " is not running"
				}
				return ""
			},
			decided: true, // stopped is stopped, whoever did it
			done:    func(e *Engine, r *running) { e.change(r.ends); e.halt(r.pump); e.done(r, Entry{}) },
		},
		{
			Name: "disconnect", Sentence: "disconnect {pump}", Step: 6, Holds: Hands, Takes: 20 * Second, By: []Role{Nurse},
			Does:       "take the tubing off the line and cap both; a running pump is stopped",
			Impossible: "it is not connected",
			refuse: func(_ *Engine, r *running) string {
				if r.pump.site == nil {
					return r.pump.ID + " is not connected to a line"
				}
				return ""
			},
			done: func(e *Engine, r *running) {
				e.change(r.ends)
				e.halt(r.pump)
				e.part(r.pump)
				e.done(r, Entry{})
			},
		},
		{
			Name: "read-pump", Sentence: "read {pump}", Step: 7, Holds: Hands, Takes: 10 * Second, By: []Role{Nurse},
			Does: "read rate, volume left and alarms",
			done: func(e *Engine, r *running) {
				e.found(r, "rate", "", r.pump.rate, "mL/h")
				if r.pump.bag != nil {
					e.found(r, "volume left", "", math.Floor(e.leftAt(r.pump, r.ends.Seconds())), "mL")
				}
				word := "stopped"
				if r.pump.running {
					word = "running"
				}
				e.found(r, "state", word, 0, "")
				e.done(r, Entry{})
			},
		},
		{
			Name: "pressure", Sentence: "take the pressure", Step: 6, Holds: Hands, Takes: 40 * Second, By: []Role{Nurse},
			Does: "cycle the cuff now instead of waiting for it",
			begin: func(e *Engine, _ *running) {
				if e.cuffMatters() {
					e.inflate(e.now)
				}
			},
			done:   func(e *Engine, r *running) { e.read(r.ends); e.done(r, Entry{}) },
			broken: func(e *Engine, r *running) { e.deflate(r.ends) },
		},
	}
}

func refuseConnect(_ *Engine, r *running) string {
	switch {
	case r.pump.running:
		return r.pump.ID + " is running; stop it, or move it in one act"
	case !r.pump.primed:
		return "the tubing of " + r.pump.ID + " is full of air; prime it first"
	case r.site.pump != nil && r.site.pump != r.pump:
		return fmt.Sprintf("%s is connected there already", r.site.pump.ID)
	case r.site.pump == r.pump:
		return fmt.Sprintf("%s is connected there already", r.pump.ID)
	case !r.site.inPlace():
		return "the cannula in " + r.site.Subject + " is out"
	}
	return ""
}

// join connects a pump's tubing to a line.
func (e *Engine) join(p *pumpState, s *site) {
	e.part(p)
	p.site, s.pump = s, p
}

// part takes a pump's tubing off whatever it is on.
func (e *Engine) part(p *pumpState) {
	if p.site != nil {
		p.site.pump, p.site = nil, nil
	}
}

// fillExtension runs drug from the tubing through a fresh extension, as far as
// the bag allows: what the old one held is discarded and the cannula keeps what
// it holds.
func (e *Engine) fillExtension(p *pumpState, s *site) {
	ml := min(e.p.ExtensML, p.bag.left)
	drawn := p.tubing.Draw(ml, p.bag.fluid())
	e.led.spill(s.column.ReplaceFar(drawn))
	e.fromBag(p.bag, ml)
}

// fromBag books what runs out of a bag by hand.
func (e *Engine) fromBag(b *bagState, ml float64) {
	e.led.drugs[b.agent].pumped += float64(ml * b.True)
	e.led.entered += ml
	b.left -= ml
}

// base is the unit that amounts of a drug in play are kept in.
func (e *Engine) base(number int) string {
	if number == 0 {
		return "mcg"
	}
	return e.drugs[number].Base
}

// legible rounds to what somebody would say: to a tenth, and what is under ten
// to three figures.
func legible(v float64) float64 {
	step := 0.1
	for v > 0 && v < float64(step*100) && step > 1e-6 {
		step /= 10
	}
	return quantity.Round(v, step)
}

// leftAt is what the bag on a pump holds at t.
func (e *Engine) leftAt(p *pumpState, t float64) float64 {
	if !p.delivers() {
		return p.bag.left
	}
	return max(0, p.bag.left-float64(p.rate/3600*(t-e.at)))
}

// besides says why a second person cannot join in.
func (e *Engine) besides(r *running) string {
	switch {
	case !r.with.here:
		return r.with.ID + " is not at the bed; send for them first"
	case r.with.busy != nil:
		return fmt.Sprintf("%s is busy until %s", r.with.ID, r.with.busy.ends.Exact())
	}
	return ""
}
