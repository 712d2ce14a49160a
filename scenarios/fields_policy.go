package scenarios

import (
	"blanch/sim"
	"blanch/sim/drug"
	"blanch/sim/quantity"
	"blanch/sim/tissue"
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
	others  []perDrugBetween
	over    []perDrug
	Policy
}

type between struct{ least, most float64 }

type perDrug struct {
	drug  string
	value float64
	units bool // in units, not in mcg
}

type perDrugBetween struct {
	drug string
	between
}

func identifyDrug(p *perDrug, id string, _ Pos) { p.drug = id }

func range2(name, unit, says, low, high string, top float64) form[between] {
	return group(shape[between]{name: name, rows: []row[between]{
		need("least", measure(unit, says, 0, top), func(b *between) *float64 { return &b.least }, "The least that is accepted.", low),
		need("most", measure(unit, says, 0, top), func(b *between) *float64 { return &b.most }, "The most that is accepted.", high),
	}})
}

// perDrugOf is a limit for each drug: in mcg, or in units for a drug that is
// kept in them.
func perDrugOf(per, says string) form[[]perDrug] {
	mcg, units := measure("mcg/"+per, says, 0.0001, 100000), measure("units/"+per, says, 0.0001, 1000)
	return entries(form[perDrug]{value: mcg.value, read: func(r *reader, at string, n *node, v *perDrug) bool {
		if q, err := quantity.Parse(n.text); n.kind == scalar && err == nil && q.Unit.Same(quantity.MustUnit("units/"+per)) {
			v.units = true
			return units.read(r, at, n, &v.value)
		}
		return mcg.read(r, at, n, &v.value)
	}}, "drug", identifyDrug)
}

// otherAntidotes has a field for every antidote besides phentolamine, whose
// limits stand by themselves.
var otherAntidotes = func() shape[policyFile] {
	s := shape[policyFile]{name: "other antidotes"}
	for _, name := range drug.Names() {
		d, _ := drug.Named(name)
		if d.Role != drug.Antidote || name == "phentolamine" {
			continue
		}
		i := len(s.rows)
		least, most := d.Treatment.Least.String(), d.Treatment.Most.String()
		s.rows = append(s.rows, may(name, range2("dose", "mg", "an amount such as "+most, least, most, 1000), func(p *policyFile) *between {
			for len(p.others) <= i {
				p.others = append(p.others, perDrugBetween{})
			}
			p.others[i].drug = name
			return &p.others[i].between
		}, "What is accepted of it in all.", "{least: "+least+", most: "+most+"}"))
	}
	return s
}()

func signNames() []string {
	var names []string
	for _, s := range tissue.Signs() {
		names = append(names, string(s))
	}
	return names
}

