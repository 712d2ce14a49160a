package sim

import (
	"fmt"
	"slices"

	"blanch/sim/luck"
	"blanch/sim/quantity"
)

// Proving a line before anything runs through it.
func proveActs() []Spec {
	return []Spec{
		{
			Name: "blood-return", Sentence: "test blood return at {line}", Step: 3, Holds: Hands, Takes: 45 * Second, By: []Role{Nurse, Doctor},
			Does:       "draw gently and watch for blood; the infusion pauses meanwhile, and the test is imperfect",
			Impossible: "the cannula is out",
			refuse:     refuseOut,
			begin:      func(e *Engine, r *running) { e.change(e.now); r.site.held++ },
			done: func(e *Engine, r *running) {
				e.change(r.ends)
				r.site.held--
				word := "none"
				if !r.site.blocked() && e.bloodComes(r.site, r.ends) {
					word = "flows back"
				}
				e.found(r, "blood return", word, 0, "")
				e.done(r, Entry{})
			},
			broken: func(e *Engine, r *running) { e.change(r.ends); r.site.held-- },
		},
		{
			Name: "flush", Sentence: "flush {line} with {volume}", Step: 3, Holds: Hands, Takes: flushS * Second, By: []Role{Nurse, Doctor},
			Does:       "push saline through by hand; whatever the line holds goes in first",
			Impossible: "the cannula is out, somebody is flushing it already, or the volume is more than a 20 mL syringe holds",
			refuse: func(e *Engine, r *running) string {
				if v := r.act.number("volume"); v <= 0 || v > 20 {
					return "a flush comes from a syringe of up to 20 mL"
				}
				if slices.ContainsFunc(e.queue, func(other *running) bool { return other.spec == r.spec && other.site == r.site }) {
					return "somebody is flushing it already"
				}
				return refuseOut(e, r)
			},
			begin: func(e *Engine, r *running) {
				e.change(e.now)
				r.site.held++
				r.site.flush = r.act.number("volume") / flushS
			},
			done: func(e *Engine, r *running) {
				e.change(r.ends)
				r.site.held--
				r.site.flush = 0
				word := "easy"
				if d := r.site.depot; d != nil && d.WidthMM() >= flushSwellsMM {
					word = "swells as you push"
				}
				if r.site.blocked() {
					e.found(r, "resistance", "nothing can be pushed through", 0, "")
				} else {
					e.found(r, "flush", word, 0, "")
				}
				e.done(r, Entry{Value: r.act.number("volume"), Unit: "mL"})
			},
			broken: func(e *Engine, r *running) { e.change(r.ends); r.site.held--; r.site.flush = 0 },
		},
		{
			Name: "view-tip", Sentence: "look at the tip of {line} with ultrasound", Step: 3, Holds: Hands, Takes: Minute, By: []Role{Doctor},
			Does:       "see where the tip lies and whether there is fluid around the vein",
			Impossible: "there is no ultrasound here",
			refuse:     func(e *Engine, _ *running) string { return e.needUltrasound() },
			done: func(e *Engine, r *running) {
				if r.site.Central {
					e.found(r, "tip", "not within reach of this probe", 0, "")
				} else if r.site.inPlace() {
					e.found(r, "tip", "in the vein", 0, "")
					e.found(r, "share in vein", "", quantity.Round(float64(100*r.site.Share), 1), "%")
				}
				word := "none"
				if r.site.depot != nil && e.depotAt(r.site, r.ends.Seconds()).V > rimML {
					word = "a dark rim of fluid"
				}
				e.found(r, "fluid around the vein", word, 0, "")
				e.looked(r)
				e.done(r, Entry{})
			},
		},
		{
			Name: "secure", Sentence: "secure {line}", Step: 3, Holds: Hands, Takes: Minute, By: []Role{Nurse, Doctor},
			Does:       "fix the cannula with a clear dressing and tape the loop",
			Impossible: "the cannula is out", refuse: refuseOut,
		},
		{
			Name: "expose", Sentence: "keep {line} in sight", Step: 3, Holds: Hands, Takes: 15 * Second, By: []Role{Nurse, Doctor},
			Does: "fold the blanket back so that the site stays in view",
			done: func(e *Engine, r *running) { r.site.covered = false; e.done(r, Entry{}) },
		},
		{
			Name: "trace", Sentence: "trace and label {line}", Step: 3, Holds: Hands, Takes: 40 * Second, By: []Role{Nurse},
			Does:       "follow the tubing from bag to skin and label it at both ends",
			Impossible: "the cannula is out", refuse: refuseOut,
		},
		{
			Name: "straighten", Sentence: "straighten the {arm} arm", Step: 7, Holds: Hands, Takes: 15 * Second, By: []Role{Nurse, Doctor},
			Does: "lay it straight and see that nothing is kinked",
			done: func(e *Engine, r *running) {
				e.change(r.ends)
				for _, s := range e.sites {
					if s.Side == Side(r.act.word("arm")) && s.blocked() && s.kinked {
						s.kinked = false
						e.draw(s, endOcclusion)
					}
				}
				e.done(r, Entry{})
			},
		},
		{
			Name: "tie", Sentence: "put a tourniquet on the {arm} arm", Step: 2, Holds: Hands, Takes: 10 * Second, By: []Role{Nurse, Doctor},
			Does: "fills the veins; left on, it drives an infusion out of its vein",
			done: func(e *Engine, r *running) {
				e.change(r.ends)
				e.arm(Side(r.act.word("arm"))).tied = true
				e.done(r, Entry{})
			},
		},
		{
			Name: "untie", Sentence: "take the tourniquet off the {arm} arm", Step: 2, Holds: Hands, Takes: 5 * Second, By: []Role{Nurse, Doctor},
			Does:       "as soon as the cannula is in",
			Impossible: "there is none on it",
			refuse: func(e *Engine, r *running) string {
				if !e.arm(Side(r.act.word("arm"))).tied {
					return "there is no tourniquet on the " + r.act.word("arm") + " arm"
				}
				return ""
			},
			done: func(e *Engine, r *running) {
				e.change(r.ends)
				e.arm(Side(r.act.word("arm"))).tied = false
				e.done(r, Entry{})
			},
		},
		{
			Name: "move-cuff", Sentence: "move the cuff to the {arm} arm", Step: 3, Holds: Hands, Takes: 30 * Second, By: []Role{Nurse},
			Does: "keep the cuff off the arm that carries the vasopressor",
			done: func(e *Engine, r *running) {
				e.deflate(r.ends)
				e.change(r.ends)
				e.cuff = Side(r.act.word("arm"))
				e.done(r, Entry{})
			},
		},
		{
			Name: "fetch-kit", Sentence: "fetch the extravasation kit", Step: 3, Holds: Hands, Lasts: "the walk there and back", Away: true, By: []Role{Nurse},
			Does:  "bring it to the bed and see that it is complete and in date",
			takes: func(e *Engine, _ Action) Time { return e.p.KitWalk + 30*Second },
			done: func(e *Engine, r *running) {
				e.kit = e.p.KitReady
				word := e.kitWords()
				e.found(r, "extravasation kit", word, 0, "")
				e.done(r, Entry{Subject: "kit"})
			},
		},
		{
			Name: "tell-patient", Sentence: "tell the patient what to report", Step: 3, Holds: Voice, Takes: 40 * Second, Bedside: true,
			Does: "say what a leak feels like and to call at once",
			done: func(e *Engine, r *running) { e.told = true; e.done(r, Entry{}) },
		},
	}
}

// kitWords is what looking through the kit shows.
func (e *Engine) kitWords() string {
	switch {
	case !e.p.KitReady && e.p.KitLacks != "":
		return e.p.KitLacks
	case !e.p.KitReady:
		return "the antidote is missing"
	}
	for _, v := range e.p.Vials {
		if best, _ := e.vial(v.Drug); isAntidote(v.Drug) && best.Past {
			return fmt.Sprintf("complete, but the %s is out of date", v.Drug)
		}
	}
	return "complete and in date"
}

func refuseOut(_ *Engine, r *running) string {
	if r.site != nil && !r.site.inPlace() {
		return "the cannula in " + r.site.Subject + " is out"
	}
	return ""
}

// bloodComes is an imperfect test (A): blood comes back from nine in ten
// sound lines and from half of those that leak.
func (e *Engine) bloodComes(s *site, at Time) bool {
	p := bloodSound
	if share, _ := s.lost(at.Seconds()); share > bloodFrom {
		p = bloodLeaking
	}
	return luck.Uniform(e.seed, "blood-return", s.Subject, int(at/Minute)) < p
}
