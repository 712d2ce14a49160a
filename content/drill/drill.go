package drill

import (
	"slices"

	"blanch/sim/sum"
)

// Drill is one kind of question.
type Drill struct {
	Name      string   // stays when the wording is mended
	Objective string   // what is learned: a verb and its object
	Unit      string   // the unit of study: line, mix, sums, watch, respond or bridge
	Level     string   // first, middle or advanced
	Critical  bool     // a miss can harm
	Sources   []string // where its numbers come from

	kind        string // of sum
	device      string // what is set, where that of the kind does not say it
	least, most float64
	apart       uint64 // as many turns as leave each of them many sets of numbers, and two at least
	swaps       bool   // digits swapped in what is given and in the answer meet in nearly every draw
	make        func(*hand) draft
}

// The levels.
const (
	First    = "first"
	Middle   = "middle"
	Advanced = "advanced"
)

// drills is every drill, in the order of the job.
var drills = slices.Concat(lines, mixes, rates, checks, watches, responses, bridges)

// Drills lists every drill in the order of the job.
func Drills() []Drill { return slices.Clone(drills) }

// Named is the drill of that name, for whoever tries one alone: the example
// and tests do, a quiz asks of all.
func Named(name string) (Drill, bool) {
	for _, d := range drills {
		if d.Name == name {
			return d, true
		}
	}
	return Drill{}, false
}

// Kind is the kind of sum that the drill asks.
func (d Drill) Kind() *sum.Kind {
	k, _ := sum.Named(d.kind)
	return k
}

// Apart is how many successive seeds have different numbers.
func (d Drill) Apart() int { return int(d.apart) }
