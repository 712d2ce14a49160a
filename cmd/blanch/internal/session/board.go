package session

import (
	"fmt"
	"strings"

	"blanch/cmd/blanch/internal/picture"
	"blanch/sim"
	"blanch/sim/quantity"
)

// Board is what stays in sight whatever else is open.
type Board struct {
	Title, Clock, Pace string
	Patient, Order     string
	Pressure           string // "mean pressure  61 mmHg (88/49), pulse 96, at 0:45"
	Mean, At           string // "61 mmHg" and "0:45", where there is little room; empty before the first
	Course             string // "under the target, falling"
	Low                bool   // under the target, once that is known
	Flows              []Flow // pumps that run, then lines that carry nothing
	Cuff               string // "cuff on the left arm"
	Busy               string // "hands busy to 0:31:20"; empty when hands and voice are free
	Hands              string // the same with what is done
	InHand, Central    string
	Calls              []Wanted
	Sums               []Sum
	People             []string // at the bed or on the way
}

// central is the name of a central line.
const central = "central"

// Flow is one line with what runs through it, or one pump without a line.
type Flow struct {
	Name    string // "left-cephalic-forearm"
	Pump    string // empty for a line without one
	Drug    string // in its bag
	About   string // "20 gauge, 47.8 mm"
	What    string // "norepinephrine 16 mcg/mL" or "nothing connected"
	Rate    string // "12.4 mL/h = 3.31 mcg/min, running"; empty without a pump
	Empties string // "bag empties in 19 h 20 min"; empty unless it runs
	Looked  string // "looked at 18 min ago, not felt yet"
	Felt    string // "felt 18 min ago"
	Runs    bool
}

// Wanted is a call that waits for an answer.
type Wanted struct{ ID, Since, Left, Text string }

// Sum is a question that is open.
type Sum struct{ ID, Text, Unit string }

// Board copies the present for a screen.
func (s *Session) Board() Board {
	v, c := s.e.View(), s.a.Case
	b := Board{
		Title: c.Title, Clock: v.Now.Exact(), Pace: s.Pace(),
		Patient: fmt.Sprintf("%s, %s y", c.Patient.Name, quantity.Number(c.Patient.AgeY)),
		Order:   "the order has not been read", InHand: v.InHand, Central: v.Central,
	}
	if s.did("read-notes") {
		b.Patient += fmt.Sprintf(", %s kg", quantity.Number(c.Patient.WeightKG))
	}
	if s.did("read-order") {
		drugs, keep := c.Order.Drug, "keep the mean at"
		for _, also := range c.Also { // with the patient's name it must fit 80 columns
			drugs, keep = drugs+" and "+also.Drug, "mean"
		}
		b.Order = fmt.Sprintf("%s, %s %s to %s mmHg", drugs, keep,
			quantity.Number(c.Order.TargetMmHg), quantity.Number(c.Order.CeilMmHg))
	}
	s.pressure(&b, v)
	b.Cuff = "cuff on the " + s.cuffArm() + " arm"
	b.Flows = s.flows(v)
	if v.Hands != "" {
		b.Busy = "hands busy to " + v.HandsTo.Exact()
		b.Hands = fmt.Sprintf("until %s you %s", v.HandsTo.Exact(), v.Hands)
	} else if v.Voice != "" {
		b.Busy = "speaking to " + v.VoiceTo.Exact()
		b.Hands = fmt.Sprintf("until %s you %s", v.VoiceTo.Exact(), v.Voice)
	}
	for _, call := range v.Calls {
		b.Calls = append(b.Calls, Wanted{call.ID, call.Since.Clock(), span(max(0, call.Until-v.Now)), oneLine(call.Text)})
	}
	for _, q := range v.Sums {
		b.Sums = append(b.Sums, Sum{q.ID, oneLine(q.Text), q.Unit})
	}
	for _, p := range v.People {
		switch {
		case p.Busy != "" && away(p.Busy):
			b.People = append(b.People, p.ID+" away from the bed, busy")
		case p.Busy != "":
			b.People = append(b.People, fmt.Sprintf("%s at the bed, busy", p.ID))
		case p.Here:
			b.People = append(b.People, p.ID+" at the bed")
		case p.Comes != sim.Never:
			b.People = append(b.People, p.ID+" on the way")
		}
	}
	return b
}

// did says that the learner has done it.
func (s *Session) did(act string) bool {
	for _, en := range s.entries {
		if en.Kind == sim.Done && en.Act == act {
			return true
		}
	}
	return false
}

// cuffArm is the arm that the cuff is on.
func (s *Session) cuffArm() string {
	arm := string(s.a.Case.CuffArm)
	for _, en := range s.entries {
		if en.Kind != sim.Done || en.Act != "move-cuff" {
			continue
		}
		if a, err := sim.ParseAction(en.Said); err == nil {
			arm = a.Args[0].Word
		}
	}
	return arm
}

