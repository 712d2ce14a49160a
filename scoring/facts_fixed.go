package scoring

import (
	"cmp"
	"strconv"
	"strings"

	"blanch/scenarios"
	"blanch/sim"
	"blanch/sim/drug"
	"blanch/sim/quantity"
	"blanch/sim/vein"
)

func fillIn(text, mark, with string) string { return strings.ReplaceAll(text, mark, with) }

// fixedFact is a row whose value is the same whatever the learner does.
func fixedFact(group, name, kind, says, example string, fill func(e *textEnvironment, r *record)) Fact {
	return Fact{Group: group, Name: name, Signature: name + " -> " + kind, Says: says, Example: example, fixed: true, fill: fill}
}

var orderTable = []Fact{
	fixedFact("the order", "order.drug", "words", "The drug ordered.", "{order.drug}",
		func(e *textEnvironment, r *record) { e.Order.Drug = Words{r.Case.Order.Drug} }),
	fixedFact("the order", "order.text", "words", "The order as it was meant: as the learner reads it, or once the prescriber has put it right.", "{order.text}",
		func(e *textEnvironment, r *record) { e.Order.Text = Words{r.Case.Meant().Text} }),
	fixedFact("the order", "order.start_dose", "dose", "The dose to start at, as the order was meant, for the weight that the policy doses by.", "highest_dose >= order.start_dose",
		func(e *textEnvironment, r *record) { e.Order.Start = r.perMinute(r.Case.Meant().Start) }),
	fixedFact("the order", "order.most_dose", "dose", "The highest dose ordered, as it was meant, for the weight that the policy doses by.", "highest_dose <= order.most_dose",
		func(e *textEnvironment, r *record) { e.Order.Most = r.perMinute(r.Case.Meant().Most) }),
	fixedFact("the order", "order.target", "pressure", "The mean pressure to keep at the least.", "lowest_shown >= order.target",
		func(e *textEnvironment, r *record) { e.Order.Target = Pressure{r.Case.Order.TargetMmHg} }),
	fixedFact("the order", "order.ceiling", "pressure", "The mean pressure to keep at the most.", "highest_shown <= order.ceiling",
		func(e *textEnvironment, r *record) { e.Order.Ceil = Pressure{r.Case.Order.CeilMmHg} }),
}

// perMinute is a dose of the ordered drug for the weight that the policy doses
// by.
func (r *record) perMinute(q quantity.Quantity) Dose {
	return r.dose(sim.PerMinute(q, r.Case.Order.Drug, r.doseKG()))
}

// dose is a dose of the ordered drug in its base unit a minute.
func (r *record) dose(v float64) Dose { return Dose{v, inUnits(r.Case.Order.Drug)} }

// concentration is one of the ordered drug in its base unit a mL.
func (r *record) concentration(v float64) Concentration {
	return Concentration{v, inUnits(r.Case.Order.Drug)}
}

func inUnits(name string) bool { return drug.BaseOf(name) == "units" }

// policyFact is a row of the policy.
func policyFact(name, kind, says, example string, fill func(p *policyFacts, r *record)) Fact {
	return fixedFact("the policy", "policy."+name, kind, says, example,
		func(e *textEnvironment, r *record) { fill(&e.Policy, r) })
}