var callForShape = shape[policyFile]{name: "call for central access", rows: []row[policyFile]{
	may("dose over", perDrugOf("min", "a dose such as 10 mcg/min"), func(p *policyFile) *[]perDrug { return &p.over },
		"A dose through a peripheral line over this, by drug.", "{norepinephrine: 10 mcg/min}"),
	may("vasopressors", whole(2, 5), func(p *policyFile) *int { return &p.CallFor.Vasopressors },
		"As many vasopressors at once.", "2"),
	may("failed tries", whole(1, 20), func(p *policyFile) *int { return &p.CallFor.Tries },
		"As many punctures of arm veins that failed.", "3"),
}}

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
	may("longest run", lasting("a time such as 24 h"), func(p *policyFile) *sim.Time { return &p.LongestRun },
		"How long a vasopressor may run through a peripheral line; no end when left out.", "24 h"),
	need("decide by", span("a time such as 4 h"), func(p *policyFile) *sim.Time { return &p.DecideBy },
		"When, after the start, it must be decided whether central access is needed.", "4 h"),
	need("check early", lasting("a time such as 15 min"), func(p *policyFile) *sim.Time { return &p.CheckEarly },
		"Longest gap between checks of the site at first.", "15 min"),
	need("early for", span("a time such as 2 h"), func(p *policyFile) *sim.Time { return &p.EarlyFor },
		"How long after the start that holds.", "2 h"),
	need("check later", lasting("a time such as 1 h"), func(p *policyFile) *sim.Time { return &p.CheckLater },
		"Longest gap between checks after that.", "1 h"),
	need("sites", listOf(oneOf("a site", vein.Sites()...)), func(p *policyFile) *[]vein.Site { return &p.Sites },
		"Where on the arm a vasopressor may run.", "[forearm, fossa, upper-arm]"),
	need("gauges", listOf(whole(14, 26)), func(p *policyFile) *[]int { return &p.Gauges },
		"Gauges of cannula that may carry it.", "[18, 20]"),
	need("shortest cannula", measure("mm", "a length such as 29.5 mm", 1, 120), func(p *policyFile) *float64 { return &p.LeastMM },
		"The shortest cannula that may carry it.", "29.5 mm"),
	need("least share", share("a share such as 65 %"), func(p *policyFile) *float64 { return &p.LeastShare },
		"The least share of the cannula's length that lies in the vein.", "65 %"),
	may("least vein", measure("mm", "a diameter such as 4 mm", 0.5, 20), func(p *policyFile) *float64 { return &p.LeastVeinMM },
		"The narrowest vein that may carry it; any width when left out.", "4 mm"),
	need("highest concentration", perDrugOf("mL", "a concentration such as 16 mcg/mL"), func(p *policyFile) *[]perDrug { return &p.limits },
		"The strongest mix that may run through a peripheral line, by drug.", "{norepinephrine: 16 mcg/mL}"),
	need("highest dose", perDrugOf("min", "a dose such as 15 mcg/min"), func(p *policyFile) *[]perDrug { return &p.doses },
		"The highest dose through a peripheral line, by drug.", "{norepinephrine: 15 mcg/min}"),
	may("dosing weight", oneOf("which weight", DosingWeights...), func(p *policyFile) *string { return &p.DosingWeight },
		"The weight that doses by the kilogram are reckoned by. Where the case does not give it, the actual one stands in; so it does when this is left out.", "ideal"),
	need("second checks", listOf(oneOf("a moment", SecondCheckMoments...)), func(p *policyFile) *[]string { return &p.SecondChecks },
		"When a second person checks: the bag before it runs, the pump before it first runs, both at the first start (set-up), each further bag (new-bag), each bag of another strength (new-concentration), the pump after it was moved to another line (changeover), each running pump as it stands when the patient is handed over (handover).", "[bag, pump]"),
	may("line shared with", oneOf("what may share", SharedLines...), func(p *policyFile) *string { return &p.SharedWith },
		"What else may go through a line after it has carried a vasopressor: nothing, a flush, or another vasopressor (and flushes).", "nothing"),
	may("blood return while running", oneOf("how it may be tested", BloodReturns...), func(p *policyFile) *string { return &p.BloodReturn },
		"Whether blood return is tested at a line through which a vasopressor runs: never, allowed, or with every check.", "never"),
	may("change bag after", lasting("a time such as 24 h"), func(p *policyFile) *sim.Time { return &p.ChangeBagAfter },
		"How long after it was made up a bag may still run.", "24 h"),
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
	may("antidote for", listOf(oneOf("a sign", signNames()...)), func(p *policyFile) *[]string { return &p.AntidoteFor },
		"Which findings at a leaking line call for the antidote; leak is any of them. Every recognised leak does when left out.", "[blanching, coolness]"),
	may("other antidotes", group(otherAntidotes), itself[policyFile],
		"What is accepted instead of phentolamine, with its doses.", "{terbutaline: {least: 0.5 mg, most: 1 mg}}"),
	may("scale", line, func(p *policyFile) *string { return &p.Scale },
		"The scale that a leak is graded by, in the notes as: grade 2. None when left out.", "infiltration scale, grade 0 to 4"),
	may("call for central access", group(callForShape), itself[policyFile],
		"What makes central access be asked for at once, before the time to decide.", "{dose over: {norepinephrine: 10 mcg/min}, failed tries: 3}"),
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
