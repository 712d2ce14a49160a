package scoring

import (
	"fmt"

	"blanch/scenarios"
	"blanch/sim"
)

// Play drives the engine by timed steps to the end of the case. A fault is a
// step that could not be carried out, with its place and the reason; the
// steps after it are still played. The error is for a case that cannot be
// played at all.
func Play(c *scenarios.Case, place *sim.Place, seed uint64, steps []scenarios.Step) (*sim.Result, []string, error) {
	result, faults, err := play(c, place, seed, steps)
	said := make([]string, len(faults))
	for i, f := range faults {
		said[i] = fmt.Sprintf("%s:%d:%d: %s", f.Pos.File, f.Pos.Line, f.Pos.Column, f.Said)
	}
	return result, said, err
}

// play is Play with faults that can be pointed at.
func play(c *scenarios.Case, place *sim.Place, seed uint64, steps []scenarios.Step) (*sim.Result, []scenarios.Complaint, error) {
	e, err := sim.New(&c.Case, place, seed)
	if err != nil {
		return nil, nil, err
	}
	var faults []scenarios.Complaint
	fault := func(step scenarios.Step, code, said, allowed string) {
		faults = append(faults, scenarios.Complaint{Level: scenarios.Error, Code: code, Pos: step.Pos, Said: said, Allowed: allowed})
	}
	free := e.Now()
	for _, step := range steps {
		var action sim.Action
		var unread error
		if step.Said != "" {
			action, unread = sim.ParseAction(step.Said)
			free = max(free, e.FreeFor(action))
		} else {
			free = max(free, e.HandsFree())
		}
		at := free
		switch step.When {
		case scenarios.AtTime:
			at = step.At
			if at < e.Now() {
				fault(step, "step-too-early", fmt.Sprintf("at %s is before the step above it, at %s", at.Exact(), e.Now().Exact()), "steps in the order of time")
			}
		case scenarios.After:
			at = max(at, e.Now()) + step.At
		}
		e.Advance(max(at, e.Now()))
		free = e.Now()
		switch {
		case step.Said == "":
			continue
		case unread != nil:
			fault(step, "unknown-action", unread.Error(), "a sentence of the list of actions")
			continue
		}
		for _, entry := range e.Do(action) {
			if entry.Kind == sim.Refused {
				fault(step, "step-refused", fmt.Sprintf("refused at %s: %s", entry.At.Exact(), entry.Why), "an action that is possible then")
				break
			}
		}
	}
	e.Advance(c.Ends)
	return e.Result(), faults, nil
}
