package session

import (
	"fmt"
	"strings"

	"blanch/sim"
	"blanch/sim/drug"
	"blanch/sim/quantity"
)

// View is how things stand, in plain words. What matters for safety comes
// first and is in Status too.
type View struct {
	Clock     string   // "0:47:10"
	Pressure  string   // "mean 61 (cuff 0:45)"
	Course    []string // the last readings, oldest first: "0:40 63"
	Target    string
	Infusions []string
	Running   []string // short, of the infusions that run
	Lines     []string
	Bags      []string
	People    []string
	Calls     []string
	Sums      []string
	Hands     string
	InHand    string
	Central   string
	Kit       string   // the extravasation kit as it was found; empty before it was fetched
	Wanted    []string // IDs of open calls
	Open      []string // IDs of open sums
}

// shownReadings is how much of the pressure's course is shown.
const shownReadings = 8

// View copies the present.
func (s *Session) View() View {
	v := s.e.View()
	out := View{Clock: v.Now.Exact(), InHand: v.InHand, Central: v.Central}
	for _, r := range v.Shown[max(0, len(v.Shown)-shownReadings):] {
		out.Course = append(out.Course, fmt.Sprintf("%s %s", r.At.Clock(), quantity.Number(r.MmHg)))
		out.Pressure = fmt.Sprintf("mean %s (cuff %s)", quantity.Number(r.MmHg), r.At.Clock())
	}
	for _, in := range v.Infusions {
		out.Infusions = append(out.Infusions, infusion(in))
		if in.Running {
			out.Running = append(out.Running, fmt.Sprintf("%s %s into %s", in.Pump, rate(in), in.Line))
		}
	}
	for _, l := range v.Lines {
		out.Lines = append(out.Lines, line(l, v.Now))
	}
	for _, b := range v.Bags {
		out.Bags = append(out.Bags, bag(b))
	}
	for _, p := range v.People {
		out.People = append(out.People, person(p))
	}
	for _, c := range v.Calls {
		out.Calls = append(out.Calls, fmt.Sprintf("%s, since %s: %s", c.ID, c.Since.Clock(), oneLine(c.Text)))
		out.Wanted = append(out.Wanted, c.ID)
	}
	for _, q := range v.Sums {
		out.Sums = append(out.Sums, fmt.Sprintf("%s (in %s): %s  Answer: give %s as ...", q.ID, q.Unit, oneLine(q.Text), q.ID))
		out.Open = append(out.Open, q.ID)
	}
	out.Kit = s.kit()
	out.Hands = "hands free"
	if v.Hands != "" {
		out.Hands = fmt.Sprintf("hands busy until %s: %s", v.HandsTo.Exact(), v.Hands)
	}
	if v.Voice != "" {
		out.Hands += fmt.Sprintf(", speaking until %s", v.VoiceTo.Exact())
	}
	return out
}

func rate(in sim.InfusionView) string {
	s := quantity.Number(in.MLH) + " mL/h"
	if in.McgMin > 0 {
		unit, step := measuredIn(in.Drug)
		s += fmt.Sprintf(" = %s %s/min", quantity.Number(quantity.Round(in.McgMin, step)), unit)
	}
	return s
}

func infusion(in sim.InfusionView) string {
	parts := []string{in.Pump + ": stopped"}
	if in.Running {
		parts[0] = in.Pump + ": running"
	}
	if in.MLH > 0 {
		parts = append(parts, rate(in))
	}
	if in.Bag == "" {
		parts = append(parts, "no bag")
	} else {
		parts = append(parts, fmt.Sprintf("%s, %s, %s mL left", in.Bag, strength(in.Drug, in.Conc), quantity.Number(quantity.Round(in.LeftML, 1))))
	}
	if in.Line == "" {
		parts = append(parts, "not connected")
	} else {
		parts = append(parts, "into "+in.Line)
	}
	if in.EmptyIn != sim.Never {
		parts = append(parts, "empties in "+span(in.EmptyIn))
	}
	return strings.Join(parts, "; ")
}

func line(l sim.LineView, now sim.Time) string {
	parts := []string{l.Name + ": " + l.About}
	if !l.In {
		parts = append(parts, "taken out")
	}
	if l.Pump != "" {
		parts = append(parts, "on "+l.Pump)
	}
	if l.Covered {
		parts = append(parts, "covered")
	}
	return strings.Join(append(parts, "looked at "+ago(l.LastLook, now), "felt "+ago(l.LastFeel, now)), "; ")
}

