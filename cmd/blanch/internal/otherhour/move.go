package otherhour

import (
	"fmt"
	"regexp"
	"strconv"
	"strings"

	"blanch/scenarios"
	"blanch/sim"
	"blanch/sim/quantity"
	"blanch/sim/sentence"
)

// Way says what is done otherwise. The zero value moves nothing.
type Way uint8

// Ways to move a decision.
const (
	Nothing Way = iota
	To          // it begins at another time
	LeftOut     // it is not taken
	As          // one act of it is done with another argument
	Also        // it stands, and its own acts are done at another time as well
	Add         // an act that was not done is done, at a time or before another
)

// Move is one decision moved.
type Move struct {
	Way  Way
	N    int        // number of the decision, except for Add
	At   sim.Time   // for To, Also and Add
	Does sim.Action // for As and Add
	act  int        // for As the act that is changed; for Add the act it comes before, -1 for none
}

// Forms says how a move is written.
const Forms = `"3 earlier by 20 min", "3 later by 5 min", "3 to 1:10", "3 also at 1:10", "3 left out", "3 as set pump-1 to 10.9 mL/h" or "add at 1:10: ask how LINE feels"`

// ParseMove reads a move. The error says what would be right.
func (h *Hour) ParseMove(text string) (Move, error) {
	text = sentence.Tidy(text)
	if rest, ok := strings.CutPrefix(text, "add at "); ok {
		return h.parseAdd(rest)
	}
	number, rest, _ := strings.Cut(text, " ")
	n, err := strconv.Atoi(number)
	if err != nil {
		return Move{}, fmt.Errorf("the move %q does not begin with the number of a decision; write %s", text, Forms)
	}
	d, err := h.Decision(n)
	if err != nil {
		return Move{}, err
	}
	switch {
	case rest == "left out":
		return Move{Way: LeftOut, N: n}, nil
	case strings.HasPrefix(rest, "earlier by "):
		by, err := span(rest[len("earlier by "):])
		if err == nil && by > d.At {
			err = fmt.Errorf("decision %d was taken at %s: it cannot be %s earlier", n, d.At.Exact(), words(by))
		}
		return Move{Way: To, N: n, At: d.At - by}, err
	case strings.HasPrefix(rest, "later by "):
		by, err := span(rest[len("later by "):])
		return h.within(Move{Way: To, N: n, At: d.At + by}, err)
	case strings.HasPrefix(rest, "to "):
		at, err := moment(rest[len("to "):])
		return h.within(Move{Way: To, N: n, At: at}, err)
	case strings.HasPrefix(rest, "also at "):
		at, err := moment(rest[len("also at "):])
		return h.within(Move{Way: Also, N: n, At: at}, err)
	case strings.HasPrefix(rest, "as "):
		return h.parseAs(d, strings.Trim(rest[len("as "):], `"' `))
	}
	return Move{}, fmt.Errorf("what to do with decision %d cannot be read from %q; write %s", n, rest, Forms)
}

// within refuses a time after the end.
func (h *Hour) within(m Move, err error) (Move, error) {
	if err == nil && m.At >= h.until {
		return m, fmt.Errorf("%s is not before the end of the hour, at %s", m.At.Exact(), h.until.Exact())
	}
	return m, err
}

func (h *Hour) parseAs(d *Decision, said string) (Move, error) {
	a, err := sim.ParseAction(said)
	if err != nil {
		return Move{}, err
	}
	for _, i := range d.acts {
		if h.acts[i].action.Name == a.Name {
			return Move{Way: As, N: d.N, Does: a, act: i}, nil
		}
	}
	spec, _ := sim.ActionNamed(a.Name)
	var has []string
	for _, i := range d.own {
		has = append(has, strconv.Quote(h.acts[i].said))
	}
	if len(has) == 0 {
		has = []string{strconv.Quote(h.acts[d.acts[0]].said)}
	}
	return Move{}, fmt.Errorf("decision %d has no act %q; another argument is given in the same sentence, as in %s", d.N, spec.Sentence, strings.Join(has, " or "))
}

func (h *Hour) parseAdd(text string) (Move, error) {
	when, said, found := strings.Cut(text, ": ")
	if !found {
		return Move{}, fmt.Errorf("%q has no colon and act after its time; write %s", "add at "+text, Forms)
	}
	at, err := moment(when)
	if err != nil {
		return Move{}, err
	}
	a, err := sim.ParseAction(strings.Trim(said, `"' `))
	return h.within(Move{Way: Add, At: at, Does: a, act: -1}, err)
}

var clock = regexp.MustCompile(`^(\d{1,2}):([0-5]\d)(?::([0-5]\d))?$`)

// moment reads a time of the case, 1:10 or 1:10:30.
func moment(text string) (sim.Time, error) {
	m := clock.FindStringSubmatch(strings.TrimSpace(text))
	if m == nil {
		return 0, fmt.Errorf("%q is not a time of the case; write hours and minutes such as 1:10, or 1:10:30", text)
	}
	at := sim.Time(0)
	for i, unit := range []sim.Time{sim.Hour, sim.Minute, sim.Second} {
		if m[i+1] != "" {
			n, _ := strconv.Atoi(m[i+1]) // two digits
			at += sim.Time(n) * unit
		}
	}
	return at, nil
}

// span reads a length of time, 20 min or 90 s.
func span(text string) (sim.Time, error) {
	q, err := quantity.Parse(strings.TrimSpace(text))
	if err != nil {
		return 0, fmt.Errorf("%w; write a length of time such as 20 min or 90 s", err)
	}
	s, err := q.In(quantity.MustUnit("s"))
	if err != nil || s < 0 || s > 7*24*3600 {
		return 0, fmt.Errorf("%q is not a length of time from 0 s to a week; write 20 min or 90 s", text)
	}
	return sim.FromSeconds(s), nil
}

// words writes a length of time to the second.
func words(t sim.Time) string {
	return scenarios.TimeWords((t + sim.Second/2) / sim.Second * sim.Second)
}