var policyTable = []Fact{
	policyFact("title", "words", "The policy's title.", "{policy.title}",
		func(p *policyFacts, r *record) { p.Title = Words{r.policy.Title} }),
	policyFact("longest_run", "span", "The longest peripheral run; where the policy sets no end it is never over, and reads: no set time.", "time_peripheral <= policy.longest_run",
		func(p *policyFacts, r *record) { p.LongestRun = spanOrNever(r.policy.LongestRun) }),
	policyFact("decide_by", "span", "Decide on central access by this long after the start.", `asked("central-access") - start <= policy.decide_by`,
		func(p *policyFacts, r *record) { p.DecideBy = spanOf(r.policy.DecideBy) }),
	policyFact("check_early", "span", "The longest gap between checks at first.", `longest_gap_between_checks(start, start + policy.early_for) <= policy.check_early`,
		func(p *policyFacts, r *record) { p.CheckEarly = spanOf(r.policy.CheckEarly) }),
	policyFact("early_for", "span", "How long the early interval holds.", `longest_gap_between_checks(start, start + policy.early_for) <= policy.check_early`,
		func(p *policyFacts, r *record) { p.EarlyFor = spanOf(r.policy.EarlyFor) }),
	policyFact("check_later", "span", "The longest gap between checks afterwards.", `longest_gap_between_checks(start + policy.early_for, ended) <= policy.check_later`,
		func(p *policyFacts, r *record) { p.CheckLater = spanOf(r.policy.CheckLater) }),
	policyFact("sites", "words", "The sites allowed.", "{policy.sites}",
		func(p *policyFacts, r *record) { p.Sites = Words{siteNames(r.policy.Sites)} }),
	policyFact("gauges", "words", "The gauges allowed.", "{policy.gauges}",
		func(p *policyFacts, r *record) { p.Gauges = Words{gaugeNames(r.policy.Gauges)} }),
	policyFact("least_mm", "length", "The shortest cannula.", "first_line.length >= policy.least_mm",
		func(p *policyFacts, r *record) { p.LeastLength = Length{r.policy.LeastMM} }),
	policyFact("least_share", "share", "The least share of the cannula in the vein.", "first_line.share_in_vein >= policy.least_share",
		func(p *policyFacts, r *record) { p.LeastShare = Share{r.policy.LeastShare} }),
	policyFact("most_concentration", "concentration", "The highest peripheral concentration of the ordered drug.", "highest_concentration <= policy.most_concentration",
		func(p *policyFacts, r *record) {
			p.MostConcentration = r.concentration(limit(r.policy.MostMcgML, r.Case.Order.Drug))
		}),
	policyFact("most_dose", "dose", "The highest peripheral dose of the ordered drug.", "highest_dose <= policy.most_dose",
		func(p *policyFacts, r *record) { p.MostDose = r.dose(limit(r.policy.MostMcgMin, r.Case.Order.Drug)) }),
	policyFact("second_checks", "words", "What wants a second person.", "{policy.second_checks}",
		func(p *policyFacts, r *record) { p.SecondChecks = Words{strings.Join(r.policy.SecondChecks, ", ")} }),
	{Group: "the policy", Name: "policy.wants_second_check", Signature: "policy.wants_second_check(what) -> yes or no",
		Says:    "Whether the policy asks for a second person at that moment.",
		Example: `not policy.wants_second_check("bag") or before(second_check("bag"), start)`,
		args:    []set{checks}, fixed: true,
		fill: func(e *textEnvironment, r *record) { e.Policy.WantsSecondCheck = r.wantsSecondCheck }},
	policyFact("backup_by", "span", "A second working line by this long after the start.", "second_line - start <= policy.backup_by",
		func(p *policyFacts, r *record) { p.BackupBy = spanOf(r.policy.BackupBy) }),
	policyFact("start_by", "span", "Drug in the blood by this long after the order.", "first_drug - ordered <= policy.start_by",
		func(p *policyFacts, r *record) { p.StartBy = spanOf(r.policy.StartBy) }),
	policyFact("least_antidote_mg", "mass", "The least antidote accepted.", "antidote_mg >= policy.least_antidote_mg",
		func(p *policyFacts, r *record) { p.LeastAntidoteMG = Mass{r.policy.AntidoteMG[0]} }),
	policyFact("most_antidote_mg", "mass", "The most antidote accepted.", "antidote_mg <= policy.most_antidote_mg",
		func(p *policyFacts, r *record) { p.MostAntidoteMG = Mass{r.policy.AntidoteMG[1]} }),
	policyFact("least_antidote_ml", "volume", "The least volume the antidote may be made up to.", "antidote_dilution >= policy.least_antidote_ml",
		func(p *policyFacts, r *record) { p.LeastAntidoteML = Volume{r.policy.AntidoteML[0]} }),
	policyFact("most_antidote_ml", "volume", "The most volume the antidote may be made up to.", "antidote_dilution <= policy.most_antidote_ml",
		func(p *policyFacts, r *record) { p.MostAntidoteML = Volume{r.policy.AntidoteML[1]} }),
	policyFact("antidote_by", "span", "Antidote by this long after the leak was recognised.", "antidote_given - recognised <= policy.antidote_by",
		func(p *policyFacts, r *record) { p.AntidoteBy = spanOf(r.policy.AntidoteBy) }),
	policyFact("rate_step_mlh", "number", "What pump rates are rounded to, in mL/h.", "{policy.rate_step_mlh} mL/h",
		func(p *policyFacts, r *record) { p.RateStep = r.policy.RateStepMLH }),
	policyFact("tolerance", "share", "How far a sum may be from its key.", `error_of("rate") <= policy.tolerance`,
		func(p *policyFacts, r *record) { p.Tolerance = Share{r.policy.Tolerance} }),
	policyFact("withdraw_first", "yes or no", "Whether the drug's volume is taken out of the bag before the drug goes in.", "policy.withdraw_first or count(\"feel\") >= 1",
		func(p *policyFacts, r *record) { p.WithdrawFirst = r.policy.WithdrawFirst }),
	policyFact("least_vein_mm", "length", "The narrowest vein; 0 mm when the policy does not say.", "first_line.vein_width >= policy.least_vein_mm",
		func(p *policyFacts, r *record) { p.LeastVein = Length{r.policy.LeastVeinMM} }),
	policyFact("dosing_weight", "words", "The weight that doses are reckoned by: actual, ideal or stated.", "{policy.dosing_weight}",
		func(p *policyFacts, r *record) { p.DosingWeight = Words{cmp.Or(r.policy.DosingWeight, "actual")} }),
	{Group: "the policy", Name: "policy.may_share", Signature: "policy.may_share(what) -> yes or no",
		Says:    "Whether the policy lets a flush, or another vasopressor, through a line that has carried a vasopressor; yes when it does not say.",
		Example: `policy.may_share("flush") or shared_line("flush") == 0`,
		args:    []set{sharings}, fixed: true,
		fill: func(e *textEnvironment, r *record) { e.Policy.MayShare = r.mayShare }},
	policyFact("wants_blood_return", "yes or no", "Whether the policy wants blood return tested with every check.", "not policy.wants_blood_return or blood_return_while_running >= 1",
		func(p *policyFacts, r *record) { p.WantsBloodReturn = r.policy.BloodReturn == bloodWithChecks }),
	policyFact("allows_blood_return", "yes or no", "Whether the policy lets blood return be tested while a vasopressor runs; yes when it does not say.", "policy.allows_blood_return or blood_return_while_running == 0",
		func(p *policyFacts, r *record) { p.AllowsBloodReturn = r.policy.BloodReturn != bloodNever }),
	policyFact("change_bag_after", "span", "How long after it was made up a bag may still run; where the policy does not say it is never over, and reads: no set time.", "oldest_bag <= policy.change_bag_after",
		func(p *policyFacts, r *record) { p.ChangeBagAfter = spanOrNever(r.policy.ChangeBagAfter) }),
	policyFact("antidote_for", "words", "What calls for the antidote: any sign of a leak, or the findings.", "{policy.antidote_for}",
		func(p *policyFacts, r *record) { p.AntidoteFor = r.limitWords("antidote for") }),
	policyFact("other_antidotes", "words", "What is accepted instead of phentolamine.", "{policy.other_antidotes}",
		func(p *policyFacts, r *record) { p.OtherAntidotes = r.limitWords("other antidotes") }),
	policyFact("scale", "words", "The scale that a leak is graded by.", "{policy.scale}",
		func(p *policyFacts, r *record) { p.Scale = r.limitWords("scale") }),
	policyFact("wants_scale", "yes or no", "Whether the policy grades a leak by a scale.", "leak_graded or not policy.wants_scale",
		func(p *policyFacts, r *record) { p.WantsScale = r.policy.Scale != "" }),
	policyFact("central_dose", "dose", "Over this dose of the ordered drug the policy wants central access asked for; not known when it does not say.", "{policy.central_dose}",
		func(p *policyFacts, r *record) {
			p.CentralDose = r.dose(limit(r.policy.CallFor.Over, r.Case.Order.Drug))
		}),
	policyFact("call_for_central", "words", "What makes the policy want central access asked for at once.", "{policy.call_for_central}",
		func(p *policyFacts, r *record) { p.CallForCentral = r.limitWords("call for central access") }),
}

