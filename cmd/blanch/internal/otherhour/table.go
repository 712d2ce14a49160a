package otherhour

import (
	"cmp"
	"fmt"
	"slices"

	"blanch/scoring"
	"blanch/sim"
	"blanch/sim/drug"
	"blanch/sim/quantity"
)

// sideBySide sets the figures of both hours beside each other.
func (h *Hour) sideBySide(p *page, other Played) {
	a, b := FiguresOf(h.Before.Result), FiguresOf(other.Result)
	const form = "%-38s %12s %12s  %s"
	p.row(form, "", "as it was", "other hour", "")
	at := func(what string, x, y sim.Time) {
		p.row(form, what, whenWas(x), whenWas(y), sooner(x, y))
	}
	at("Drug first in the blood", h.Before.Result.Outcome.FirstDrug, other.Result.Outcome.FirstDrug)
	if a.Visible < sim.Never || b.Visible < sim.Never {
		at("A look could first find the leak", a.Visible, b.Visible)
		at("Found, or judged to be leaking", a.Found, b.Found)
		at("Nothing runs through it any more", a.Stopped, b.Stopped)
		what := "First treatment of the site"
		if with := cmp.Or(a.Treatment, b.Treatment); with != "" && (a.Treatment == b.Treatment || a.Treatment == "" || b.Treatment == "") {
			what = "First treatment: " + with
		}
		at(what, a.Treated, b.Treated)
	}
	minutes := func(what string, x, y float64) {
		p.row(form, what, min1(x), min1(y), less(x, y))
	}
	minutes("The arm short of blood", a.Ischaemia, b.Ischaemia)
	minutes("Pressure under the target", a.Under, b.Under)
	minutes("Pressure over the upper limit", a.Over, b.Over)
	minutes("Time before any drug", a.NoDrug, b.NoDrug)
	minutes("Then without drug", a.DrugFree, b.DrugFree)
	if x, y := h.Before.Result.Ended, other.Result.Ended; x != y {
		at("The hour ends", x, y)
	}
	drugs := intoTissue(a, b)
	if len(drugs) == 0 {
		p.row(form, "Drug into tissue", "none", "none", "")
	}
	for _, d := range drugs {
		p.row(form, "Into tissue: "+d, amount(a.Tissue, d), amount(b.Tissue, d), "")
	}
	points := func(s scoring.Sheet) string { return fmt.Sprintf("%g of %g", s.Earned, s.OutOf) }
	p.row(form, "Points", points(h.Before.Sheet), points(other.Sheet), "")
	see := ""
	if h.Before.Sheet.Passed && !other.Sheet.Passed {
		see = "see the marks"
	}
	p.row(form, "Result", passed(h.Before.Sheet), passed(other.Sheet), see)
	if a.Short || b.Short {
		p.say("", "The arm was still short of blood at the end of %s, so that time is cut off there: drug into tissue tells more.", whichShort(a, b))
	}
	if a.Treatment != b.Treatment && a.Treatment != "" && b.Treatment != "" {
		p.say("", "First treatment: as it was, %s; in the other hour, %s.", a.Treatment, b.Treatment)
	}
	if a.First != b.First {
		p.say("", "First finding: as it was, %s; in the other hour, %s.", orNone(a.First), orNone(b.First))
	}
	p.say("", "A difference under %g min is less than the model can tell apart.", LeastMin)
}

// whenWas is the time of something; what ran when the case opened was before that.
func whenWas(t sim.Time) string {
	if t == 0 {
		return "before 0:00"
	}
	return t.Clock()
}

// intoTissue are the drugs that went into tissue in either hour.
func intoTissue(a, b Figures) []string {
	var out []string
	for _, d := range slices.Concat(a.Tissue, b.Tissue) {
		if !slices.Contains(out, d.Drug) {
			out = append(out, d.Drug)
		}
	}
	return out
}

// amount is what went into tissue of a drug, in its own unit.
func amount(in []sim.TissueDrug, name string) string {
	unit, step := "mcg", 1.0
	if d, ok := drug.Named(name); ok && d.Base == "units" {
		unit, step = d.Base, 0.001
	}
	for _, d := range in {
		if d.Drug == name {
			return quantity.Number(quantity.Round(d.Amount, step)) + " " + unit
		}
	}
	return "0 " + unit
}

// whichShort names the hours at whose end the arm was short of blood.
func whichShort(a, b Figures) string {
	switch {
	case a.Short && b.Short:
		return "both hours"
	case a.Short:
		return "the hour as it was"
	}
	return "the other hour"
}

func passed(s scoring.Sheet) string {
	if s.Passed {
		return "passed"
	}
	return "not passed"
}

func min1(v float64) string { return tenths(v) + " min" }

func tenths(v float64) string { return quantity.Number(quantity.Round(v, 0.1)) }

func less(x, y float64) string {
	switch d := x - y; {
	case d >= 0.05:
		return tenths(d) + " less"
	case d <= -0.05:
		return tenths(-d) + " more"
	}
	return ""
}

func sooner(x, y sim.Time) string {
	switch {
	case x == sim.Never || y == sim.Never || x/sim.Minute == y/sim.Minute:
		return ""
	case y < x:
		return fmt.Sprintf("%d min earlier", x/sim.Minute-y/sim.Minute)
	}
	return fmt.Sprintf("%d min later", y/sim.Minute-x/sim.Minute)
}

func orNone(s string) string {
	if s == "" {
		return "none"
	}
	return s
}
