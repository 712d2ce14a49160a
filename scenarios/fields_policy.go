package scenarios

import (
	"blanch/sim"
	"blanch/sim/vein"
)

// policyFile is a policy as a file gives it.
type policyFile struct {
	format  int
	limits  []perDrug
	doses   []perDrug
	because []string // beside limitRows
	dose    between
	volume  between
	Policy
}

type between struct{ least, most float64 }

type perDrug struct {
	drug  string
	value float64
}

func identifyDrug(p *perDrug, id string, _ Pos) { p.drug = id }

func range2(name, unit, says, low, high string, top float64) form[between] {
	return group(shape[between]{name: name, rows: []row[between]{
		need("least", measure(unit, says, 0, top), func(b *between) *float64 { return &b.least }, "The least that is accepted.", low),
		need("most", measure(unit, says, 0, top), func(b *between) *float64 { return &b.most }, "The most that is accepted.", high),
	}})
}

func perDrugOf(unit, says string) form[[]perDrug] {
	inner := measure(unit, says, 0.0001, 100000)
	return entries(form[perDrug]{value: inner.value, read: func(r *reader, at string, n *node, v *perDrug) bool {
		return inner.read(r, at, n, &v.value)
	}}, "drug", identifyDrug)
}

// because is a group with a field for each limit.
var because = func() form[policyFile] {
	s := shape[policyFile]{name: "because"}
	for i, w := range limitRows {
		s.rows = append(s.rows, may(w.Key, prose, func(p *policyFile) *string { return &p.because[i] },
			"Where this limit comes from.", "the source, and what others say"))
	}
	return group(s)
}()

// limitRows are the limits that only a policy may set.
var limitRows = []row[policyFile]{
	need("longest run", span("a time such as 24 h"), func(p *policyFile) *sim.Time { return &p.LongestRun },
		"How long a vasopressor may run through a peripheral line.", "24 h"),
	need("decide by", span("a time such as 4 h"), func(p *policyFile) *sim.Time { return &p.DecideBy },
		"When, after the start, it must be decided whether central access is needed.", "4 h"),
	need("check early", span("a time such as 15 min"), func(p *policyFile) *sim.Time { return &p.CheckEarly },
		"Longest gap between checks of the site at first.", "15 min"),
	need("early for", span("a time such as 2 h"), func(p *policyFile) *sim.Time { return &p.EarlyFor },
		"How long after the start that holds.", "2 h"),
	need("check later", span("a time such as 1 h"), func(p *policyFile) *sim.Time { return &p.CheckLater },
		"Longest gap between checks after that.", "1 h"),
	need("sites", listOf(oneOf("a site", vein.Sites()...)), func(p *policyFile) *[]vein.Site { return &p.Sites },
		"Where on the arm a vasopressor may run.", "[forearm, fossa, upper-arm]"),
	need("gauges", listOf(whole(14, 26)), func(p *policyFile) *[]int { return &p.Gauges },
		"Gauges of cannula that may carry it.", "[18, 20]"),
	need("shortest cannula", measure("mm", "a length such as 29.5 mm", 1, 120), func(p *policyFile) *float64 { return &p.LeastMM },
		"The shortest cannula that may carry it.", "29.5 mm"),
	need("least share", share("a share such as 65 %"), func(p *policyFile) *float64 { return &p.LeastShare },
		"The least share of the cannula's length that lies in the vein.", "65 %"),
	need("highest concentration", perDrugOf("mcg/mL", "a concentration such as 16 mcg/mL"), func(p *policyFile) *[]perDrug { return &p.limits },
		"The strongest mix that may run through a peripheral line, by drug.", "{norepinephrine: 16 mcg/mL}"),
	need("highest dose", perDrugOf("mcg/min", "a dose such as 15 mcg/min"), func(p *policyFile) *[]perDrug { return &p.doses },
		"The highest dose through a peripheral line, by drug.", "{norepinephrine: 15 mcg/min}"),
	need("second checks", listOf(oneOf("a moment", "bag", "pump")), func(p *policyFile) *[]string { return &p.SecondChecks },
		"What a second person checks: the bag once mixed, the pump once set.", "[bag, pump]"),
	need("backup by", span("a time such as 1 h"), func(p *policyFile) *sim.Time { return &p.BackupBy },
		"When, after the start, there must be a second working line.", "1 h"),
	need("start by", span("a time such as 30 min"), func(p *policyFile) *sim.Time { return &p.StartBy },
		"When, after the order, the drug must have reached the blood.", "30 min"),
	need("antidote dose", range2("antidote dose", "mg", "an amount such as 5 mg", "5 mg", "10 mg", 1000), func(p *policyFile) *between { return &p.dose },
		"Phentolamine that is accepted.", "{least: 5 mg, most: 10 mg}"),
	need("antidote volume", range2("antidote volume", "mL", "a volume such as 10 mL", "10 mL", "15 mL", 1000), func(p *policyFile) *between { return &p.volume },
		"Volume it is diluted to.", "{least: 10 mL, most: 15 mL}"),
	need("antidote by", span("a time such as 1 h"), func(p *policyFile) *sim.Time { return &p.AntidoteBy },
		"How long after a leak is recognised it must be given.", "1 h"),
	need("rate step", measure("mL/h", "a rate such as 0.1 mL/h", 0.01, 10), func(p *policyFile) *float64 { return &p.RateStepMLH },
		"What pump rates are rounded to.", "0.1 mL/h"),
	need("tolerance", share("a share such as 1 %"), func(p *policyFile) *float64 { return &p.Tolerance },
		"How far off a sum may be, besides half a step of the device.", "1 %"),
	need("withdraw first", truth, func(p *policyFile) *bool { return &p.WithdrawFirst },
		"Whether the drug's volume is taken out of the bag before it is added.", "false"),
}

var policyShape = shape[policyFile]{name: "policy", rows: append([]row[policyFile]{
	need("format", format, func(p *policyFile) *int { return &p.format }, "The version of this file format.", "1"),
	need("policy", name("the name of the policy"), func(p *policyFile) *string { return &p.ID }, "What cases call this policy.", "alder-court"),
	need("title", line, func(p *policyFile) *string { return &p.Title }, "What learners read.", "Alder Court Hospital, peripheral vasopressors"),
	need("note", prose, func(p *policyFile) *string { return &p.Note }, "Whose policy it is, and what wins over it.", "An invented unit's policy. Your own unit's policy wins."),
	need("sources", listOf(line), func(p *policyFile) *[]string { return &p.Sources }, "What was read to set the limits.", "[US norepinephrine label]"),
	need("because", because, func(p *policyFile) *policyFile { return p },
		"For each limit, where its value comes from.", "{longest run: a hospital procedure; published limits run from 4 h to none}"),
}, limitRows...)}
