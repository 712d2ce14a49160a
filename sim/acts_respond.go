package sim

import (
	"fmt"

	"blanch/sim/line"
	"blanch/sim/quantity"
)

// Responding to a leak.
func respondActs() []Spec {
	roles := []Role{Nurse, Doctor}
	return []Spec{
		{
			Name: "draw-back", Sentence: "draw back from {line}", Step: 9, Holds: Hands, Takes: Minute, By: roles,
			Does:       "draw out what the cannula and the tissue at its tip still hold; the less the longer you wait",
			Impossible: "the cannula is out, or a pump is running through it",
			refuse: func(e *Engine, r *running) string {
				if r.site.pump != nil && r.site.pump.running {
					return r.site.pump.ID + " is running through it; stop it first"
				}
				return refuseOut(e, r)
			},
			done: func(e *Engine, r *running) {
				e.change(r.ends)
				s := r.site
				ml := s.column.DeadML()
				drawn := ml
				for _, slug := range s.column.Fill(line.Saline) {
					e.led.drugs[slug.Drug].drawn += float64(slug.ML * slug.Conc)
				}
				e.led.drawnML += ml
				e.led.entered += ml // blood fills the column
				if s.depot != nil {
					drugs, wet := s.depot.DrawBack(r.ends.Seconds() - s.lastFlow)
					for i := range s.depot.Drugs {
						l := &e.led.drugs[s.depot.Of[i].ID]
						l.drawn += drugs[i]
						l.drawnTissue += drugs[i]
					}
					e.led.drawnML += wet
					drawn += wet
				}
				e.found(r, "drawn back", "", quantity.Round(drawn, 0.1), "mL")
				e.done(r, Entry{})
			},
		},
		{
			Name: "mark", Sentence: "mark the edge at {line}", Step: 9, Holds: Hands, Takes: 30 * Second, By: roles,
			Does: "draw a line round the skin that is not as it should be and write the time on it",
			done: func(e *Engine, r *running) { r.site.marked = true; e.looked(r); e.done(r, Entry{}) },
		},
		{
			Name: "raise", Sentence: "raise the {arm} arm", Step: 9, Holds: Hands, Takes: 30 * Second, By: roles,
			Does: "rest the arm on pillows above the heart",
			done: func(e *Engine, r *running) {
				e.change(r.ends)
				e.arm(Side(r.act.word("arm"))).raised = true
				e.done(r, Entry{})
			},
		},
		{
			Name: "warm", Sentence: "warm the {arm} arm with {pack}", Step: 9, Holds: Hands, Takes: 40 * Second, By: roles,
			Does: "dry warmth opens vessels; too hot on skin that is short of blood burns it",
			done: func(e *Engine, r *running) {
				e.change(r.ends)
				a := e.arm(Side(r.act.word("arm")))
				a.warm, a.hot = true, r.act.word("pack") == "a hot pack"
				a.hotSince, a.heated = r.ends, false
				e.done(r, Entry{})
			},
		},
		{
			Name: "cool-off", Sentence: "take the pack off the {arm} arm", Step: 9, Holds: Hands, Takes: 15 * Second, By: roles,
			Does:       "take the warm or hot pack away",
			Impossible: "there is none on it",
			refuse: func(e *Engine, r *running) string {
				if !e.arm(Side(r.act.word("arm"))).warm {
					return "there is no pack on the " + r.act.word("arm") + " arm"
				}
				return ""
			},
			done: func(e *Engine, r *running) {
				e.change(r.ends)
				a := e.arm(Side(r.act.word("arm")))
				a.warm, a.hot = false, false
				e.done(r, Entry{})
			},
		},
		{
			Name: "nitrate", Sentence: "put nitrate ointment on {line}", Step: 9, Holds: Hands, Takes: Minute, By: roles,
			Does:       "2 % nitroglycerin ointment on the pale skin; watch the pressure",
			Impossible: "there is none in stock, or it lies there already",
			refuse: func(e *Engine, r *running) string {
				switch {
				case !e.p.Nitrate:
					return "there is no nitrate ointment in stock"
				case r.site.nitrate:
					return "it lies there already"
				}
				return ""
			},
			done: func(e *Engine, r *running) { e.change(r.ends); r.site.nitrate = true; e.done(r, Entry{}) },
		},
		{
			Name: "nitrate-off", Sentence: "wipe the ointment off {line}", Step: 9, Holds: Hands, Takes: 30 * Second, By: roles,
			Does:       "take the nitrate away, for example when the pressure falls",
			Impossible: "there is none on it",
			refuse: func(_ *Engine, r *running) string {
				if !r.site.nitrate {
					return "there is no ointment on it"
				}
				return ""
			},
			done: func(e *Engine, r *running) { e.change(r.ends); r.site.nitrate = false; e.done(r, Entry{}) },
		},
		{
			Name: "infiltrate", Sentence: "infiltrate around {line} with {volume} of {bag}", Step: 9, Holds: Hands, Takes: 2 * Minute, By: []Role{Nurse, Doctor},
			Does:       "many small injections with a fine needle round and into the pale skin",
			Impossible: "it is not a syringe of antidote, or it holds less",
			refuse:     func(e *Engine, r *running) string { return refuseAntidote(r) },
			done:       func(e *Engine, r *running) { e.antidote(r, r.site) },
		},
		{
			Name: "antidote-through", Sentence: "inject {volume} of {bag} through {line}", Step: 9, Holds: Hands, Takes: Minute, By: []Role{Nurse, Doctor},
			Does:       "give part of the antidote through the cannula that leaked, before it is pulled",
			Impossible: "the cannula is out, it is not a syringe of antidote, or it holds less",
			refuse: func(e *Engine, r *running) string {
				if why := refuseOut(e, r); why != "" {
					return why
				}
				return refuseAntidote(r)
			},
			done: func(e *Engine, r *running) {
				if share, _ := r.site.lost(r.ends.Seconds()); share == 0 {
					r.bag.left -= r.act.number("volume") // into the vein, where it does nothing for the skin
					e.done(r, Entry{Value: r.act.number("volume"), Unit: "mL", Word: r.bag.ID})
					return
				}
				e.antidote(r, r.site)
			},
		},
		{
			Name: "pull", Sentence: "pull {line}", Step: 9, Holds: Hands, Takes: 40 * Second, By: roles,
			Does:       "take the cannula out and press; what runs through it then runs into the bed",
			Impossible: "it is out already, or it is the central line",
			refuse: func(e *Engine, r *running) string {
				if r.site.Central {
					return "the central line stays"
				}
				return refuseOut(e, r)
			},
			done: func(e *Engine, r *running) {
				e.change(r.ends)
				e.led.spill(r.site.column.Fill(line.Saline))
				e.led.entered += r.site.column.DeadML()
				r.site.Removed = r.ends
				e.records[r.site.record].Removed = r.ends
				e.done(r, Entry{})
			},
		},
		{
			Name: "tell-harm", Sentence: "tell the patient what happened", Step: 9, Holds: Voice, Takes: Minute, Bedside: true,
			Does: "say that the drip leaked, what was done, and what to watch for",
		},
		{
			Name: "write", Sentence: "write in the notes: {text}", Step: 11, Holds: Hands, Takes: Minute,
			Does: "time, site, size, what ran, what was done, who was told",
			done: func(e *Engine, r *running) { e.done(r, Entry{Subject: "notes", Word: r.act.word("text")}) },
		},
	}
}

func refuseAntidote(r *running) string {
	if !isAntidote(r.bag.Drug) {
		return r.bag.ID + " is not an antidote"
	}
	ml := r.act.number("volume")
	if ml <= 0 || ml > r.bag.left+1e-9 {
		return fmt.Sprintf("%s holds %s mL", r.bag.ID, quantity.Number(quantity.Round(r.bag.left, 0.1)))
	}
	return ""
}

// antidote puts part of a syringe into the tissue around a site.
func (e *Engine) antidote(r *running, s *site) {
	e.change(r.ends)
	ml := min(r.act.number("volume"), r.bag.left)
	r.bag.left -= ml
	e.needDepot(s, r.ends.Seconds())
	blocker, relaxant := float64(ml*r.bag.True), 0.0
	if e.number(r.bag.Drug) == 0 {
		blocker, relaxant = relaxant, blocker // a beta agonist, not a blocker
	}
	s.depot.Infiltrate(ml, blocker, relaxant)
	e.led.entered += ml
	e.done(r, Entry{Value: ml, Unit: "mL", Word: r.bag.ID})
}
