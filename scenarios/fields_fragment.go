package scenarios

import "blanch/sim"

// fragmentFile is a fragment as a file gives it.
type fragmentFile struct {
	format int
	Fragment
}

var fragmentShape = shape[fragmentFile]{name: "fragment", rows: []row[fragmentFile]{
	need("format", format, func(f *fragmentFile) *int { return &f.format }, "The version of this file format.", "1"),
	need("fragment", name("the name of the fragment"), func(f *fragmentFile) *string { return &f.ID }, "What cases call this fragment.", "leak-response"),
	need("note", prose, func(f *fragmentFile) *string { return &f.Note }, "For authors: what it is for, and what a case must have for it.", "For cases in which a line may leak."),
	need("objectives", entries(objective, "objective", addObjective), func(f *fragmentFile) *[]Objective { return &f.Objectives },
		"What its rules serve; a case that words an objective of the same name itself keeps its own words.", "{respond: Respond to a leak so that the arm is spared}"),
	may("ask", named(askShape, func(v *sim.Question, id string, _ Pos) { v.ID = id }), func(f *fragmentFile) *[]sim.Question { return &f.Ask },
		"Sums that its rules judge.", "{rate: {text: \"What rate gives the ordered dose?\", when: set, what: rate of order}}"),
	need("rules", named(ruleShape, func(u *Rule, id string, at Pos) { u.ID, u.Pos = id, at }), func(f *fragmentFile) *[]Rule { return &f.Rules },
		"Rules that each case which uses it is judged by, unless it has one of the same name or leaves it out.", "{edge-marked: {serves: respond, points: 2, when: ..., met: ..., not met: ...}}"),
}}
