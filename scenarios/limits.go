package scenarios

import (
	"cmp"
	"fmt"
	"slices"
	"strconv"
	"strings"

	"blanch/sim"
	"blanch/sim/drug"
	"blanch/sim/quantity"
)

// Limit is one limit of a policy in words.
type Limit struct {
	Key     string // as the policy's file has it
	Says    string // "24 h", or that the policy does not say
	Because string // where it comes from; empty when the file does not say
}

// Unsaid is what a limit that a policy leaves out says.
const Unsaid = "the policy does not say"

// Limits are all limits of a policy in words, in the order of the table of
// fields, those that it leaves out too.
func (p *Policy) Limits() []Limit {
	out := make([]Limit, len(limitRows))
	for i, w := range limitRows {
		out[i] = Limit{Key: w.Key, Says: limitWords[w.Key](p), Because: p.Because[w.Key]}
	}
	return out
}

// limitWords has an entry for each of limitRows.
var limitWords = map[string]func(p *Policy) string{
	"longest run": func(p *Policy) string {
		if p.LongestRun == 0 {
			return "no end"
		}
		return TimeWords(p.LongestRun)
	},
	"decide by":        func(p *Policy) string { return TimeWords(p.DecideBy) + " after the start" },
	"check early":      func(p *Policy) string { return "at least every " + TimeWords(p.CheckEarly) },
	"early for":        func(p *Policy) string { return TimeWords(p.EarlyFor) + " after the start" },
	"check later":      func(p *Policy) string { return "at least every " + TimeWords(p.CheckLater) },
	"sites":            func(p *Policy) string { return listWords(p.Sites) },
	"gauges":           func(p *Policy) string { return listWords(p.Gauges) },
	"shortest cannula": func(p *Policy) string { return quantity.Number(p.LeastMM) + " mm" },
	"least share": func(p *Policy) string {
		return quantity.Number(quantity.Round(p.LeastShare*100, 0.01)) + " % of the cannula"
	},
	"least vein": func(p *Policy) string {
		if p.LeastVeinMM == 0 {
			return Unsaid
		}
		return quantity.Number(p.LeastVeinMM) + " mm"
	},
	"highest concentration": func(p *Policy) string { return drugWords(p.MostMcgML, "mL") },
	"highest dose":          func(p *Policy) string { return drugWords(p.MostMcgMin, "min") },
	"dosing weight":         func(p *Policy) string { return said(p.DosingWeight) },
	"second checks":         func(p *Policy) string { return listWords(p.SecondChecks) },
	"line shared with":      func(p *Policy) string { return said(p.SharedWith) },
	"blood return while running": func(p *Policy) string {
		return said(p.BloodReturn)
	},
	"change bag after": func(p *Policy) string {
		if p.ChangeBagAfter == 0 {
			return Unsaid
		}
		return TimeWords(p.ChangeBagAfter) + " after it was made up"
	},
	"backup by":       func(p *Policy) string { return TimeWords(p.BackupBy) + " after the start" },
	"start by":        func(p *Policy) string { return TimeWords(p.StartBy) + " after the order" },
	"antidote dose":   func(p *Policy) string { return betweenWords(p.AntidoteMG, "mg") + " of phentolamine" },
	"antidote volume": func(p *Policy) string { return "made up to " + betweenWords(p.AntidoteML, "mL") },
	"antidote by":     func(p *Policy) string { return TimeWords(p.AntidoteBy) + " after the leak was recognised" },
	"antidote for": func(p *Policy) string {
		switch {
		case len(p.AntidoteFor) == 0:
			return Unsaid
		case slices.Contains(p.AntidoteFor, "leak"):
			return "any sign of a leak"
		}
		return listWords(p.AntidoteFor)
	},
	"other antidotes": func(p *Policy) string {
		var parts []string
		for _, name := range names(p.OtherAntidotes) {
			parts = append(parts, name+" "+betweenWords(p.OtherAntidotes[name], "mg"))
		}
		return said(strings.Join(parts, ", "))
	},
	"scale": func(p *Policy) string { return said(p.Scale) },
	"call for central access": func(p *Policy) string {
		return said(strings.Join(p.CallFor.Words(), "; or "))
	},
	"rate step": func(p *Policy) string { return quantity.Number(p.RateStepMLH) + " mL/h" },
	"tolerance": func(p *Policy) string { return quantity.Number(quantity.Round(p.Tolerance*100, 0.01)) + " %" },
	"withdraw first": func(p *Policy) string {
		if p.WithdrawFirst {
			return "the drug's volume is taken out of the bag first"
		}
		return "the drug is added to the full bag"
	},
}

// Words says each thing that makes central access be asked for at once.
func (c CallFor) Words() []string {
	var parts []string
	for _, name := range names(c.Over) {
		parts = append(parts, fmt.Sprintf("over %s of %s", DrugAmount(name, c.Over[name], "min"), name))
	}
	if c.Vasopressors > 0 {
		parts = append(parts, fmt.Sprintf("%d vasopressors at once", c.Vasopressors))
	}
	if c.Tries == 1 {
		parts = append(parts, "1 failed try at an arm vein")
	} else if c.Tries > 1 {
		parts = append(parts, fmt.Sprintf("%d failed tries at an arm vein", c.Tries))
	}
	return parts
}

// DrugAmount writes an amount of a drug per mL or min in the unit that the
// drug is kept in.
func DrugAmount(name string, v float64, per string) string {
	base := "mcg"
	if d, ok := drug.Named(name); ok {
		base = d.Base
	}
	return quantity.Number(v) + " " + base + "/" + per
}

func said(words string) string { return cmp.Or(words, Unsaid) }

func drugWords(limits map[string]float64, per string) string {
	var parts []string
	for _, name := range names(limits) {
		parts = append(parts, name+" "+DrugAmount(name, limits[name], per))
	}
	return said(strings.Join(parts, ", "))
}

func betweenWords(limits [2]float64, unit string) string {
	if limits[0] == limits[1] {
		return quantity.Number(limits[0]) + " " + unit
	}
	return fmt.Sprintf("%s %s to %s %s", quantity.Number(limits[0]), unit, quantity.Number(limits[1]), unit)
}

func listWords[T any](list []T) string {
	parts := make([]string, len(list))
	for i, v := range list {
		parts[i] = fmt.Sprint(v)
	}
	return said(strings.Join(parts, ", "))
}

func names[T any](m map[string]T) []string {
	var out []string
	for name := range m {
		out = append(out, name)
	}
	slices.Sort(out)
	return out
}

// TimeWords writes a length of time without losing any of it: "1 h 30 min".
func TimeWords(t sim.Time) string {
	var out []byte
	part := func(n sim.Time, unit string) {
		if len(out) > 0 {
			out = append(out, ' ')
		}
		out = append(strconv.AppendInt(out, int64(n), 10), unit...)
	}
	if n := t / sim.Hour; n > 0 {
		part(n, " h")
	}
	if n := t % sim.Hour / sim.Minute; n > 0 {
		part(n, " min")
	}
	switch rest := t % sim.Minute; {
	case rest%sim.Second != 0:
		if len(out) > 0 {
			out = append(out, ' ')
		}
		out = append(out, quantity.Number(rest.Seconds())+" s"...)
	case rest > 0 || len(out) == 0:
		part(rest/sim.Second, " s")
	}
	return string(out)
}
