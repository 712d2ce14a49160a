package scenarios

import (
	"fmt"
	"math"
	"slices"
	"strconv"
	"strings"

	"blanch/sim"
	"blanch/sim/drug"
	"blanch/sim/quantity"
	"blanch/sim/vein"
)

const conditionSays = `is VALUE, at most VALUE, over VALUE, at least VALUE, under VALUE; has VALUE or has no VALUE, for a list or a range; a drug before these, where the limit is one for each drug; unsaid; otherwise`

// condition is what a limit must be for an option to be the key.
type condition struct {
	drug  string // whose limit; empty where there is but one
	how   string // of hows
	word  string // of a list or a choice, or the drug that a limit by drug has
	value float64
}

var hows = []string{"at most", "at least", "over", "under", "has no", "has", "is", "unsaid", "otherwise"}

// reading is what a condition looks at. A limit that the policy leaves
// unsaid is neither over nor under anything.
type reading struct {
	said        bool
	value       float64            // of a time, a length, a share; no end is more than any
	least, most float64            // of a range
	words       []string           // of a list or a choice, and the drugs of a limit by drug
	byDrug      map[string]float64 // of a limit by drug
}

// decider is a limit that can decide a key.
type decider struct {
	kind  string // "number", "range", "list", "choice", "truth", "by drug"
	unit  string // of a number or a range; of a limit by drug, what it is for each of
	words []string
	reads func(p *Policy) reading
}

func lasts(get func(p *Policy) sim.Time) decider {
	return numbered("h", func(p *Policy) float64 { return get(p).Seconds() / 3600 })
}

func numbered(unit string, get func(p *Policy) float64) decider {
	return decider{kind: "number", unit: unit, reads: func(p *Policy) reading { return reading{said: true, value: get(p)} }}
}

// unlessZero is a number that a policy may leave unsaid.
func unlessZero(d decider) decider {
	reads := d.reads
	d.reads = func(p *Policy) reading {
		r := reads(p)
		r.said = r.value != 0
		return r
	}
	return d
}

func listed(get func(p *Policy) []string, words ...string) decider {
	return decider{kind: "list", words: words, reads: func(p *Policy) reading { return reading{said: len(get(p)) > 0, words: get(p)} }}
}

func chosen(get func(p *Policy) string, words ...string) decider {
	return decider{kind: "choice", words: words, reads: func(p *Policy) reading {
		return reading{said: get(p) != "", words: []string{get(p)}}
	}}
}

func ranged(unit string, get func(p *Policy) [2]float64) decider {
	return decider{kind: "range", unit: unit, reads: func(p *Policy) reading {
		return reading{said: true, least: get(p)[0], most: get(p)[1]}
	}}
}

func eachDrug(per string, get func(p *Policy) map[string]float64) decider {
	var all []string
	for _, name := range drug.Names() {
		if d, _ := drug.Named(name); d.Role == drug.Vasopressor {
			all = append(all, name)
		}
	}
	return decider{kind: "by drug", unit: per, words: all, reads: func(p *Policy) reading {
		return reading{said: len(get(p)) > 0, words: names(get(p)), byDrug: get(p)}
	}}
}

// deciders has an entry for each limit that can decide the key of an item:
// all but the scale and what calls for central access, which are not one
// value, and the early span, which means nothing by itself.
var deciders = map[string]decider{
	"longest run": {kind: "number", unit: "h", reads: func(p *Policy) reading {
		if p.LongestRun == 0 {
			return reading{said: true, value: math.Inf(1)}
		}
		return reading{said: true, value: p.LongestRun.Seconds() / 3600}
	}},
	"decide by":        lasts(func(p *Policy) sim.Time { return p.DecideBy }),
	"check early":      lasts(func(p *Policy) sim.Time { return p.CheckEarly }),
	"check later":      lasts(func(p *Policy) sim.Time { return p.CheckLater }),
	"backup by":        lasts(func(p *Policy) sim.Time { return p.BackupBy }),
	"start by":         lasts(func(p *Policy) sim.Time { return p.StartBy }),
	"antidote by":      lasts(func(p *Policy) sim.Time { return p.AntidoteBy }),
	"change bag after": unlessZero(lasts(func(p *Policy) sim.Time { return p.ChangeBagAfter })),
	"sites": listed(func(p *Policy) []string {
		var out []string
		for _, s := range p.Sites {
			out = append(out, string(s))
		}
		return out
	}, allSites()...),
	"gauges": listed(func(p *Policy) []string {
		var out []string
		for _, g := range p.Gauges {
			out = append(out, strconv.Itoa(g))
		}
		return out
	}, "14", "16", "18", "20", "22", "24", "26"),
	"second checks": listed(func(p *Policy) []string { return p.SecondChecks }, SecondCheckMoments...),
	"antidote for": listed(func(p *Policy) []string {
		if len(p.AntidoteFor) == 0 {
			return []string{"leak"} // every recognised leak calls for it
		}
		return p.AntidoteFor
	}, signNames()...),
	"other antidotes":            listed(func(p *Policy) []string { return names(p.OtherAntidotes) }, "terbutaline"),
	"shortest cannula":           numbered("mm", func(p *Policy) float64 { return p.LeastMM }),
	"least vein":                 unlessZero(numbered("mm", func(p *Policy) float64 { return p.LeastVeinMM })),
	"least share":                numbered("%", func(p *Policy) float64 { return 100 * p.LeastShare }),
	"rate step":                  numbered("mL/h", func(p *Policy) float64 { return p.RateStepMLH }),
	"tolerance":                  numbered("%", func(p *Policy) float64 { return 100 * p.Tolerance }),
	"dosing weight":              chosen(func(p *Policy) string { return p.DosingWeight }, DosingWeights...),
	"line shared with":           chosen(func(p *Policy) string { return p.SharedWith }, SharedLines...),
	"blood return while running": chosen(func(p *Policy) string { return p.BloodReturn }, BloodReturns...),
	"antidote dose":              ranged("mg", func(p *Policy) [2]float64 { return p.AntidoteMG }),
	"antidote volume":            ranged("mL", func(p *Policy) [2]float64 { return p.AntidoteML }),
	"highest concentration":      eachDrug("mL", func(p *Policy) map[string]float64 { return p.MostMcgML }),
	"highest dose":               eachDrug("min", func(p *Policy) map[string]float64 { return p.MostMcgMin }),
	"withdraw first": {kind: "choice", words: []string{"true", "false"}, reads: func(p *Policy) reading {
		return reading{said: true, words: []string{strconv.FormatBool(p.WithdrawFirst)}}
	}},
}

