package sim

import (
	"fmt"
	"math"
	"strings"

	"blanch/sim/line"
	"blanch/sim/luck"
	"blanch/sim/quantity"
	"blanch/sim/vein"
)

// Choosing a vein and a cannula, and placing it.
func lineActs() []Spec {
	return []Spec{
		{
			Name: "examine", Sentence: "examine {vein}", Step: 2, Holds: Hands, Takes: 30 * Second, By: []Role{Nurse, Doctor},
			Does: "look at a vein and feel it under a tourniquet",
			done: func(e *Engine, r *running) {
				v := e.veins[e.veinIndex(r.act.word("vein"))]
				e.found(r, "by eye and hand", v.Look, 0, "")
				e.done(r, Entry{})
			},
		},
		{
			Name: "scan", Sentence: "scan {vein} with ultrasound", Step: 2, Holds: Hands, Takes: 90 * Second, By: []Role{Doctor},
			Does:       "measure a vein's diameter, depth and straight length",
			Impossible: "there is no ultrasound here",
			refuse:     func(e *Engine, _ *running) string { return e.needUltrasound() },
			done: func(e *Engine, r *running) {
				v := e.veins[e.veinIndex(r.act.word("vein"))]
				e.scanned[v.ID] = true
				e.found(r, "diameter", "", v.DiameterMM, "mm")
				e.found(r, "depth", "", v.DepthMM, "mm")
				e.found(r, "straight length", "", v.StraightMM, "mm")
				if v.Punctures > 0 {
					e.found(r, "earlier punctures", "", float64(v.Punctures), "")
				}
				e.done(r, Entry{})
			},
		},
		{
			Name: "choose", Sentence: "choose {vein} with {gauge} gauge {length} mm at {angle} degrees", Step: 2, Holds: Hands, Takes: 10 * Second,
			Does:       "take a cannula in hand for a vein; once the vein is scanned, see how much of it would lie inside",
			Impossible: "that size is not in stock, or a cannula lies in that vein already",
			refuse:     refuseChoose,
			done: func(e *Engine, r *running) {
				c, _ := e.stocked(r.act)
				e.chosen = &choice{e.veinIndex(r.act.word("vein")), c, r.act.number("angle")}
				v := e.veins[e.chosen.vein]
				if e.scanned[v.ID] {
					g := vein.Lie(v.Vein, c, e.chosen.angle)
					e.found(r, "path through tissue", "", quantity.Round(g.PathMM, 0.1), "mm")
					e.found(r, "share in vein", "", quantity.Round(float64(100*g.Share), 1), "%")
					e.found(r, "cannula-to-vein ratio", "", quantity.Round(g.Ratio, 0.01), "")
				} else {
					e.found(r, "share in vein", "not known without a measured depth", 0, "")
				}
				if e.chosen.angle < 15 || e.chosen.angle > 45 {
					e.found(r, "angle", "outside the usual 15 to 45 degrees", 0, "")
				}
				e.done(r, Entry{})
			},
		},
		{
			Name: "insert", Sentence: "insert the cannula {how}", Step: 2, Holds: Hands, Lasts: "3 min by feel, 5 min under ultrasound",
			Does:       "place the cannula that you chose; it can fail, and a failed puncture leaves a hole",
			Impossible: "nothing is chosen, or there is no ultrasound here",
			takes: func(_ *Engine, a Action) Time {
				if a.word("how") == "by feel" {
					return 3 * Minute
				}
				return 5 * Minute
			},
			refuse: func(e *Engine, r *running) string {
				if e.chosen == nil {
					return "no cannula is in hand; choose a vein and a cannula first"
				}
				if r.act.word("how") == "under ultrasound" {
					return e.needUltrasound()
				}
				return ""
			},
			done: func(e *Engine, r *running) { e.insert(r) },
		},
	}
}

func (e *Engine) needUltrasound() string {
	if e.p.Ultrasound {
		return ""
	}
	return "there is no ultrasound here"
}

func refuseChoose(e *Engine, r *running) string {
	if _, ok := e.stocked(r.act); ok {
		if s := e.lastSite(r.act.word("vein")); s != nil && s.inPlace() {
			return fmt.Sprintf("a cannula lies in %s already", s.Subject)
		}
		return ""
	}
	var stock []string
	for _, c := range e.p.Cannulae {
		stock = append(stock, fmt.Sprintf("%d gauge %s mm", c.Gauge, quantity.Number(c.LengthMM)))
	}
	return fmt.Sprintf("%s gauge %s mm is not in stock; there are: %s",
		quantity.Number(r.act.number("gauge")), quantity.Number(r.act.number("length")), strings.Join(stock, ", "))
}

// stocked is the cannula in stock that is meant; a length may be said to the
// whole millimetre, as packets do.
func (e *Engine) stocked(a Action) (vein.Cannula, bool) {
	gauge, length := a.number("gauge"), a.number("length")
	for _, c := range e.p.Cannulae {
		if float64(c.Gauge) == gauge && (c.LengthMM == length || quantity.Round(c.LengthMM, 1) == length) {
			return c, true
		}
	}
	return vein.Cannula{}, false
}

// insert tries to place the chosen cannula. Luck belongs to the vein and the
// try, so a better choice never turns a success into a failure.
func (e *Engine) insert(r *running) {
	ch := e.chosen
	v := e.veins[ch.vein]
	c := ch.cannula
	technique := vein.ByFeel
	if r.act.word("how") == "under ultrasound" {
		technique = vein.UnderUltrasound
	}
	e.tries[v.ID]++
	rec := LineRecord{
		Subject: v.ID, Side: v.Side, Vein: v.Vein, Cannula: c, AngleDeg: ch.angle,
		Share: vein.Lie(v.Vein, c, ch.angle).Share, Scan: technique == vein.UnderUltrasound,
		Placed: Never, Pressor: Never, Removed: Never, Leaks: Never, Entry: len(e.journal),
	}
	e.chosen = nil
	p := vein.Success(v.Vein, c, ch.angle, technique, e.c.Patient.Difficult)
	if luck.Uniform(e.seed, "insertion", v.ID, e.tries[v.ID]) >= p {
		e.records = append(e.records, rec)
		e.done(r, Entry{Subject: v.ID, What: "cannula", Word: "failed"})
		return
	}
	rec.Placed = r.ends
	e.records = append(e.records, rec)
	e.place(rec, e.p.ExtensML+cannulaML(c))
	e.done(r, Entry{Subject: v.ID, What: "cannula", Word: "in place"})
}

// place adds a site whose dead volume is full of saline.
func (e *Engine) place(rec LineRecord, deadML float64) {
	s := again(&e.sites, site{LineRecord: rec, record: len(e.records) - 1, column: line.NewColumn(deadML, line.Saline), lastLook: Never, lastFeel: Never})
	for i := range s.wear {
		s.wear[i].came = Never
	}
	e.led.entered += deadML
}

// cannulaML is the inner volume of a cannula, taking the bore as a share
// of the outer diameter (a 20 gauge cannula holds under 0.1 mL, from memory).
func cannulaML(c vein.Cannula) float64 {
	bore := float64(boreShare * vein.OuterMM(c.Gauge))
	return float64(float64(float64(math.Pi/4*bore)*bore)*c.LengthMM) / 1000
}
