package scoring

import (
	"slices"

	"blanch/scenarios"
	"blanch/sim"
	"blanch/sim/sentence"
	"blanch/sim/tissue"
)

// set is a closed list of names that one argument of a fact may be.
type set uint8

const (
	acts set = iota + 1
	roles
	signs
	verdicts
	plans
	sums
	requests
	given
	people
	calls
	checks
	drugs
	sharings
)

// what the names of a set are called in messages.
func (s set) what() string {
	return map[set]string{
		acts: "action", roles: "role of a line", signs: "sign", verdicts: "verdict", plans: "plan",
		sums: "sum that this case asks for", requests: "request", given: "fact that a call can give",
		people: "role of a person", calls: "call of this case", checks: "second check", drugs: "drug ordered in this case", sharings: "way to share a line",
	}[s]
}

// standIn stands for an argument in a signature.
func (s set) standIn() string {
	return map[set]string{
		acts: "act", roles: "line", signs: "sign", verdicts: "verdict", plans: "plan", sums: "sum",
		requests: "request", given: "fact", people: "person", calls: "call", checks: "what", drugs: "drug", sharings: "what",
	}[s]
}

// The roles that a line can have in a run.
const (
	firstPressor = "first pressor line"
	pressor      = "pressor line"
	leaking      = "leaking line"
	second       = "second line"
	central      = "central line"
)

// anyone is every person who can be called.
const anyone = "anyone"

// names lists the set for this case.
func (s set) names(c *scenarios.Case) []string {
	var out []string
	switch s {
	case acts:
		for _, a := range sim.Actions() {
			out = append(out, a.Name)
		}
	case roles:
		out = []string{firstPressor, pressor, leaking, second, central}
	case signs:
		for _, sign := range tissue.Signs() {
			out = append(out, string(sign))
		}
	case verdicts:
		hole, _ := sentence.Named("verdict")
		out = hole.Choices
	case plans:
		hole, _ := sentence.Named("plan")
		out = hole.Choices
	case sums:
		for _, q := range c.Ask {
			out = append(out, q.ID)
		}
	case requests:
		out = sentence.Requests
	case given:
		out = sentence.Facts
	case people:
		out = []string{anyone, string(sim.Nurse), string(sim.Doctor), string(sim.Operator), string(sim.Surgeon), string(sim.Colleague), string(sim.Pharmacist)}
	case calls:
		for _, call := range c.Calls {
			out = append(out, call.ID)
		}
	case checks:
		out = scenarios.SecondCheckMoments
	case drugs:
		out = []string{c.Order.Drug}
		for _, o := range c.Also {
			out = append(out, o.Drug)
		}
	case sharings:
		out = []string{"flush", "other-vasopressor"}
	}
	return slices.Clone(out)
}
