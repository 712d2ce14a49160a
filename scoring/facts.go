package scoring

import (
	"reflect"
	"slices"
	"strings"
)

// Fact is one thing that a rule or a text can read. The table of facts is
// the author's reference: it drives the environment, the messages and the
// reference page.
type Fact struct {
	Group     string // heading in the reference
	Name      string // "first_line.share_in_vein"
	Signature string // "first(act) -> moment"
	Says      string // what it is, in one or two sentences
	Example   string // a condition or, for what only texts can show, a hole
	TextOnly  bool

	number int   // its place in the table
	args   []set // closed sets of the text arguments, in order
	fixed  bool  // the same whatever the learner does
	asked  bool  // it takes arguments
	fill   func(e *textEnvironment, r *record)
}

// Facts lists every fact in the order of the reference.
func Facts() []Fact { return slices.Clone(facts) }

var facts = numbered(slices.Concat(timeFacts, actFacts, leakFacts, lineTable(), drugFacts, sumFacts, callFacts, orderFact, orderTable, policyTable, writtenFacts, outcomeTable))

func numbered(all []Fact) []Fact {
	for i := range all {
		all[i].number = i
		all[i].asked = leafKinds[all[i].Name].Kind() == reflect.Func
	}
	return all
}

// grouped puts facts under a heading of the reference. Each has the name that
// its signature begins with.
func grouped(group string, all []Fact) []Fact {
	for i := range all {
		all[i].Group = group
		all[i].Name = all[i].Signature[:strings.IndexAny(all[i].Signature, "( ")]
	}
	return all
}

var factByName = func() map[string]Fact {
	m := make(map[string]Fact, len(facts))
	for _, f := range facts {
		m[f.Name] = f
	}
	return m
}()

