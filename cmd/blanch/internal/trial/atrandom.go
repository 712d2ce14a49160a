package trial

import (
	"blanch/sim"
	"blanch/sim/luck"
	"blanch/sim/sentence"
)

// actions is the table of actions; it never changes.
var actions = sim.Actions()

const (
	randomActs = 150             // at most
	randomWait = 90 * sim.Second // between two acts, on average
	randomAway = 15              // min away from the bed, at most
	proposals  = 6
)

// numbers are what stands in holes for numbers, now and then absurdly.
var numbers = map[string][]float64{
	"rate": {0.5, 5, 10, 15, 20, 40, 120, 600}, "volume": {2, 5, 10, 20}, "span": {1, 5, randomAway},
	"mass": {1, 5, 10}, "amount": {1, 4, 8, 16},
}

// playAtRandom does anything at any time.
func (l *learner) playAtRandom() {
	n := 0
	draw := func(of int) int {
		n++
		return int(luck.Bits(l.luck, "anything", "", n) % uint64(of))
	}
	for !l.over() && l.acts < randomActs {
		wait := sim.Time(luck.Between(l.luck, "waits", "", n, 0, 2*randomWait.Seconds())) * sim.Second
		l.wait(l.now()+wait, l.see)
		var a sim.Action
		fits := false
		for range proposals { // the screen says what cannot be done
			if a, fits = l.anything(draw); fits && l.e.Possible(a) == "" {
				break
			}
		}
		if fits && !l.over() {
			l.acts++
			if _, ok := l.do(a, l.see); ok {
				l.wait(l.free(a), l.see)
			}
		}
	}
}

// anything is an action with something in every hole, where something fits.
func (l *learner) anything(draw func(int) int) (a sim.Action, fits bool) {
	s := &actions[draw(len(actions))]
	a, fits = sim.Action{Name: s.Name}, true
	for _, h := range s.Holes() {
		arg, ok := l.anyOf(h, draw)
		fits = fits && ok
		a.Args = append(a.Args, arg)
	}
	return a, fits
}

// anyOf puts something into a hole.
func (l *learner) anyOf(h sentence.Hole, draw func(int) int) (sentence.Arg, bool) {
	if len(h.Choices) > 0 {
		if h.Kind == "facts" {
			from := draw(len(h.Choices))
			return listed(h.Kind, h.Choices[from:]), true
		}
		return word(h.Kind, h.Choices[draw(len(h.Choices))]), true
	}
	switch h.Kind {
	case "gauge", "length":
		c := l.p.cannulae[draw(len(l.p.cannulae))]
		if h.Kind == "gauge" {
			return plain(h.Kind, float64(c.Gauge)), true
		}
		return plain(h.Kind, c.LengthMM), true
	case "angle":
		return plain(h.Kind, float64(5+5*draw(15))), true
	case "diluent":
		if len(l.p.bagsML) == 0 {
			return sentence.Arg{}, false
		}
		return measured(h.Kind, l.p.bagsML[draw(len(l.p.bagsML))], unitML), true
	case "text":
		return word(h.Kind, "10 mL/h"), true
	}
	if from := numbers[h.Kind]; from != nil {
		unit := unitML
		switch h.Kind {
		case "rate":
			unit = unitMLH
		case "span":
			unit = unitMin
		case "mass":
			unit = unitMG
		case "amount":
			unit = unitMG
			if l.drug.Base == "units" {
				unit = unitUnits
			}
		}
		return measured(h.Kind, from[draw(len(from))], unit), true
	}
	names := l.e.Vocabulary(h.Kind)
	if len(names) == 0 {
		return sentence.Arg{}, false
	}
	return word(h.Kind, names[draw(len(names))]), true
}
