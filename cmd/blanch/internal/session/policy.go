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
	say := func(format string, args ...any) {
		lines = append(lines, Line{Kind: Told, Text: "- " + fmt.Sprintf(format, args...)})
	}
	var sites, gauges []string
	for _, site := range p.Sites {
		sites = append(sites, string(site))
	}
	for _, g := range p.Gauges {
		gauges = append(gauges, fmt.Sprint(g))
	}
	say("Sites: %s. Gauges: %s. Cannula at least %s mm long, with at least %s %% of it in the vein.",
		strings.Join(sites, ", "), strings.Join(gauges, ", "), quantity.Number(p.LeastMM), percent(p.LeastShare))
	for _, drug := range sorted(p.MostMcgML) {
		say("Highest concentration of %s: %s.", drug, concentration(drug, p.MostMcgML[drug]))
	}
	for _, drug := range sorted(p.MostMcgMin) {
		unit, _ := measuredIn(drug)
		say("Highest dose of %s: %s %s/min.", drug, quantity.Number(p.MostMcgMin[drug]), unit)
	}
	say("Drug in the blood within %s of the order; a second working line within %s of the start.", span(p.StartBy), span(p.BackupBy))
	say("Look at and feel the site at least every %s for the first %s, then every %s.", span(p.CheckEarly), span(p.EarlyFor), span(p.CheckLater))
	if len(p.SecondChecks) > 0 {
		say("A second person checks: %s.", strings.Join(p.SecondChecks, ", "))
	}
	if p.WithdrawFirst {
		say("Withdraw the drug's volume from the bag before adding it.")
	}
	say("Rates in steps of %s mL/h.", quantity.Number(p.RateStepMLH))
	say("Decide on central access by %s after the start; longest peripheral run %s.", span(p.DecideBy), span(p.LongestRun))
	say("Antidote: %s in %s, within %s of recognising a leak.",
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
