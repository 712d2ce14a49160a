package cohort

import "blanch/scenarios"

// Further simulates cohorts that somebody described, with n patients each.
func Further(cohorts []scenarios.Cohort, n int) []Row {
	rows := make([]Row, len(cohorts))
	for i, c := range cohorts {
		p := preset(c.Setting)
		if len(c.Lines) > 0 {
			p.Mix = c.Lines
		}
		if c.Run != (Run{}) {
			p.Run = c.Run
		}
		t := Target{ID: c.ID, What: c.What, Published: c.Published, Low: c.Least, High: c.Most, Unit: "%", Kind: "monte-carlo", Population: c.Setting, Source: c.Source, Read: "as described"}
		var e Estimate
		switch c.Count {
		case scenarios.LeaksPer1000Days:
			t.Unit = "per 1000 days"
			all := p.Infusions(seedOf, n)
			e = ratePer(all.Leaks, all.LineHours)
		case scenarios.LinesThatFail:
			e = shareOf(p.Fails(seedOf, n, c.LeastShare, c.UnderShare))
		case scenarios.FirstSticks:
			e = p.Sticks(seedOf, n, func(at Placed) bool {
				return at.Share >= c.LeastShare && (c.UnderShare == 0 || at.Share < c.UnderShare)
			})
		default:
			all := p.Infusions(seedOf, n)
			e = shareOf(all.Leaks, all.Patients)
		}
		rows[i] = Row{Target: t, Estimate: e, Origin: Described, How: "setting " + c.Setting + ", lines and hours as described", Pass: e.Within(t.Low, t.High)}
	}
	return rows
}