var leakFacts = grouped("the leak", []Fact{
	{Signature: "visible(sign) -> moment",
		Says:    `The first moment a competent look would have found the sign; "leak" is the first of any. Hidden from the learner, so use it only as the beginning of a delay.`,
		Example: `found("leak") - visible("leak") <= policy.check_early`,
		args:    []set{signs},
		fill:    func(e *textEnvironment, r *record) { e.Visible = r.visible }},
	{Signature: "found(sign) -> moment",
		Says:    `The first moment a look at the leaking line showed the sign; "leak" is the first of any.`,
		Example: `found("leak").known`,
		args:    []set{signs},
		fill:    func(e *textEnvironment, r *record) { e.Found = r.found }},
	{Signature: "named(verdict) -> moment",
		Says:    "The first time the learner gave this verdict on a line that had begun to leak.",
		Example: `named("leaking") - found("leak") <= minutes(5)`,
		args:    []set{verdicts},
		fill:    func(e *textEnvironment, r *record) { e.Named = r.named }},
	{Signature: "recognised -> moment",
		Says:    "The moment the leak was found or named, whichever came first.",
		Example: `recognised - visible("leak") <= policy.check_early`,
		fill:    func(e *textEnvironment, r *record) { e.Recognised = r.recognised() }},
	{Signature: "wrongly_named -> yes or no",
		Says:    "Whether the learner judged a line to be leaking that was not.",
		Example: `not wrongly_named`,
		fill:    func(e *textEnvironment, r *record) { e.WronglyNamed = r.wronglyNamed() }},
	{Signature: "judged(verdict) -> moment",
		Says:    "The first time the learner gave this verdict on a peripheral line that carried a vasopressor or had carried one, leaking or not.",
		Example: `before(first("refill"), judged("sound"))`,
		args:    []set{verdicts},
		fill:    func(e *textEnvironment, r *record) { e.Judged = r.judgedAs }},
	{Signature: "leak_stopped -> moment",
		Says:    "The moment the last infusion through the leaking line stopped; never while it runs on.",
		Example: `leak_stopped - recognised <= minutes(2)`,
		fill:    func(e *textEnvironment, r *record) { e.LeakStopped = r.leakStopped() }},
	{Signature: "leak_ran_after_recognised -> span",
		Says:    "How long the leaking line was still being fed after the leak was recognised. Never over when it was not recognised.",
		Example: `leak_ran_after_recognised <= minutes(2)`,
		fill:    func(e *textEnvironment, r *record) { e.LeakRan = r.leakRan() }},
	{Signature: "raised_while_leaking -> count",
		Says:    "How often the dose was raised through the leaking line once a look would have found the leak.",
		Example: `raised_while_leaking == 0`,
		fill:    func(e *textEnvironment, r *record) { e.RaisedOnLeak = r.raisedOnLeak() }},
	{Signature: "antidote_given -> moment",
		Says:    "The first time an antidote was put into the tissue.",
		Example: `antidote_given - recognised <= policy.antidote_by`,
		fill:    func(e *textEnvironment, r *record) { e.AntidoteGiven = r.antidoteGiven() }},
	{Signature: "antidote_mg -> mass",
		Says:    "All the antidote put into the tissue. Not known when none was.",
		Example: `antidote_mg >= policy.least_antidote_mg`,
		fill:    func(e *textEnvironment, r *record) { e.AntidoteMG = r.antidoteMG() }},
	{Signature: "antidote_volume -> volume",
		Says:    "All the volume put into the tissue with the antidote. Not known when none was.",
		Example: `antidote_volume <= mL(15)`,
		fill:    func(e *textEnvironment, r *record) { e.AntidoteVolume = r.antidoteVolume() }},
	{Signature: "antidote_dilution -> volume",
		Says:    "The volume that the antidote was made up to. Not known when none was given.",
		Example: `antidote_dilution >= policy.least_antidote_ml`,
		fill:    func(e *textEnvironment, r *record) { e.AntidoteDilute = r.antidoteDilution() }},
	{Signature: "antidote_wanted -> moment",
		Says:    "The first moment at which a finding called for the antidote under the policy; where the policy wants it for every leak or does not say, the moment the leak was recognised.",
		Example: `antidote_given - antidote_wanted <= policy.antidote_by`,
		fill:    func(e *textEnvironment, r *record) { e.AntidoteWanted = r.antidoteWanted() }},
	{Signature: "antidote_accepted -> yes or no",
		Says:    "Whether all that was put into the tissue was of a drug, and in all a dose, that the policy accepts. No when nothing was given.",
		Example: `antidote_accepted`,
		fill:    func(e *textEnvironment, r *record) { e.AntidoteFits = r.antidoteAccepted() }},
	{Signature: "leak_graded -> yes or no",
		Says:    `Whether the notes, once the leak was recognised, give a grade as in "grade 2".`,
		Example: `leak_graded or not policy.wants_scale`,
		fill:    func(e *textEnvironment, r *record) { e.LeakGraded = r.leakGraded() }},
})

