package trial

import "blanch/sim"

// infusion is one drug on its way to the patient: what is ordered of it, and
// how far the learner has come with it.
type infusion struct {
	prescription
	number int  // among the infusions of this learner
	others bool // others started it

	pump    string
	stepMLH float64
	mostMLH float64

	bag      string
	making   bool    // a bag is being made up
	newConc  float64 // of the bag made last
	conc     float64 // of what hangs, as labelled
	hung     bool
	primed   bool
	set      float64 // mL/h
	on       int     // index of the line it is connected to, -1
	running  bool
	began    sim.Time // first start
	toldRate float64  // the learner's own answer to what rate, 0 before
	outside  bool     // a second person, or the pump, said stop
	capped   float64  // a rate that the pump refused
	lowBag   bool
	emptyBag bool
	blocked  int      // alarms
	renewing bool     // the next bag is being made ready
	lastSet  sim.Time // the last change of the rate
	bagSeen  sim.Time // its volume is thought of again then

	changedOver bool // it has moved to another line

	leaking int      // index of the line, -1
	treated sim.Time // the antidote; Never
	retired int      // the arm line that it left for a central one, -1
}

// setOut readies an infusion for each order.
func (m *memory) setOut(p *papers) {
	for i := range p.ordered {
		m.infusions = append(m.infusions, fresh(p.ordered[i], i))
	}
	m.infusion = &m.infusions[0]
}

func fresh(rx prescription, number int) infusion {
	return infusion{prescription: rx, number: number, on: -1, leaking: -1, retired: -1, began: sim.Never, treated: sim.Never}
}

// arrive looks round the bed: what runs, through which line, from which bag,
// and what the screen shows.
func (l *learner) arrive() {
	v := l.e.View()
	for _, in := range v.Infusions {
		if in.Bag == "" {
			continue
		}
		f := l.infusionOf(in.Drug)
		if f == nil { // nobody has ordered it, and it is watched all the same
			l.infusions = append(l.infusions, fresh(l.p.prescribed(sim.Order{Drug: in.Drug}), len(l.infusions)))
			f = &l.infusions[len(l.infusions)-1]
		}
		l.usePump(f, in.Pump)
		f.bag, f.conc, f.newConc, f.hung, f.primed = in.Bag, in.Conc, in.Conc, true, true
		f.set, f.running, f.others, f.began, f.lastSet = in.MLH, in.Running, true, l.now(), l.now()-settles
		f.on = l.line(in.Line)
		if f.on >= 0 {
			k := &l.lines[f.on]
			k.since, k.carried, k.proved = l.now(), in.Drug, true
		}
		l.heldOnce = true
	}
	l.infusion = &l.infusions[0]
	if n := len(v.Shown); n > 0 {
		l.shown, l.shownAt = v.Shown[n-1].MmHg, v.Shown[n-1].At
	}
}

// infusionOf is the infusion of a drug, nil when there is none.
func (m *memory) infusionOf(drug string) *infusion {
	for i := range m.infusions {
		if m.infusions[i].order.Drug == drug {
			return &m.infusions[i]
		}
	}
	return nil
}

// onPump is the infusion that has a pump, nil when there is none.
func (m *memory) onPump(id string) *infusion {
	for i := range m.infusions {
		if m.infusions[i].pump == id {
			return &m.infusions[i]
		}
	}
	return nil
}

func (l *learner) usePump(f *infusion, id string) {
	for _, p := range l.p.pumps {
		if p.ID == id {
			f.pump, f.stepMLH, f.mostMLH = p.ID, p.StepMLH, p.MostMLH
		}
	}
}

// takePump finds a free pump, one that knows limits before others, and says
// whether there is one.
func (l *learner) takePump() bool {
	if l.pump != "" {
		return true
	}
	best := -1
	for i, p := range l.p.pumps {
		if l.onPump(p.ID) != nil {
			continue
		}
		if best < 0 || len(p.Library) > 0 && len(l.p.pumps[best].Library) == 0 {
			best = i
		}
	}
	if best < 0 {
		return false
	}
	l.usePump(l.infusion, l.p.pumps[best].ID)
	return true
}

// forFirst is a skill that concerns the infusion with a pressure to keep.
func forFirst(skill func(*learner) turn) func(*learner) turn {
	return func(l *learner) turn {
		l.infusion = &l.infusions[0]
		return skill(l)
	}
}

// forEach is a skill that concerns every infusion, the first of them first.
// To wait for one does not keep a learner from another, nor from the arm.
func forEach(skill func(*learner) turn) func(*learner) turn {
	return func(l *learner) turn {
		waiting := passed
		for i := range l.infusions {
			l.infusion = &l.infusions[i]
			switch t := skill(l); {
			case t == acted:
				return acted
			case t == waits && (len(l.infusions) == 1 || !l.anyRuns()):
				waiting = waits
			}
		}
		l.infusion = &l.infusions[0]
		return waiting
	}
}

// anyRuns says that some drug runs.
func (m *memory) anyRuns() bool {
	for i := range m.infusions {
		if m.infusions[i].running {
			return true
		}
	}
	return false
}

// anyBegan says that some drug has run.
func (m *memory) anyBegan() bool {
	for i := range m.infusions {
		if m.infusions[i].began < sim.Never {
			return true
		}
	}
	return false
}

// elsewhere says that another infusion than this one has the line.
func (l *learner) elsewhere(line int) bool {
	for i := range l.infusions {
		if i != l.number && l.infusions[i].on == line {
			return true
		}
	}
	return false
}

// inUse says that an infusion has the line.
func (m *memory) inUse(line int) bool {
	for i := range m.infusions {
		if m.infusions[i].on == line {
			return true
		}
	}
	return false
}

// isDue says that an infusion ought to be on its way by now: the first one at
// once, another when its order or the dose of the first calls for it.
func (l *learner) isDue() bool {
	if l.number == 0 {
		return true
	}
	first := &l.infusions[0]
	if l.order.Start.Unit.IsZero() || first.began == sim.Never || first.leaking >= 0 && !first.running {
		return false
	}
	dose := first.set * first.conc / 60
	switch {
	case l.fromDose > 0:
		return dose >= l.fromDose*(1-1e-9)
	case l.onDemand:
		return dose >= 0.9*l.p.most(&first.prescription) && l.shown < first.order.TargetMmHg
	}
	return true
}
