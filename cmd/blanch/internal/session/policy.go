package session

import (
	"fmt"
	"slices"
	"strings"

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
	for _, drug := range sorted(p.MostMcgML) {
		say(one("highest concentration"), "Highest concentration of %s: %s.", drug, concentration(drug, p.MostMcgML[drug]))
	}
	for _, drug := range sorted(p.MostMcgMin) {
		unit, _ := measuredIn(drug)
		say(one("highest dose"), "Highest dose of %s: %s %s/min.", drug, quantity.Number(p.MostMcgMin[drug]), unit)
	}
	say(one("start by"), "Drug in the blood within %s of the order.", span(p.StartBy))
	say(one("backup by"), "A second working line within %s of the start.", span(p.BackupBy))
	say([]string{"check early", "early for", "check later"}, "Look at and feel the site at least every %s for the first %s, then every %s.", span(p.CheckEarly), span(p.EarlyFor), span(p.CheckLater))
	if len(p.SecondChecks) > 0 {
		say(one("second checks"), "A second person checks: %s.", strings.Join(p.SecondChecks, ", "))
	}
	if p.WithdrawFirst {
		say(one("withdraw first"), "Withdraw the drug's volume from the bag before adding it.")
	}
	say(one("rate step"), "Rates in steps of %s mL/h.", quantity.Number(p.RateStepMLH))
	say(one("tolerance"), "Sums may be off by %s %%, and by half a step of the device.", percent(p.Tolerance))
	say(one("decide by"), "Decide on central access by %s after the start.", span(p.DecideBy))
	say(one("longest run"), "Longest peripheral run: %s.", span(p.LongestRun))
	say([]string{"antidote dose", "antidote volume", "antidote by"}, "Antidote: phentolamine, %s in %s, within %s of recognising a leak.",
		between(p.AntidoteMG, "mg"), between(p.AntidoteML, "mL"), span(p.AntidoteBy))
	return lines
}

func percent(share float64) string { return quantity.Number(quantity.Round(share*100, 0.1)) }

func between(limits [2]float64, unit string) string {
	if limits[0] == limits[1] {
		return quantity.Number(limits[0]) + " " + unit
	}
	return fmt.Sprintf("%s %s to %s %s", quantity.Number(limits[0]), unit, quantity.Number(limits[1]), unit)
}

func sorted(m map[string]float64) []string {
	var names []string
	for name := range m {
		names = append(names, name)
	}
	slices.Sort(names)
	return names
}