// bloodNever and bloodWithChecks are two of scenarios.BloodReturns.
const (
	bloodNever      = "never"
	bloodWithChecks = "with every check"
)

// spanOrNever is a limit that may be left out; without it nothing is over.
func spanOrNever(t sim.Time) Span {
	if t == 0 {
		return Span{unset: true}
	}
	return spanOf(t)
}

// limitWords is a limit as it is said in words.
func (r *record) limitWords(key string) Words {
	for _, l := range r.policy.Limits() {
		if l.Key == key {
			return Words{l.Says}
		}
	}
	return Words{scenarios.Unsaid}
}

func (r *record) wantsSecondCheck(what string) bool {
	for _, w := range r.policy.SecondChecks {
		if w == what {
			return true
		}
	}
	return false
}

func limit(of map[string]float64, drug string) float64 {
	if v, ok := of[drug]; ok {
		return v
	}
	return unknown
}

func siteNames(sites []vein.Site) string {
	var names []string
	for _, s := range sites {
		names = append(names, string(s))
	}
	return strings.Join(names, ", ")
}

func gaugeNames(gauges []int) string {
	var names []string
	for _, g := range gauges {
		names = append(names, strconv.Itoa(g))
	}
	return strings.Join(names, ", ")
}

// amountsGroup heads the facts that only write an amount out.
const amountsGroup = "amounts"

