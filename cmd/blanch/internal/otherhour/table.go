package otherhour

import (
	"fmt"

	"blanch/scoring"
	"blanch/sim"
	"blanch/sim/quantity"
)

// sideBySide sets the figures of both hours beside each other.
func (h *Hour) sideBySide(p *page, other Played) {
	a, b := FiguresOf(h.Before.Result), FiguresOf(other.Result)
	const form = "%-38s %12s %12s  %s"
	p.row(form, "", "as it was", "other hour", "")
	at := func(what string, x, y sim.Time) {
		p.row(form, what, x.Clock(), y.Clock(), sooner(x, y))
	}
	at("Drug first in the blood", h.Before.Result.Outcome.FirstDrug, other.Result.Outcome.FirstDrug)
	if a.Visible < sim.Never || b.Visible < sim.Never {
		at("A look could first find the leak", a.Visible, b.Visible)
		at("Found, or judged to be leaking", a.Found, b.Found)
		at("Nothing runs through it any more", a.Stopped, b.Stopped)
		at("Antidote first in", a.Antidote, b.Antidote)
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
	p.row(form, "Drug into tissue", fmt.Sprintf("%.0f mcg", a.TissueMcg), fmt.Sprintf("%.0f mcg", b.TissueMcg), "")
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
	if a.First != b.First {
		p.say("", "First finding: as it was, %s; in the other hour, %s.", orNone(a.First), orNone(b.First))
	}
	p.say("", "A difference under %g min is less than the model can tell apart.", LeastMin)
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
