package sim

import (
	"blanch/sim/line"
)

// pumpState is a pump with its infusion set.
type pumpState struct {
	Pump
	rate         float64 // mL/h as set
	running      bool
	bag          *bagState
	tubing       line.Column
	primed       bool
	site         *site
	run          int // index of the open run; -1
	warned       bool
	warnedOf     warned // by its library
	presses      press  // while it runs against a blockage
	blockedAlarm Time   // when it will notice that nothing goes through; Never
}

// press is a pump running against a blockage.
type press struct {
	line  int     // of Engine.records; the zero press has no rate
	rate  float64 // mL/h
	since float64 // s
	ml    float64 // that tubing and set could still take up then
}

// bagState is a bag on or off a pump, or a syringe of antidote.
type bagState struct {
	BagRecord
	agent int     // of what is in it
	left  float64 // mL
	came  bool    // made up by others: premixed, or running when the case opened
	pump  *pumpState
}

func (b *bagState) fluid() line.Fluid { return line.Fluid{Drug: b.agent, Conc: b.True} }

// flow is what reaches the hub of a site: mL/s and the concentrations on
// the way.
type flow struct {
	q       float64
	inflow  line.Fluid // enters the site's column
	tip     line.Fluid // leaves the cannula
	pump    *pumpState
	untilML float64 // until something on the way changes
	empties bool    // what changes is that the bag is empty
}

// flows is what flows through a site, nil when nothing does. It follows from
// the state alone, so it is kept until that changes.
func (s *site) flows() *flow {
	if !s.known {
		s.flow, s.moves = s.findFlow()
		s.known = true
	}
	if !s.moves {
		return nil
	}
	return &s.flow
}

// movedOn brings what flows into line with ml of it having passed: it stays the
// same up to its next change.
func (s *site) movedOn(ml float64) {
	f := &s.flow
	if ml >= f.untilML {
		s.known = false
		return
	}
	f.untilML -= ml
	f.empties = f.pump != nil && f.pump.bag.left <= f.untilML
}

func (s *site) findFlow() (f flow, on bool) {
	switch {
	case s.flush > 0 && !s.blocked():
		f.q = s.flush
	case s.pump != nil && s.pump.delivers():
		p := s.pump
		f.pump, f.q = p, p.rate/3600
		f.inflow = p.tubing.Out(p.bag.fluid())
	default:
		return f, false
	}
	f.tip = s.column.Out(f.inflow)
	f.untilML = s.column.UntilFront(f.inflow)
	if f.pump != nil {
		f.untilML = min(f.untilML, f.pump.tubing.UntilFront(f.pump.bag.fluid()))
		if f.pump.bag.left <= f.untilML {
			f.untilML, f.empties = f.pump.bag.left, true
		}
	}
	return f, true
}

// delivers says that fluid is moving out of the pump.
func (p *pumpState) delivers() bool {
	return p.running && p.rate > 0 && p.bag != nil && p.bag.left > 0 &&
		p.site != nil && p.site.held == 0 && !p.site.cuffed && !p.site.blocked()
}

// stream is what flows through the tip: mL/s of a fluid.
type stream struct {
	q   float64
	tip line.Fluid
}