// writtenFact is a row for an amount that the author writes out.
func writtenFact(name, kind, example string, fill func(e *textEnvironment)) Fact {
	return Fact{Group: amountsGroup, Name: name, Signature: name + "(number) -> " + kind,
		Says: "A " + kind + " written out.", Example: example, fixed: true,
		fill: func(e *textEnvironment, _ *record) { fill(e) }}
}

var writtenFacts = []Fact{
	writtenFact("seconds", "span", `drug_free <= seconds(90)`, func(e *textEnvironment) {
		e.Seconds = func(n float64) Span { return spanOfSeconds(n) }
	}),
	writtenFact("minutes", "span", `drug_free <= minutes(2)`, func(e *textEnvironment) {
		e.Minutes = func(n float64) Span { return spanOfSeconds(n * 60) }
	}),
	writtenFact("hours", "span", `time_peripheral <= hours(4)`, func(e *textEnvironment) {
		e.Hours = func(n float64) Span { return spanOfSeconds(n * 3600) }
	}),
	writtenFact("percent", "share", `first_line.share_in_vein >= percent(65)`, func(e *textEnvironment) {
		e.Percent = func(n float64) Share { return Share{n / 100} }
	}),
	{Group: amountsGroup, Name: "or_never", Signature: "or_never(span) -> words", fixed: true,
		Says: "The span for a text to show after a colon; never when it is 0 s, not known when it is never over.", Example: `{or_never(drug_free)}`,
		fill: func(e *textEnvironment, _ *record) { e.OrNever = orNever }},
	writtenFact("mcg_per_min", "dose", `highest_dose <= mcg_per_min(15)`, func(e *textEnvironment) {
		e.McgPerMin = func(n float64) Dose { return Dose{v: n} }
	}),
	writtenFact("mcg_per_mL", "concentration", `highest_concentration <= mcg_per_mL(16)`, func(e *textEnvironment) {
		e.McgPerML = func(n float64) Concentration { return Concentration{v: n} }
	}),
	writtenFact("units_per_min", "dose", `highest_dose <= units_per_min(0.04)`, func(e *textEnvironment) {
		e.UnitsPerMin = func(n float64) Dose { return Dose{n, true} }
	}),
	writtenFact("units_per_mL", "concentration", `highest_concentration <= units_per_mL(0.2)`, func(e *textEnvironment) {
		e.UnitsPerML = func(n float64) Concentration { return Concentration{n, true} }
	}),
	writtenFact("mmHg", "pressure", `lowest_shown >= mmHg(50)`, func(e *textEnvironment) {
		e.MmHg = func(n float64) Pressure { return Pressure{n} }
	}),
	writtenFact("mg", "mass", `antidote_mg >= mg(5)`, func(e *textEnvironment) {
		e.Milligrams = func(n float64) Mass { return Mass{n} }
	}),
	writtenFact("mL", "volume", `antidote_dilution >= mL(10)`, func(e *textEnvironment) {
		e.ML = func(n float64) Volume { return Volume{n} }
	}),
	writtenFact("mm", "length", `first_line.length >= mm(45)`, func(e *textEnvironment) {
		e.MM = func(n float64) Length { return Length{n} }
	}),
}