var drugFacts = grouped("drug and pressure", []Fact{
	{Signature: "oldest_bag -> span",
		Says:    "The longest that a bag with a vasopressor still ran after it was made up; 0 s when none ran.",
		Example: `oldest_bag <= policy.change_bag_after`,
		fill:    func(e *textEnvironment, r *record) { e.OldestBag = r.oldestBag() }},
	{Signature: "highest_dose -> dose",
		Says:    "The highest dose of the ordered drug set through a peripheral line. Not known when none ran.",
		Example: `highest_dose <= policy.most_dose`,
		fill:    func(e *textEnvironment, r *record) { e.HighestDose = r.highestDose(false) }},
	{Signature: "highest_dose_anywhere -> dose",
		Says:    "The highest dose of the ordered drug set through any line, central ones too. Not known when none ran.",
		Example: `highest_dose_anywhere <= order.most_dose`,
		fill:    func(e *textEnvironment, r *record) { e.HighestDoseAnywhere = r.highestDose(true) }},
	{Signature: "highest_concentration -> concentration",
		Says:    "The highest concentration of the ordered drug run through a peripheral line, by its label. Not known when none ran.",
		Example: `highest_concentration <= policy.most_concentration`,
		fill:    func(e *textEnvironment, r *record) { e.HighestConcentration = r.highestConcentration() }},
	{Signature: "ran(drug) -> moment",
		Says:    "The first moment a pump ran this drug through any line.",
		Example: `ran("norepinephrine") - ordered <= minutes(30)`,
		args:    []set{drugs},
		fill:    func(e *textEnvironment, r *record) { e.Ran = r.ran }},
	{Signature: "within_order(drug) -> yes or no",
		Says:    "Whether this drug ran, and never at a dose above the range that was ordered, as it was meant.",
		Example: `within_order("norepinephrine")`,
		args:    []set{drugs},
		fill:    func(e *textEnvironment, r *record) { e.WithinOrder = r.withinOrder }},
	{Signature: "raised_without(act, span) -> count",
		Says: "How often the dose of the ordered drug was raised on a pump that ran through a peripheral line, with this action not completed in that span before. " +
			"An action on a line counts when it was done on the line that the pump feeds.",
		Example: `raised_without("feel", minutes(10)) == 0`,
		args:    []set{acts},
		fill:    func(e *textEnvironment, r *record) { e.RaisedWithout = r.raisedWithout }},
	{Signature: "drug_free -> span",
		Says:    "How long no line brought drug to the blood after it first had. Never over when it never did.",
		Example: `drug_free <= minutes(2)`,
		fill:    func(e *textEnvironment, r *record) { e.DrugFree = r.drugFree() }},
	{Signature: "time_without_infusion -> span",
		Says:    "How long in all, from the start to the end of the run, no pump ran a vasopressor through a line in place. Never over when none ever ran.",
		Example: `time_without_infusion <= minutes(5)`,
		fill:    func(e *textEnvironment, r *record) { e.WithoutInfusion = r.withoutInfusion() }},
	{Signature: "gap_in_changeover -> span",
		Says:    "The longest that no pump ran a vasopressor while it moved from one line to another; 0 s when it never moved.",
		Example: `gap_in_changeover <= seconds(60)`,
		fill:    func(e *textEnvironment, r *record) { e.ChangeoverGap = r.changeoverGap() }},
	{Signature: "longest_without(drug, moment, moment) -> span",
		Says: "Between the two moments, the longest that no pump ran this drug through a line in place, whichever pump and line; 0 s when one always did. " +
			"Never over when the first moment is never; a second moment that is never stands for the end.",
		Example: `longest_without("norepinephrine", start, ended) <= minutes(2)`,
		args:    []set{drugs},
		fill:    func(e *textEnvironment, r *record) { e.LongestWithout = r.longestWithoutDrug }},
	{Signature: "shown_under(pressure) -> span",
		Says:    "How long the pressure on the screen was under this, from the first drug to the end, each reading standing until the next. Never over when no drug came.",
		Example: `shown_under(order.target) <= minutes(30)`,
		fill:    func(e *textEnvironment, r *record) { e.ShownUnder = r.shownUnder }},
	{Signature: "shown_over(pressure) -> span",
		Says:    "How long the pressure on the screen was over this, counted in the same way.",
		Example: `shown_over(order.ceiling) <= minutes(10)`,
		fill:    func(e *textEnvironment, r *record) { e.ShownOver = r.shownOver }},
	{Signature: "lowest_shown -> pressure",
		Says:    "The lowest pressure on the screen from the first drug on. Not known when no drug came.",
		Example: `lowest_shown >= mmHg(50)`,
		fill:    func(e *textEnvironment, r *record) { e.LowestShown = r.lowestShown() }},
	{Signature: "highest_shown -> pressure",
		Says:    "The highest pressure on the screen from the first drug on. Not known when no drug came.",
		Example: `highest_shown <= mmHg(90)`,
		fill:    func(e *textEnvironment, r *record) { e.HighestShown = r.highestShown() }},
})

