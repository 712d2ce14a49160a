package trial

import (
	"blanch/sim"
	"blanch/sim/quantity"
	"blanch/sim/sentence"
)

// bed is the door between a learner and the engine. What is hidden does not
// pass it.
type bed struct {
	e *sim.Engine
}

// do begins an action. It gives what was shown at once, and the reason when
// it was refused.
func (b bed) do(a sim.Action, see func(*sim.Entry)) (refused string, ok bool) {
	shown := b.e.Do(a)
	b.show(shown, see)
	if first := &shown[0]; first.Kind == sim.Refused {
		return first.Why, false
	}
	return "", true
}

// wait moves on to a time, or as far as the case goes.
func (b bed) wait(to sim.Time, see func(*sim.Entry)) { b.show(b.e.Advance(to), see) }

func (b bed) show(entries []sim.Entry, see func(*sim.Entry)) {
	for i := range entries {
		if entries[i].Kind != sim.Hidden {
			see(&entries[i])
		}
	}
}

func (b bed) now() sim.Time { return b.e.Now() }
func (b bed) over() bool    { return b.e.Over() }

// reckon is an honest calculation of a sum that was asked.
func (b bed) reckon(id string) (quantity.Quantity, bool) { return b.e.Reckoned(id) }

// free is when what an action held is free again.
func (b bed) free(a sim.Action) sim.Time {
	if a.By != "" {
		return b.e.Now()
	}
	return max(b.e.HandsFree(), b.e.FreeFor(a))
}

// Actions, without a sentence to be read.

func act(name string, args ...sentence.Arg) sim.Action { return sim.Action{Name: name, Args: args} }

func word(kind, w string) sentence.Arg { return sentence.Arg{Kind: kind, Word: w} }

func measured(kind string, v float64, unit quantity.Unit) sentence.Arg {
	return sentence.Arg{Kind: kind, Number: v, Quantity: quantity.Quantity{Value: v, Unit: unit}}
}

var (
	unitML    = quantity.MustUnit("mL")
	unitMLH   = quantity.MustUnit("mL/h")
	unitMG    = quantity.MustUnit("mg")
	unitUnits = quantity.MustUnit("units")
	unitMin   = quantity.MustUnit("min")
)

func plain(kind string, v float64) sentence.Arg { return sentence.Arg{Kind: kind, Number: v} }

func listed(kind string, of []string) sentence.Arg { return sentence.Arg{Kind: kind, List: of} }

func onLine(name, line string) sim.Action { return act(name, word("line", line)) }
