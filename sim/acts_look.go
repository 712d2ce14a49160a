package sim

import (
	"fmt"

	"blanch/sim/quantity"
	"blanch/sim/tissue"
)

// Looking is several acts. Each shows only its own finding; what was not
// sought stays unknown.
func lookActs() []Spec {
	roles := []Role{Nurse, Doctor}
	return []Spec{
		{
			Name: "glance", Sentence: "glance at {line}", Step: 7, Holds: Hands, Takes: 10 * Second, By: roles,
			Does: "look from where you stand, without touching",
			done: func(e *Engine, r *running) {
				if r.site.covered {
					e.found(r, "site", "covered by the blanket", 0, "")
				} else {
					e.lookForCannula(r)
					swollen, pale := false, false
					if d, ok := e.tissueNow(r); ok {
						swollen, pale = d.Glance(r.site.Vein.DepthMM, e.c.Patient.Skin == "dark")
					}
					e.found(r, "at a glance", pick(swollen || pale, glanceWords(swollen, pale), "nothing to see"), 0, "")
				}
				e.looked(r)
				e.done(r, Entry{})
			},
		},
		{
			Name: "uncover", Sentence: "uncover {line}", Step: 7, Holds: Hands, Takes: 15 * Second, By: roles,
			Does: "lift blanket and sleeve and look closely at the skin",
			done: func(e *Engine, r *running) {
				r.site.covered = false
				d, ok := e.tissueNow(r)
				word, mm := "like the skin around", 0.0
				if ok && d.Shows(tissue.Pale, r.site.Vein.DepthMM, false) {
					word, mm = "pale", quantity.Round(d.PaleMM(r.site.Vein.DepthMM), 5)
				}
				if r.site.burned {
					e.found(r, "skin", "red and blistered where the hot pack lay", 0, "")
				}
				e.lookForCannula(r)
				if r.site.inflamed() {
					e.found(r, "along the vein", "a red streak", 0, "")
				}
				e.found(r, "colour", word, mm, unitOf(mm))
				e.looked(r)
				e.done(r, Entry{})
			},
		},
		{
			Name: "feel", Sentence: "feel around {line}", Step: 7, Holds: Hands, Takes: 20 * Second, By: roles,
			Does: "with the back of the hand: swelling, warmth, tightness",
			done: func(e *Engine, r *running) {
				d, ok := e.tissueNow(r)
				depth := r.site.Vein.DepthMM
				e.found(r, "swelling", pick(ok && d.Shows(tissue.Swelling, depth, false), "swollen", "none"), 0, "")
				e.found(r, "warmth", pick(ok && d.Shows(tissue.Cool, depth, false), "cool", "warm"), 0, "")
				if r.site.inflamed() {
					e.found(r, "along the vein", "warm, hard and sore", 0, "")
				}
				e.found(r, "tension", pick(ok && d.Shows(tissue.Tight, depth, false), "tight", "soft"), 0, "")
				e.looked(r)
				r.site.lastFeel = r.ends
				e.done(r, Entry{})
			},
		},
		{
			Name: "compare", Sentence: "compare {line} with the other arm", Step: 7, Holds: Hands, Takes: 20 * Second, By: roles,
			Does: "the same place on both arms, side by side",
			done: func(e *Engine, r *running) {
				d, ok := e.tissueNow(r)
				depth := r.site.Vein.DepthMM
				word := "both arms alike"
				switch {
				case ok && d.Shows(tissue.Pale, depth, false):
					word = "paler than the other arm"
				case ok && d.Shows(tissue.Swelling, depth, false):
					word = "fuller than the other arm"
				case ok && d.Shows(tissue.Tight, depth, false):
					word = "tenser than the other arm"
				}
				e.found(r, "compared", word, 0, "")
				e.looked(r)
				e.done(r, Entry{})
			},
		},
		{
			Name: "ask-pain", Sentence: "ask how {line} feels", Step: 7, Holds: Voice, Takes: 15 * Second, Bedside: true, By: roles,
			Does: "ask the patient about pain, stinging, tightness",
			done: func(e *Engine, r *running) {
				d, ok := e.tissueNow(r)
				word := "no complaint"
				switch {
				case !e.c.Patient.Tells:
					word = "the patient cannot say"
				case ok && d.Stings(r.site.Vein.DepthMM):
					word = "it stings and feels cold"
				case ok && d.Shows(tissue.Pain, r.site.Vein.DepthMM, true):
					word = "it is sore and tight"
				}
				if r.site.inflamed() && e.c.Patient.Tells {
					e.found(r, "along the vein", "it aches", 0, "")
				}
				e.found(r, "pain", word, 0, "")
				e.looked(r)
				e.done(r, Entry{})
			},
		},
		{
			Name: "refill", Sentence: "press and watch refill at {line}", Step: 7, Holds: Hands, Takes: 15 * Second, By: roles,
			Does: "press the skin for five seconds and watch the colour come back",
			done: func(e *Engine, r *running) {
				d, ok := e.tissueNow(r)
				e.found(r, "refill", pick(ok && d.Shows(tissue.Slow, r.site.Vein.DepthMM, false), "slow, over 4 s", "brisk, about 2 s"), 0, "")
				e.looked(r)
				e.done(r, Entry{})
			},
		},
		{
			Name: "measure", Sentence: "measure around {line}", Step: 7, Holds: Hands, Takes: 30 * Second, By: roles,
			Does: "the swelling and the pale skin, in centimetres, with a tape",
			done: func(e *Engine, r *running) {
				d, ok := e.tissueNow(r)
				wide, pale := 0.0, 0.0
				if ok && d.Surfaced(r.site.Vein.DepthMM) {
					wide = quantity.Round(d.WidthMM()/10, 0.5)
				}
				if ok {
					pale = quantity.Round(d.PaleMM(r.site.Vein.DepthMM)/10, 0.5)
				}
				e.found(r, "swelling measured", "", wide, "cm")
				e.found(r, "pale skin measured", "", pale, "cm")
				e.looked(r)
				e.done(r, Entry{})
			},
		},
		{
			Name: "beyond", Sentence: "feel pulse and movement beyond {line}", Step: 7, Holds: Hands, Takes: 40 * Second, By: roles,
			Does: "radial pulse, feeling and movement of the fingers, pain when they are stretched",
			done: func(e *Engine, r *running) {
				d, ok := e.tissueNow(r)
				tense := ok && d.Pressed()
				e.found(r, "pulse beyond", pick(tense, "weak", "full"), 0, "")
				e.found(r, "fingers", pick(tense, "numb and slow", "feel and move"), 0, "")
				e.found(r, "stretching the fingers", pick(tense && e.c.Patient.Tells, "hurts badly", "does not hurt"), 0, "")
				e.looked(r)
				e.done(r, Entry{})
			},
		},
		{
			Name: "judge", Sentence: "judge {line} {verdict}", Step: 8, Holds: Instant,
			Does: "say what you make of the site",
			done: func(e *Engine, r *running) { e.done(r, Entry{Word: r.act.word("verdict")}) },
		},
	}
}