func allSites() []string {
	var out []string
	for _, s := range vein.Sites() {
		out = append(out, string(s))
	}
	return out
}

// decidingLimits lists them in the order of a policy's file.
func decidingLimits() []string {
	var out []string
	for _, w := range limitRows {
		if _, ok := deciders[w.Key]; ok {
			out = append(out, w.Key)
		}
	}
	return out
}

// readCondition reads a condition on a limit. The error says what is wrong.
func readCondition(limit, text string) (condition, error) {
	d := deciders[limit]
	var c condition
	rest := strings.Join(strings.Fields(text), " ")
	if first, after, found := strings.Cut(rest, " "); found && slices.Contains(drug.Names(), first) {
		c.drug, rest = first, after
	}
	i := slices.IndexFunc(hows, func(h string) bool { return rest == h || strings.HasPrefix(rest, h+" ") })
	if i < 0 {
		return c, fmt.Errorf("%s begins with none of the words of a condition", quoted(text))
	}
	c.how = hows[i]
	rest = strings.TrimSpace(strings.TrimPrefix(rest, c.how))
	switch c.how {
	case "unsaid", "otherwise":
		if rest != "" || c.drug != "" && c.how == "otherwise" {
			return c, fmt.Errorf("%s has more in it than %s", quoted(text), quoted(c.how))
		}
		if c.drug != "" && d.kind != "by drug" {
			return c, fmt.Errorf("%s names a drug, and %s is one limit for all", quoted(text), quoted(limit))
		}
		return c, nil
	}
	if rest == "" {
		return c, fmt.Errorf("%s has no value after %s", quoted(text), quoted(c.how))
	}
	if c.drug != "" && d.kind != "by drug" {
		return c, fmt.Errorf("%s names a drug, and %s is one limit for all", quoted(text), quoted(limit))
	}
	word := d.kind == "list" && (c.how == "has" || c.how == "has no") ||
		d.kind == "choice" && c.how == "is" ||
		d.kind == "by drug" && c.drug == "" && (c.how == "has" || c.how == "has no")
	compares := c.how == "is" || c.how == "at most" || c.how == "at least" || c.how == "over" || c.how == "under"
	number := d.kind == "number" && compares || d.kind == "by drug" && c.drug != "" && compares ||
		d.kind == "range" && (c.how == "has" || c.how == "has no")
	switch {
	case word:
		if c.word = rest; !slices.Contains(d.words, rest) {
			return c, fmt.Errorf("%s has no %s", quoted(limit), quoted(rest))
		}
		return c, nil
	case number:
		unit := d.unit
		if d.kind == "by drug" {
			known, _ := drug.Named(c.drug)
			unit = known.Base + "/" + d.unit
		}
		q, err := quantity.Parse(rest)
		if err == nil {
			c.value, err = q.In(quantity.MustUnit(unit))
		}
		if err != nil {
			return c, fmt.Errorf("%s cannot be held against %s: %w", quoted(rest), quoted(limit), err)
		}
		return c, nil
	}
	return c, fmt.Errorf("%s cannot be asked of %s", quoted(c.how), quoted(limit))
}

// rightOf lists the options that are right by what a policy says: those whose
// condition holds, or the one for all that is left.
func rightOf(options []Option, r reading) []int {
	var right, rest []int
	for i, o := range options {
		switch {
		case o.When == "":
		case o.when.how == "otherwise":
			rest = append(rest, i)
		case o.when.holds(r):
			right = append(right, i)
		}
	}
	if right == nil {
		return rest
	}
	return right
}

// holds says whether a condition holds of what a policy says.
func (c condition) holds(r reading) bool {
	value, said := r.value, r.said
	if c.drug != "" {
		value, said = r.byDrug[c.drug]
	}
	switch c.how {
	case "otherwise":
		return false // see rightOf
	case "unsaid":
		return !said
	case "has":
		return c.in(r)
	case "has no":
		return !c.in(r)
	}
	if !said {
		return false
	}
	near := value == c.value || math.Abs(value-c.value) <= 1e-9*math.Abs(c.value)
	switch c.how {
	case "is":
		return near && c.word == "" || c.word != "" && slices.Contains(r.words, c.word)
	case "at most":
		return value < c.value || near
	case "at least":
		return value > c.value || near
	case "over":
		return value > c.value && !near
	}
	return value < c.value && !near // under
}

func (c condition) in(r reading) bool {
	if c.word == "" {
		return r.least-1e-9 <= c.value && c.value <= r.most+1e-9
	}
	return slices.Contains(r.words, c.word)
}
