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
	p := player{engine: e}
	for _, step := range steps {
		p.step(step)
	}
	e.Advance(c.Ends)
	return e.Result(), p.faults, nil
}

// player carries out one step after another.
type player struct {
	engine *sim.Engine
	faults []scenarios.Complaint
	last   sim.Action // the learner's own last action
}

func (p *player) fault(at scenarios.Pos, code, said, allowed string) {
	p.faults = append(p.faults, scenarios.Complaint{Level: scenarios.Error, Code: code, Pos: at, Said: said, Allowed: allowed})
}

func (p *player) step(step scenarios.Step) {
	e := p.engine
	var action sim.Action
	if step.Said != "" {
		var err error
		if action, err = sim.ParseAction(step.Said); err != nil {
			p.fault(step.SaidAt, "unknown-action", err.Error(), "a sentence of the list of actions")
			return
		}
	}
	at := max(e.HandsFree(), e.FreeFor(p.last))
	switch step.When {
	case scenarios.AtTime:
		at = step.At
		if at < e.Now() {
			p.fault(step.Pos, "step-too-early", fmt.Sprintf("%s has passed: the step before it began at %s", at.Exact(), e.Now().Exact()), "steps in the order of time")
		}
	case scenarios.After:
		at += step.At
	case scenarios.Then:
		if step.Said != "" {
			at = max(at, e.FreeFor(action))
		}
	}
	e.Advance(max(at, e.Now()))
	if step.Said == "" {
		return
	}
	if action.By == "" {
		p.last = action
	}
	for _, entry := range e.Do(action) {
		if entry.Kind == sim.Refused {
			p.fault(step.SaidAt, "step-refused", fmt.Sprintf("refused at %s: %s", entry.At.Exact(), entry.Why), "an action that is possible then")
			return
		}
	}
}