// pressure words the last reading. What the target is, is only known from the
// order.
func (s *Session) pressure(b *Board, v sim.View) {
	if len(v.Shown) == 0 {
		b.Pressure = "mean pressure not taken"
		return
	}
	last := v.Shown[len(v.Shown)-1]
	b.Pressure = fmt.Sprintf("mean pressure %3s mmHg", quantity.Number(last.MmHg))
	if last.Sys > 0 {
		b.Pressure += fmt.Sprintf(" (%s/%s), pulse %s,", quantity.Number(last.Sys), quantity.Number(last.Dia), quantity.Number(last.Rate))
	}
	b.Pressure += " at " + last.At.Clock()
	b.Mean, b.At = quantity.Number(last.MmHg)+" mmHg", last.At.Clock()
	var said []string
	if s.did("read-order") {
		switch o := s.a.Case.Order; {
		case last.MmHg < o.TargetMmHg:
			b.Low = true
			said = append(said, "under the target")
		case last.MmHg > o.CeilMmHg:
			said = append(said, "over the upper limit")
		default:
			said = append(said, "in the range")
		}
	}
	if c := course(v.Shown); c != "" {
		said = append(said, c)
	}
	b.Course = strings.Join(said, ", ")
}

// course is where the pressure goes: the last reading against the mean of the
// two or three before it. A cuff scatters by a few mmHg, so less than that is
// no course, and neither is what the last reading itself goes against.
func course(shown []sim.Shown) string {
	const most, scatter = 3, 3
	last := len(shown) - 1
	if last < 2 {
		return ""
	}
	before := shown[max(0, last-most):last]
	sum := 0.0
	for _, r := range before {
		sum += r.MmHg
	}
	step := shown[last].MmHg - shown[last-1].MmHg
	switch d := shown[last].MmHg - sum/float64(len(before)); {
	case d < -scatter && step < 0:
		return "falling"
	case d > scatter && step > 0:
		return "rising"
	}
	return ""
}

// flows are lines with what runs through them, those that run first.
func (s *Session) flows(v sim.View) []Flow {
	var running, still []Flow
	for _, l := range v.Lines {
		f := Flow{Name: l.Name, About: l.About, What: "nothing connected"}
		f.Looked, f.Felt = s.sinceSeen(l, v.Now), "not felt yet"
		if l.LastFeel != sim.Never {
			f.Felt = "felt " + ago(l.LastFeel, v.Now)
		}
		if l.Name == central {
			f.Looked, f.Felt = "", "" // nobody feels for a leak there
		}
		if !l.In {
			f.About += ", out"
		}
		for _, in := range v.Infusions {
			if in.Line == l.Name {
				s.carry(&f, in)
			}
		}
		if f.Runs {
			running = append(running, f)
		} else {
			still = append(still, f)
		}
	}
	for _, in := range v.Infusions {
		if in.Line == "" && (in.Bag != "" || in.MLH > 0) {
			f := Flow{Name: in.Pump, About: "not connected"}
			s.carry(&f, in)
			still = append(still, f)
		}
	}
	return append(running, still...)
}

func (s *Session) carry(f *Flow, in sim.InfusionView) {
	f.Pump, f.Drug = in.Pump, in.Drug
	f.What = in.Pump + ", no bag"
	if in.Bag != "" {
		f.What = fmt.Sprintf("%s, %s, %s", in.Pump, in.Bag, strength(in.Drug, in.Conc))
	}
	f.Rate = "stopped"
	if in.MLH > 0 {
		f.Rate = rate(in) + ", stopped"
	}
	if in.Running {
		f.Runs, f.Rate = true, rate(in)+", running"
	}
	switch {
	case in.EmptyIn != sim.Never:
		f.Empties = "bag empties in " + span(in.EmptyIn)
	case in.Bag != "" && in.Running:
		f.Empties = quantity.Number(quantity.Round(in.LeftML, 1)) + " mL left"
	}
}

// Trend draws the pressure over time. Rich allows characters beyond ASCII.
func (s *Session) Trend(width, height int, rich bool) []string {
	v := s.e.View()
	now := v.Now.Seconds() / 60
	const shown = 60 // minutes of the past in the picture
	t := picture.Trend{NowMin: now, FromMin: now - shown}
	if s.did("read-order") {
		t.Low, t.High = s.a.Case.Order.TargetMmHg, s.a.Case.Order.CeilMmHg
	}
	for _, r := range v.Shown {
		t.Readings = append(t.Readings, picture.Reading{AtMin: r.At.Seconds() / 60, MmHg: r.MmHg})
	}
	return pen(rich).Trend(t, width, height)
}

func pen(rich bool) picture.Pen {
	if rich {
		return picture.Rich
	}
	return picture.ASCII
}

// sinceSeen says when a site was last looked at and felt, or for one that
// nobody has looked at when the learner placed it.
func (s *Session) sinceSeen(l sim.LineView, now sim.Time) string {
	switch {
	case l.LastLook == sim.Never && l.LastFeel == sim.Never:
		for i := len(s.entries) - 1; i >= 0; i-- {
			if en := s.entries[i]; en.Kind == sim.Done && en.Act == "insert" && en.Subject == l.Name {
				return "placed " + ago(en.At, now)
			}
		}
		return "not looked at yet"
	case l.LastFeel == sim.Never:
		return fmt.Sprintf("looked at %s, not felt yet", ago(l.LastLook, now))
	}
	return fmt.Sprintf("looked at %s, felt %s", ago(l.LastLook, now), ago(l.LastFeel, now))
}