var sumFacts = grouped("sums", []Fact{
	{Signature: "right(sum) -> yes or no",
		Says:    "Whether the answer was within the policy's tolerance or half a step of the pump, whichever is larger. Any unit of the same kind will do. A sum takes one answer; what cannot be read as an amount of that kind, as without its unit, is given back and is none.",
		Example: `right("rate")`,
		args:    []set{sums},
		fill:    func(e *textEnvironment, r *record) { e.Right = r.right }},
	{Signature: "answered(sum) -> yes or no",
		Says:    "Whether the sum was answered at all, rightly or not.",
		Example: `answered("rate")`,
		args:    []set{sums},
		fill:    func(e *textEnvironment, r *record) { e.Answered = r.answered }},
	{Signature: "error_of(sum) -> share",
		Says:    "How far the answer was from the key, as a share of the key. Not known when there was none.",
		Example: `error_of("rate") <= percent(5)`,
		args:    []set{sums},
		fill:    func(e *textEnvironment, r *record) { e.ErrorOf = r.errorOf }},
	{Signature: "answer_to(sum) -> words",
		Says:    "The answer as it was typed.",
		Example: `{answer_to("rate")}`,
		args:    []set{sums},
		fill:    func(e *textEnvironment, r *record) { e.AnswerTo = r.answerTo }},
	{Signature: "key_of(sum) -> words",
		Says:    "The answer that would have been right, computed from the run itself.",
		Example: `{key_of("rate")}`,
		args:    []set{sums},
		fill:    func(e *textEnvironment, r *record) { e.KeyOf = r.keyOf }},
})

var callFacts = grouped("calls", []Fact{
	{Signature: "central_wanted -> moment",
		Says:    "The first moment at which the policy wants central access asked for at once: a dose, a number of vasopressors or of failed tries. Never when that did not come or the policy does not say.",
		Example: `asked("central-access") - central_wanted <= minutes(15)`,
		fill:    func(e *textEnvironment, r *record) { e.CentralWanted = r.centralWanted() }},
	{Signature: "asked(request) -> moment",
		Says:    "The first time the learner asked anyone for this.",
		Example: `asked("central-access") - start <= policy.decide_by`,
		args:    []set{requests},
		fill:    func(e *textEnvironment, r *record) { e.Asked = r.asked }},
	{Signature: "granted(request) -> moment",
		Says:    "The first time this was granted.",
		Example: `granted("central-access") - start <= policy.decide_by`,
		args:    []set{requests},
		fill:    func(e *textEnvironment, r *record) { e.Granted = r.granted }},
	{Signature: "told(person, fact) -> yes or no",
		Says:    `Whether a call to such a person gave this fact; "anyone" is every person.`,
		Example: `told("doctor", "pressure") and told("anyone", "plan")`,
		args:    []set{people, given},
		fill:    func(e *textEnvironment, r *record) { e.Told = r.told }},
	{Signature: "granted_since(request, moment) -> moment",
		Says:    "The first time this was granted at or after the moment; never when the moment is never.",
		Example: `granted_since("review", recognised).known`,
		args:    []set{requests},
		fill:    func(e *textEnvironment, r *record) { e.GrantedSince = r.grantedSince }},
	{Signature: "told_since(person, fact, moment) -> yes or no",
		Says:    "As told, of calls at or after the moment; no when the moment is never.",
		Example: `told_since("doctor", "site", recognised)`,
		args:    []set{people, given},
		fill:    func(e *textEnvironment, r *record) { e.ToldSince = r.toldSince }},
	{Signature: "handover_gave(fact) -> yes or no",
		Says:    "Whether the handover gave this fact.",
		Example: `handover_gave("plan")`,
		args:    []set{given},
		fill:    func(e *textEnvironment, r *record) { e.HandoverGave = r.handoverGave }},
	{Signature: "decided(plan) -> moment",
		Says:    "The first time the learner said that this was the plan.",
		Example: `decided("ask for central access") - start <= policy.decide_by`,
		args:    []set{plans},
		fill:    func(e *textEnvironment, r *record) { e.Decided = r.decided }},
	{Signature: "answered_call(call) -> yes or no",
		Says:    "Whether the learner answered this call.",
		Example: `answered_call("bed-4")`,
		args:    []set{calls},
		fill:    func(e *textEnvironment, r *record) { e.AnsweredCall = r.answeredCall }},
	{Signature: "declined_call(call) -> yes or no",
		Says:    "Whether the learner declined this call.",
		Example: `declined_call("bed-4")`,
		args:    []set{calls},
		fill:    func(e *textEnvironment, r *record) { e.DeclinedCall = r.declinedCall }},
	{Signature: "lapsed_call(call) -> yes or no",
		Says:    "Whether this call was left until it lapsed.",
		Example: `not lapsed_call("bed-4")`,
		args:    []set{calls},
		fill:    func(e *textEnvironment, r *record) { e.LapsedCall = r.lapsedCall }},
})
