package scenarios

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"blanch/sim/drug"
	"blanch/sim/quantity"
)

// posed is a value that a limit can have, and how to say it.
type posed struct {
	reading
	says string
}

// pose makes values of a limit such that whatever conditions say of any
// value, they say of one of these: each value that they name, one a little
// under and one a little over it, each set of the words that they name, and
// a limit left unsaid where a policy may leave it.
func pose(limit string, conditions []condition) []posed {
	d := deciders[limit]
	var out []posed
	if limit != "longest run" && limit != "antidote for" && mayBeUnsaid(limit) {
		out = append(out, posed{says: "unsaid"})
	}
	words := namedWords(conditions)
	switch d.kind {
	case "choice":
		for _, w := range d.words {
			out = append(out, posed{reading{said: true, words: []string{w}}, w})
		}
	case "list":
		for _, set := range subsets(words) {
			others := slices.DeleteFunc(slices.Clone(d.words), func(w string) bool { return slices.Contains(words, w) })
			if len(set) == 0 {
				if len(others) == 0 {
					continue
				}
				set = others[:1]
			}
			out = append(out, posed{reading{said: true, words: set}, strings.Join(set, ", ")})
		}
	case "number":
		for _, v := range around(valuesOf(conditions, "")) {
			out = append(out, posed{reading{said: true, value: v}, poseWords(v, d.unit)})
		}
		if limit == "longest run" {
			out = append(out, posed{reading{said: true, value: math.Inf(1)}, "no end"})
		}
	case "range":
		points := around(valuesOf(conditions, ""))
		for i, low := range points {
			for _, high := range points[i:] {
				says := betweenWords([2]float64{low, high}, d.unit)
				out = append(out, posed{reading{said: true, least: low, most: high}, says})
			}
		}
	case "by drug":
		out = append(out, poseByDrug(d, words, conditions)...)
	}
	return out
}

// poseByDrug makes every combination of limits of the drugs that are named,
// each also without one.
func poseByDrug(d decider, words []string, conditions []condition) []posed {
	drugs := slices.Clone(words)
	for _, c := range conditions {
		if c.drug != "" && !slices.Contains(drugs, c.drug) {
			drugs = append(drugs, c.drug)
		}
	}
	out := []posed{{says: "unsaid"}}
	for _, name := range drugs {
		known, _ := drug.Named(name)
		points := around(valuesOf(conditions, name))
		if len(points) == 0 {
			points = []float64{1}
		}
		var next []posed
		for _, p := range out {
			next = append(next, p)
			for _, v := range points {
				q := posed{reading{said: true, words: append(slices.Clone(p.words), name), byDrug: map[string]float64{name: v}}, name + " " + poseWords(v, known.Base+"/"+d.unit)}
				for other, w := range p.byDrug {
					q.byDrug[other] = w
				}
				if p.said {
					q.says = p.says + ", " + q.says
				}
				next = append(next, q)
			}
		}
		out = next
	}
	return out
}

func mayBeUnsaid(limit string) bool {
	for _, w := range limitRows {
		if w.Key == limit {
			return !w.Needed
		}
	}
	return false
}

func namedWords(conditions []condition) []string {
	var out []string
	for _, c := range conditions {
		if c.word != "" && !slices.Contains(out, c.word) {
			out = append(out, c.word)
		}
	}
	return out
}

// valuesOf are the values that conditions name, ascending.
func valuesOf(conditions []condition, drug string) []float64 {
	var out []float64
	for _, c := range conditions {
		if c.word == "" && c.how != "unsaid" && c.how != "otherwise" && c.drug == drug {
			out = append(out, c.value)
		}
	}
	slices.Sort(out)
	return slices.Compact(out)
}

// around adds a value under, between and over those given.
func around(values []float64) []float64 {
	var out []float64
	for i, v := range values {
		under := v / 2
		if i > 0 {
			under = (values[i-1] + v) / 2
		}
		out = append(out, under, v)
	}
	if len(values) > 0 {
		out = append(out, 2*values[len(values)-1]+1)
	}
	return out
}

func subsets(words []string) [][]string {
	out := [][]string{nil}
	for _, w := range words {
		for _, set := range out {
			out = append(out, append(slices.Clone(set), w))
		}
	}
	return out
}

func poseWords(v float64, unit string) string {
	return fmt.Sprintf("%s %s", quantity.Number(quantity.Round(v, 0.0001)), unit)
}