// asFound is what a look for something shows at a site where nothing leaks,
// when the case gives it; empty otherwise.
func (e *Engine) asFound(s *site, what string) string {
	if i := e.veinIndex(s.Subject); i >= 0 {
		return e.veins[i].AsFound[what]
	}
	return ""
}

// OwnFindings are what a case can say that looks show at a place where nothing
// leaks.
func OwnFindings() []string {
	return []string{"at a glance", "colour", "swelling", "warmth", "tension", "compared", "pain", "refill"}
}

// tissueNow is the tissue around the site at the end of the act, if there is
// anything in it.
func (e *Engine) tissueNow(r *running) (*tissue.State, bool) {
	if r.site.depot == nil {
		return nil, false
	}
	d := e.depotAt(r.site, r.ends.Seconds())
	return &d, true
}

// lookForCannula says that it slipped out, where it did.
func (e *Engine) lookForCannula(r *running) {
	if r.site.slipped() {
		e.found(r, "cannula", "it lies on the sheet, which is wet", 0, "")
	}
}

// looked remembers when the site was last looked at.
func (e *Engine) looked(r *running) { r.site.lastLook = r.ends }

func glanceWords(swollen, pale bool) string {
	switch {
	case swollen && pale:
		return "swollen and pale"
	case pale:
		return "a pale patch"
	}
	return "swollen"
}

func pick(cond bool, yes, no string) string {
	if cond {
		return yes
	}
	return no
}

func unitOf(mm float64) string {
	if mm == 0 {
		return ""
	}
	return "mm"
}

// Abnormal says whether a finding, in the words of a look, is a sign that
// something is wrong at a site.
func Abnormal(what, word string, value float64) bool {
	if normal, ok := normalWords[what]; ok {
		return word != normal && word != "the patient cannot say"
	}
	return (what == "swelling measured" || what == "pale skin measured") && value > 0
}

// normalWords is what each look says when nothing is wrong.
var normalWords = map[string]string{
	"at a glance":            "nothing to see",
	"colour":                 "like the skin around",
	"swelling":               "none",
	"warmth":                 "warm",
	"tension":                "soft",
	"compared":               "both arms alike",
	"pain":                   "no complaint",
	"refill":                 "brisk, about 2 s",
	"flush":                  "easy",
	"fluid around the vein":  "none",
	"pulse beyond":           "full",
	"fingers":                "feel and move",
	"stretching the fingers": "does not hurt",
}

// SignOf is the sign of a leak that a finding is about, empty for others.
func SignOf(what string) string {
	switch what {
	case "swelling", "swelling measured", "flush", "fluid around the vein":
		return string(tissue.Swelling)
	case "colour", "pale skin measured":
		return string(tissue.Pale)
	case "warmth":
		return string(tissue.Cool)
	case "tension":
		return string(tissue.Tight)
	case "pain":
		return string(tissue.Pain)
	case "refill":
		return string(tissue.Slow)
	case "at a glance", "compared":
		return string(tissue.AnyLeak)
	}
	return ""
}

func (e *Engine) describe(s *site) string {
	if s.Central {
		return "central line"
	}
	return fmt.Sprintf("%d gauge, %s mm", s.Cannula.Gauge, quantity.Number(s.Cannula.LengthMM))
}