// outcomeFact is a row that only texts can show.
func outcomeFact(name, kind, says string, fill func(o *outcomeFacts, from sim.Outcome)) Fact {
	name = "outcome." + name
	return Fact{Group: "the outcome, for texts only", Name: name, Signature: name + " -> " + kind,
		Says: says, Example: "{" + name + "}", TextOnly: true,
		fill: func(e *textEnvironment, r *record) { fill(&e.Outcome, r.Outcome) }}
}

var outcomeTable = []Fact{
	outcomeFact("time_under", "span", "How long the true pressure was under the target after the first drug.",
		func(o *outcomeFacts, from sim.Outcome) { o.Under = spanOfSeconds(from.UnderS) }),
	outcomeFact("time_over", "span", "How long the true pressure was over the ceiling after the first drug.",
		func(o *outcomeFacts, from sim.Outcome) { o.Over = spanOfSeconds(from.OverS) }),
	outcomeFact("dose_set", "mass", "Ordered drug that the pumps gave after it first reached the blood.",
		func(o *outcomeFacts, from sim.Outcome) { o.Set = Mass{from.SetMcg / 1000} }),
	outcomeFact("dose_reached", "mass", "What of it reached the blood.",
		func(o *outcomeFacts, from sim.Outcome) { o.Reached = Mass{from.ReachedMcg / 1000} }),
	outcomeFact("drug_in_tissue", "mass", "Drug that went into the tissue.",
		func(o *outcomeFacts, from sim.Outcome) { o.TissueDrug = Mass{from.TissueMcg / 1000} }),
	outcomeFact("fluid_in_tissue", "volume", "Fluid that went into the tissue.",
		func(o *outcomeFacts, from sim.Outcome) { o.TissueVolume = Volume{from.TissueML} }),
	outcomeFact("ischaemic_time", "span", "How long the core of the worst leak was short of blood. Never a safe time on a real arm.",
		func(o *outcomeFacts, from sim.Outcome) { o.Ischaemic = spanOfSeconds(from.IschaemicS) }),
	outcomeFact("widest_swelling", "length", "The widest the swelling grew.",
		func(o *outcomeFacts, from sim.Outcome) { o.Widest = Length{from.WidestMM} }),
	outcomeFact("drug_flushed", "mass", "Drug pushed on by flushes.",
		func(o *outcomeFacts, from sim.Outcome) { o.Flushed = Mass{from.FlushedMcg / 1000} }),
	outcomeFact("peak_dose", "dose", "The highest dose set through any line.",
		func(o *outcomeFacts, from sim.Outcome) { o.PeakDose = Dose{v: from.PeakDoseMcgM} }),
}
