package scenarios

import "blanch/sim"

// Case is a loaded case: what the engine plays and how it is marked.
type Case struct {
	sim.Case // the engine's part

	Title      string
	Track      string // "nurse" or "resident"
	Level      string
	Minutes    float64 // about how long it takes a learner
	Status     string  // "draft" until piloted
	Version    string
	ReviewedBy string
	ReviewedOn string // "2026-03-01"
	Place      string // ID of the place it is played in
	Policy     string // ID of the policy it is marked under unless told otherwise
	Summary    string
	Briefing   string
	NotShown   string // what is not simulated
	Objectives []Objective
	Uses       []string // fragments; what they bring is in Objectives, Ask and Rules
	LeavesOut  []string // rules and sums of theirs that are not
	Rules      []Rule
	PassPoints float64 // share of the points that apply, 0 to 1
	PassSetBy  string  // how the pass mark was set
	Reflect    []string
	Teaching   string
	Sources    []string
	Walks      []Walk

	Source []byte // the file as read
	File   string

	where map[string]Pos // of its fields, by path
}

// Where is the place in the file of a field named by its path, such as
// "patient/age"; the beginning of the file when it has none.
func (c *Case) Where(path string) Pos {
	if p, ok := c.where[path]; ok {
		return p
	}
	return Pos{File: c.File, Line: 1, Column: 1}
}

// Objective is one thing the case teaches.
type Objective struct {
	ID   string
	Text string
	Pos  Pos
}

// Rule is one judgement.
type Rule struct {
	ID       string
	Serves   string // objective
	Points   float64
	Critical bool
	Applies  Text // expression; empty Source means always
	When     Text // expression
	Met      Text // prose with {expression} holes
	NotMet   Text
	Pos      Pos
}

// Text is an author's text with its place, so that a fault inside it can be
// pointed at. Lines map one to one to lines of the file when Exact; the
// column of the first character of each line is in Columns.
type Text struct {
	Source  string
	Pos     Pos
	Columns []int
	Exact   bool
}

// At is the place of the character at the given line (from 1) and column
// (from 0, in characters) of the text.
func (t Text) At(line, column int) Pos {
	if !t.Exact || line < 1 || line > len(t.Columns) {
		return t.Pos
	}
	return Pos{File: t.Pos.File, Line: t.Pos.Line + line - 1, Column: t.Columns[line-1] + column}
}

// Walk is a named walk-through: timed actions and the marks they must earn.
type Walk struct {
	ID     string
	Text   string // what it shows
	Policy string
	Seed   uint64
	Like   string   // the walk-through above that it differs from
	But    []Change // and how
	Steps  []Step
	Loses  []string // rules that must be not met; every other must be met or not apply
	Passes bool
	Pos    Pos
}

// Step is one line of a walk-through or script.
type Step struct {
	When When
	At   sim.Time // for AtTime: the time; for After: the span
	Said string   // the sentence; empty only waits
	Pos  Pos

	SaidAt Pos // where the sentence begins
}

// When says how a step's time is meant. The zero value is invalid.
type When uint8

// Ways to time a step.
const (
	AtTime When = iota + 1 // at 12 min
	Then                   // as soon as the hands are free
	After                  // that long after the step before could have ended
)