func bag(b sim.BagRecord) string {
	parts := []string{fmt.Sprintf("%s: %s, %s mL", b.ID, strength(b.Drug, b.Nominal), quantity.Number(quantity.Round(b.VolumeML, 0.1)))}
	if b.LabelledAt == sim.Never {
		parts = append(parts, "no label")
	}
	if b.CheckedAt != sim.Never {
		parts = append(parts, "checked at "+b.CheckedAt.Clock())
	}
	return strings.Join(parts, "; ")
}

// strength is a drug with its concentration, where that is known.
func strength(name string, perML float64) string {
	if perML == 0 {
		return name
	}
	return fmt.Sprintf("%s %s", name, concentration(name, perML))
}

// concentration is an amount a mL in the unit the drug is measured in.
func concentration(name string, perML float64) string {
	unit, step := measuredIn(name)
	return fmt.Sprintf("%s %s/mL", quantity.Number(quantity.Round(perML, step)), unit)
}

// measuredIn is the unit that amounts of a drug are kept in, with the step to
// which they are shown: a unit of vasopressin is a large amount.
func measuredIn(name string) (unit string, step float64) {
	if d, ok := drug.Named(name); ok && d.Base == "units" {
		return d.Base, 0.001
	}
	return "mcg", 0.01
}

func person(p sim.PersonView) string {
	s := fmt.Sprintf("%s (%s): not here", p.ID, p.Role)
	switch {
	case p.Busy != "" && away(p.Busy):
		return fmt.Sprintf("%s (%s): away, to %s", p.ID, p.Role, p.Busy)
	case p.Busy != "":
		return fmt.Sprintf("%s (%s): at the bed, busy: %s", p.ID, p.Role, p.Busy)
	case p.Here:
		return fmt.Sprintf("%s (%s): at the bed", p.ID, p.Role)
	case p.Comes != sim.Never:
		return s + ", on the way"
	}
	return s
}

// away says that an act is done away from the bed.
func away(said string) bool {
	a, err := sim.ParseAction(said)
	spec, known := sim.ActionNamed(a.Name)
	return err == nil && known && spec.Away
}

// span writes a stretch of time as a nurse says it.
func span(t sim.Time) string {
	switch {
	case t < sim.Minute:
		return fmt.Sprintf("%d s", t/sim.Second)
	case t < sim.Hour:
		return fmt.Sprintf("%d min", t/sim.Minute)
	case t%sim.Hour < sim.Minute:
		return fmt.Sprintf("%d h", t/sim.Hour)
	}
	return fmt.Sprintf("%d h %d min", t/sim.Hour, t%sim.Hour/sim.Minute)
}

func ago(t, now sim.Time) string {
	if t == sim.Never {
		return "never"
	}
	if now-t < sim.Second {
		return "just now"
	}
	return span(now-t) + " ago"
}

// Status is the line that stands above every prompt, in its parts.
func (v View) Status() []string {
	parts := []string{v.Clock, v.Pressure}
	if len(v.Running) == 0 {
		parts = append(parts, "nothing is running")
	}
	parts = append(parts, v.Running...)
	if len(v.Wanted) > 0 {
		parts = append(parts, "wanted: "+strings.Join(v.Wanted, ", "))
	}
	if len(v.Open) > 0 {
		parts = append(parts, "sums open: "+strings.Join(v.Open, ", "))
	}
	return append(parts, v.Hands)
}

// now shows how things stand.
func (s *Session) now(string) []Line {
	v := s.View()
	lines := []Line{
		row("%s  %s  %s", v.Clock, v.Pressure, v.Hands),
		told("Mean pressure by cuff, mmHg: %s", strings.Join(v.Course, ", ")),
	}
	list := func(name string, items []string) {
		if len(items) == 0 {
			return
		}
		lines = append(lines, heading(name))
		for _, item := range items {
			lines = append(lines, Line{Kind: Told, Text: "- " + item})
		}
	}
	list("Wants you", v.Calls)
	list("Sums asked", v.Sums)
	list("Infusions", v.Infusions)
	list("Lines", v.Lines)
	list("Bags and syringes", v.Bags)
	list("People", v.People)
	if v.InHand != "" {
		lines = append(lines, told("In your hand: %s.", v.InHand))
	}
	if v.Central != "" {
		lines = append(lines, told("Central access: %s.", v.Central))
	}
	if v.Kit != "" {
		lines = append(lines, told("Extravasation kit: %s", v.Kit))
	}
	return lines
}

// kit is what was found when the extravasation kit was last fetched.
func (s *Session) kit() string {
	for i := len(s.entries) - 1; i >= 0; i-- {
		if en := s.entries[i]; en.Kind == sim.Found && en.Act == "fetch-kit" {
			return fmt.Sprintf("fetched at %s: %s.", en.At.Clock(), strings.TrimSuffix(oneLine(en.Word), "."))
		}
	}
	return ""
}
