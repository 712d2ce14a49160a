package session

import (
	"fmt"
	"slices"
	"strings"

	"blanch/scenarios"
	"blanch/sim/quantity"
)

// policy shows the limits that the attempt is marked under.
func (s *Session) policy(string) []Line {
	p := s.a.Policy
	lines := []Line{heading(p.Title), told("%s", oneLine(p.Note))}
	// say states a limit, and under it where each of its parts comes from.
	say := func(keys []string, format string, args ...any) {
		lines = append(lines, told("- "+format, args...))
		for i, key := range keys {
			why := oneLine(p.Because[key])
			if why == "" || slices.Contains(keys[:i], key) {
				continue
			}
			if len(keys) > 1 {
				why = key + ": " + why
			}
			lines = append(lines, Line{Kind: Told, Text: "    " + why})
		}
	}
	one := func(key string) []string { return []string{key} }
	var sites, gauges []string
	for _, site := range p.Sites {
		sites = append(sites, string(site))
	}
	for _, g := range p.Gauges {
		gauges = append(gauges, fmt.Sprint(g))
	}
	say(one("sites"), "Sites: %s.", strings.Join(sites, ", "))
	say([]string{"gauges", "shortest cannula", "least share"}, "Gauges: %s. Cannula at least %s mm long, with at least %s %% of it in the vein.",
		strings.Join(gauges, ", "), quantity.Number(p.LeastMM), percent(p.LeastShare))
	if p.LeastVeinMM > 0 {
		say(one("least vein"), "A vein at least %s mm wide.", quantity.Number(p.LeastVeinMM))
	}
	for i, drug := range sorted(p.MostMcgML) {
		say(once(i, "highest concentration"), "Highest concentration of %s: %s.", drug, scenarios.DrugAmount(drug, p.MostMcgML[drug], "mL"))
	}
	for i, drug := range sorted(p.MostMcgMin) {
		say(once(i, "highest dose"), "Highest dose of %s: %s.", drug, scenarios.DrugAmount(drug, p.MostMcgMin[drug], "min"))
	}
	if p.DosingWeight != "" {
		say(one("dosing weight"), "Doses by the kilogram go by the %s weight, where it is known.", p.DosingWeight)
	}
	say(one("start by"), "Drug in the blood within %s of the order.", scenarios.TimeWords(p.StartBy))
	say(one("backup by"), "A second working line within %s of the start.", scenarios.TimeWords(p.BackupBy))
	say([]string{"check early", "early for", "check later"}, "Look at and feel the site at least every %s for the first %s, then every %s.", scenarios.TimeWords(p.CheckEarly), scenarios.TimeWords(p.EarlyFor), scenarios.TimeWords(p.CheckLater))
	switch p.BloodReturn {
	case "never":
		say(one("blood return while running"), "Never test blood return while the vasopressor runs.")
	case "allowed":
		say(one("blood return while running"), "Blood return may be tested while the vasopressor runs.")
	case "with every check":
		say(one("blood return while running"), "Test blood return with every check of the site.")
	}
	switch p.SharedWith {
	case "nothing":
		say(one("line shared with"), "Nothing else goes through a line that has carried a vasopressor, not even a flush.")
	case "flush":
		say(one("line shared with"), "Only a flush may go through a line that has carried a vasopressor.")
	case "other-vasopressor":
		say(one("line shared with"), "Another vasopressor may go through the same line.")
	}
	if p.ChangeBagAfter > 0 {
		say(one("change bag after"), "A bag runs no longer than %s after it was made up.", scenarios.TimeWords(p.ChangeBagAfter))
	}
	if len(p.SecondChecks) > 0 {
		say(one("second checks"), "A second person checks: %s.", strings.Join(moments(p.SecondChecks), "; "))
	}
	if p.WithdrawFirst {
		say(one("withdraw first"), "Withdraw the drug's volume from the bag before adding it.")
	}
	say(one("rate step"), "Rates in steps of %s mL/h.", quantity.Number(p.RateStepMLH))
	say(one("tolerance"), "Sums may be off by %s %%, and by half a step of the device.", percent(p.Tolerance))
	say(one("decide by"), "Decide on central access by %s after the start.", scenarios.TimeWords(p.DecideBy))
	if call := p.CallFor.Words(); len(call) > 0 {
		say(one("call for central access"), "Ask for central access at once on: %s.", strings.Join(call, "; or "))
	}
	if p.LongestRun > 0 {
		say(one("longest run"), "Longest peripheral run: %s.", scenarios.TimeWords(p.LongestRun))
	} else {
		say(one("longest run"), "The policy sets no end to a peripheral run. That makes no length of it safe.")
	}
	say([]string{"antidote dose", "antidote volume", "antidote by"}, "Antidote: phentolamine, %s in %s, within %s of recognising a leak.",
		between(p.AntidoteMG, "mg"), between(p.AntidoteML, "mL"), scenarios.TimeWords(p.AntidoteBy))
	for i, drug := range sorted(p.OtherAntidotes) {
		say(once(i, "other antidotes"), "Or %s, %s.", drug, between(p.OtherAntidotes[drug], "mg"))
	}
	if len(p.AntidoteFor) > 0 {
		for _, l := range p.Limits() {
			if l.Key == "antidote for" {
				say(one("antidote for"), "What calls for the antidote: %s.", l.Says)
			}
		}
	}
	if p.Scale != "" {
		say(one("scale"), "Grade a leak by the %s, in the notes as in: grade 2.", p.Scale)
	}
	return lines
}

// once gives a reason to the first of several lines that share it.
func once(i int, key string) []string {
	if i > 0 {
		return nil
	}
	return []string{key}
}

// moments says when a second person checks.
func moments(of []string) []string {
	words := map[string]string{
		"bag": "the bag before it runs", "pump": "the pump before it runs", "set-up": "bag and pump at the first start",
		"new-bag": "each new bag", "new-concentration": "the pump at each new concentration",
		"changeover": "the pump after it moved to another line", "handover": "each running pump at handover",
	}
	out := make([]string, len(of))
	for i, m := range of {
		out[i] = words[m]
	}
	return out
}

func percent(share float64) string { return quantity.Number(quantity.Round(share*100, 0.01)) }

func between(limits [2]float64, unit string) string {
	if limits[0] == limits[1] {
		return quantity.Number(limits[0]) + " " + unit
	}
	return fmt.Sprintf("%s %s to %s %s", quantity.Number(limits[0]), unit, quantity.Number(limits[1]), unit)
}

func sorted[T any](m map[string]T) []string {
	var names []string
	for name := range m {
		names = append(names, name)
	}
	slices.Sort(names)
	return names
}
