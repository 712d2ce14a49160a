package scoring

import (
	"fmt"
	"slices"
	"sync"

	"blanch/scenarios"
	"blanch/sim"
)

// Marker marks runs of one case under one policy. It is not changed by
// marking and may be shared.
type Marker struct {
	c      *scenarios.Case
	policy *scenarios.Policy
	rules  []rule
	judges sync.Pool // of *judge, each for one marking at a time
}

type rule struct {
	scenarios.Rule
	applies, when *expression // applies is nil for always
	met, notMet   *prose
}

// Check compiles every rule and text of a case under a policy and gives
// every fault, in the order of the file.
func Check(c *scenarios.Case, p *scenarios.Policy) []scenarios.Complaint {
	_, faults := Compile(c, p)
	return faults
}

// Compile readies the rules of a case under a policy. The marker is nil when
// any complaint is an error.
func Compile(c *scenarios.Case, p *scenarios.Policy) (*Marker, []scenarios.Complaint) {
	m := &Marker{c: c, policy: p}
	var faults []scenarios.Complaint
	for _, source := range c.Rules {
		compiled := rule{Rule: source}
		condition := func(text scenarios.Text, anyPolicy bool) *expression {
			x, wrong := compile(c, p, text, false, text.At)
			if len(wrong) == 0 {
				wrong = constantComplaint(x, c, p, text, anyPolicy)
			}
			faults = append(faults, wrong...)
			if len(wrong) > 0 {
				return nil
			}
			return x
		}
		say := func(text scenarios.Text) *prose {
			said, wrong := compileProse(c, p, text)
			faults = append(faults, wrong...)
			return said
		}
		if source.Applies.Source != "" {
			compiled.applies = condition(source.Applies, true)
		}
		if compiled.when = condition(source.When, false); compiled.when != nil {
			faults = append(faults, lucky(compiled.when, source.When)...)
		}
		compiled.met = say(source.Met)
		compiled.notMet = say(source.NotMet)
		m.rules = append(m.rules, compiled)
	}
	if slices.ContainsFunc(faults, func(c scenarios.Complaint) bool { return c.Level == scenarios.Error }) {
		return nil, faults
	}
	return m, faults
}

// constantComplaint complains about a condition that is always or never true.
func constantComplaint(x *expression, c *scenarios.Case, p *scenarios.Policy, text scenarios.Text, anyPolicy bool) []scenarios.Complaint {
	value, decided := constancy(x, c, p, anyPolicy)
	if !decided {
		return nil
	}
	said := "this is never true"
	if value {
		said = "this is always true"
	}
	return []scenarios.Complaint{{
		Level: scenarios.Error, Code: "constant-condition", Pos: text.At(1, 0),
		Said:    said + ", whatever the learner does",
		Allowed: "a condition that a learner's choices can make true and can make false",
	}}
}

// Verdict is what a rule says of a run. The zero value is invalid.
type Verdict uint8

// Verdicts. What did not apply counts neither for nor against.
const (
	Met Verdict = iota + 1
	NotMet
	DidNotApply
)

// String is the verdict in words.
func (v Verdict) String() string {
	return [...]string{"", "met", "not met", "did not apply"}[v]
}

// Mark is the verdict of one rule on one run.
type Mark struct {
	Rule     string
	Serves   string // objective
	Verdict  Verdict
	Points   float64 // what the rule is worth
	Earned   float64
	Critical bool
	Said     string // what the author has to say to it; empty when it did not apply
	Evidence []int  // indices of the journal entries it rests on, in order
}

// Sheet is every mark of a run. Points of rules that did not apply are in
// neither total. No points make up for a critical rule that was not met.
type Sheet struct {
	Case       string
	Title      string
	Policy     string
	Objectives []scenarios.Objective
	Marks      []Mark // in the order of the case
	Earned     float64
	OutOf      float64
	PassPoints float64 // share of OutOf that passes
	Passed     bool
	Why        []string // what stood in the way; empty when passed
}

// judge is the rules put to one record.
type judge struct {
	record
	rules []ruling
}

// ruling is a rule put to the record of a judge.
type ruling struct {
	*rule
	applies, when *question // applies is nil for always
	met, notMet   words
}

func (m *Marker) newJudge() *judge {
	j := &judge{record: record{policy: m.policy}}
	for i := range m.rules {
		x := &m.rules[i]
		to := ruling{rule: x, when: x.when.of(&j.record), met: x.met.of(&j.record), notMet: x.notMet.of(&j.record)}
		if x.applies != nil {
			to.applies = x.applies.of(&j.record)
		}
		j.rules = append(j.rules, to)
	}
	return j
}

// Mark judges a run. The same run gives the same sheet.
func (m *Marker) Mark(run *sim.Result) Sheet {
	j, ok := m.judges.Get().(*judge)
	if !ok {
		j = m.newJudge()
	}
	r := &j.record
	r.turn(run)
	defer func() { r.Result = nil; m.judges.Put(j) }()
	s := Sheet{
		Case: m.c.ID, Title: m.c.Title, Policy: m.policy.ID,
		Objectives: slices.Clone(m.c.Objectives), PassPoints: m.c.PassPoints,
		Marks: make([]Mark, 0, len(j.rules)),
	}
	for i := range j.rules {
		mark := j.rules[i].mark(r)
		if mark.Verdict != DidNotApply {
			s.OutOf += mark.Points
			s.Earned += mark.Earned
		}
		if mark.Critical && mark.Verdict == NotMet {
			s.Why = append(s.Why, "critical, not met: "+mark.Rule)
		}
		s.Marks = append(s.Marks, mark)
	}
	if short := shortOf(s); short != "" {
		s.Why = append(s.Why, short)
	}
	s.Passed = len(s.Why) == 0
	return s
}

func (x *ruling) mark(r *record) Mark {
	mark := Mark{Rule: x.ID, Serves: x.Serves, Points: x.Points, Critical: x.Critical}
	r.drop()
	if x.applies != nil && !x.applies.holds() {
		mark.Verdict = DidNotApply
		mark.Evidence = r.take()
		return mark
	}
	r.drop() // what made it apply is not what it was judged by
	said := &x.notMet
	mark.Verdict = NotMet
	if x.when.holds() {
		said = &x.met
		mark.Verdict, mark.Earned = Met, x.Points
	}
	mark.Evidence = r.take()
	mark.Said = said.write()
	return mark
}

// slightly forgives the last bits of a sum of points.
const slightly = 1e-9

// shortOf says by how much the points fall short of the pass mark.
func shortOf(s Sheet) string {
	if s.OutOf == 0 {
		if s.PassPoints > 0 {
			return "no rule with points applied"
		}
		return ""
	}
	if s.Earned/s.OutOf+slightly >= s.PassPoints {
		return ""
	}
	return fmt.Sprintf("%s, and %s are needed to pass",
		ofPoints(s.Earned, s.OutOf), points(s.PassPoints*s.OutOf))
}
