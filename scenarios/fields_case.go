package scenarios

import (
	"fmt"
	"strings"

	"blanch/sim"
	"blanch/sim/quantity"
	"blanch/sim/vein"
)

// caseFile is a case as a file gives it. Names that are looked up elsewhere
// are checked afterwards, in check_case.go.
type caseFile struct {
	format  int
	minutes sim.Time
	Case
}

// drugAmount is how much of a drug, in its own unit.
var drugAmount = form[quantity.Quantity]{
	value: Value{Kind: "amount", Says: "an amount such as 4 mg or 20 units", Pattern: quantityPattern},
	read: func(r *reader, at string, n *node, v *quantity.Quantity) bool {
		const says = "an amount such as 4 mg or 20 units"
		q, ok := r.quantity(at, n, says)
		switch {
		case !ok:
			return false
		case !q.Unit.Same(quantity.MustUnit("mg")) && !q.Unit.Same(quantity.MustUnit("units")):
			return r.unfit(at, n, "wrong-unit", says)
		}
		unit := "mg"
		if q.Unit.Same(quantity.MustUnit("units")) {
			unit = "units"
		}
		if x := q.Float(unit); x < 0.001 || x > 10000 {
			return r.unfit(at, n, "out-of-range", fmt.Sprintf("%s, from 0.001 %s to 10,000 %s", says, unit, unit))
		}
		*v = q
		return true
	},
}

const (
	pressureSays = "a pressure such as 65 mmHg"
	timeSays     = "a time such as 90 min"
)

// hazard is "0.0032 per hour".
var hazard = form[float64]{
	value: Value{Kind: "hazard", Says: "a rate such as 0.0032 per hour", Pattern: `^[0-9.+]+\s* per hour$`},
	read: func(r *reader, at string, n *node, v *float64) bool {
		const says = "a rate such as 0.0032 per hour, at most 1 per hour"
		text, ok := r.word(at, n, says)
		if !ok {
			return false
		}
		number, found := strings.CutSuffix(text, " per hour")
		q, err := quantity.Parse(number + " h")
		if !found || err != nil || q.Value < 0 || q.Value > 1 {
			return r.unfit(at, n, "wrong-value", says)
		}
		*v = q.Value
		return true
	},
}

// afterStart is "75 min after start".
var afterStart = form[sim.Time]{
	value: Value{Kind: "time", Says: "a time after a vasopressor first ran, such as 75 min after start", Pattern: `^.+ after start$`},
	read: func(r *reader, at string, n *node, v *sim.Time) bool {
		const says = "a time after a vasopressor first ran, such as 75 min after start"
		text, ok := r.word(at, n, says)
		if !ok {
			return false
		}
		bare, found := strings.CutSuffix(text, " after start")
		if !found {
			return r.unfit(at, n, "wrong-value", says)
		}
		inner := *n
		inner.text = bare
		return span(says).read(r, at, &inner, v)
	},
}

// sums are the questions the engine answers, as an author names them.
var sums = []struct {
	word string
	sum  sim.Sum
	unit string // the answer is wanted in, unless the case says otherwise
}{
	{"concentration", sim.SumConcentration, "mcg/mL"},
	{"rate of order", sim.SumRate, "mL/h"},
	{"time until empty", sim.SumRunOut, "h"},
	{"antidote for half", sim.SumAntidote, "mL"},
	{"time to first drug", sim.SumFirstDrug, "min"},
	{"dose running", sim.SumDose, "mcg/min"},
}

var sum = func() form[sim.Sum] {
	var words []string
	var values []sim.Sum
	for _, s := range sums {
		words, values = append(words, s.word), append(values, s.sum)
	}
	return choice("a sum that the engine can do", words, values)
}()

func kindNames() []string {
	var names []string
	for _, k := range vein.Kinds() {
		names = append(names, k.Name)
	}
	return names
}

var veinShape = shape[sim.VeinOffer]{name: "vein", rows: []row[sim.VeinOffer]{
	need("side", oneOf("left or right", sim.Left, sim.Right), func(v *sim.VeinOffer) *sim.Side { return &v.Side }, "Which arm.", "left"),
	may("drawn as", choice("a vein as it varies between adults", kindNames(), kindNames()), func(v *sim.VeinOffer) *string { return &v.Kind },
		"In place of site, diameter, depth and straight: the seed draws a vein of this kind.", "forearm-cephalic"),
	may("site", oneOf("where on the arm it lies", vein.Sites()...), func(v *sim.VeinOffer) *vein.Site { return &v.Site }, "Where on the arm it lies.", "forearm"),
	may("diameter", measure("mm", "a length such as 2.9 mm", 0.5, 15), func(v *sim.VeinOffer) *float64 { return &v.DiameterMM }, "Inner diameter.", "2.9 mm"),
	may("depth", measure("mm", "a length such as 6 mm", 0.5, 40), func(v *sim.VeinOffer) *float64 { return &v.DepthMM }, "From the skin to the near wall.", "6 mm"),
	may("straight", measure("mm", "a length such as 60 mm", 5, 300), func(v *sim.VeinOffer) *float64 { return &v.StraightMM }, "Straight length that can be used.", "60 mm"),
	may("earlier punctures", whole(0, 20), func(v *sim.VeinOffer) *int { return &v.Punctures }, "How often it was punctured before; each is a hole.", "1"),
	need("looks like", prose, func(v *sim.VeinOffer) *string { return &v.Look }, "What examining it by eye and hand shows.", "Easily seen, springy, straight."),
	may("as found", group(asFoundShape), func(v *sim.VeinOffer) *map[string]string { return &v.AsFound },
		"What looks at this place show although nothing leaks; a sign of a leak is shown over it.", "{colour: blue and yellow, pain: it has been sore since yesterday}"),
}}

// asFoundShape has a field for each look that can find something of the
// patient's own.
var asFoundShape = func() shape[map[string]string] {
	s := shape[map[string]string]{name: "as found"}
	for _, what := range sim.OwnFindings() {
		s.rows = append(s.rows, row[map[string]string]{
			Field: Field{Key: what, Value: line.value, Doc: "In place of what this look shows where nothing is wrong.", Example: "blue and yellow, an old bruise"},
			read: func(r *reader, at string, n *node, into *map[string]string) bool {
				var text string
				if !line.read(r, at, n, &text) {
					return false
				}
				if *into == nil {
					*into = map[string]string{}
				}
				(*into)[what] = text
				return true
			},
		})
	}
	return s
}()

var runningShape = shape[sim.Running]{name: "running infusion", rows: []row[sim.Running]{
	need("pump", name("a pump of the place"), func(u *sim.Running) *string { return &u.Pump }, "The pump it runs on.", "pump-1"),
	need("drug", name("a drug such as norepinephrine"), func(u *sim.Running) *string { return &u.Drug }, "The drug, which must be in stock.", "norepinephrine"),
	need("amount", drugAmount, func(u *sim.Running) *quantity.Quantity { return &u.Amount }, "Drug in the bag when it was mixed.", "4 mg"),
	need("bag", measure("mL", "a volume such as 250 mL", 10, 5000), func(u *sim.Running) *float64 { return &u.BagML }, "Labelled volume of the bag, to which the drug was added.", "250 mL"),
	need("left", measure("mL", "a volume such as 180 mL", 1, 5000), func(u *sim.Running) *float64 { return &u.LeftML }, "What is left in it.", "180 mL"),
	need("vein", name("a vein of the case"), func(u *sim.Running) *string { return &u.Line }, "The vein of the line in place that it runs through.", "left-cephalic-forearm"),
	need("rate", measure("mL/h", "a rate such as 12 mL/h", 0.1, 1000), func(u *sim.Running) *float64 { return &u.MLH }, "The rate it is set to.", "12 mL/h"),
}}

var inPlaceShape = shape[sim.InPlace]{name: "line in place", rows: []row[sim.InPlace]{
	need("vein", name("a vein of the case"), func(l *sim.InPlace) *string { return &l.Vein }, "The vein it lies in.", "right-dorsal-hand"),
	need("cannula", cannula, func(l *sim.InPlace) *vein.Cannula { return &l.Cannula }, "Its gauge and length.", "22 gauge 25.4 mm"),
	need("angle", measure("degrees", "an angle such as 20 degrees", 5, 80), func(l *sim.InPlace) *float64 { return &l.AngleDeg }, "The angle to the skin at which it was placed.", "20 degrees"),
}}

var absenceShape = shape[sim.Absence]{name: "absence", rows: []row[sim.Absence]{
	need("until", span("a time such as 30 min"), func(a *sim.Absence) *sim.Time { return &a.Until }, "Cannot be reached before this time of the case.", "30 min"),
	need("heard", prose, func(a *sim.Absence) *string { return &a.Heard }, "What is heard until then.", "In the emergency room; back at half past."),
}}

var leakShape = shape[sim.Fate]{name: "leak", rows: []row[sim.Fate]{
	need("fate", choice("how leaks come about", []string{"by hazard", "placed", "never"}, []sim.FateKind{sim.ByHazard, sim.Placed, sim.NoLeak}), func(f *sim.Fate) *sim.FateKind { return &f.Kind },
		"by hazard: luck and the quality of the line decide; placed: at a stated time, whichever line carries the drug then; never: no line leaks.", "placed"),
	may("base", hazard, func(f *sim.Fate) *float64 { return &f.PerHour }, "By hazard: the base rate of a leak, at 65 % of the cannula in the vein.", "0.0059 per hour"),
	may("setting", choice("a setting", vein.SettingNames(), vein.SettingNames()), func(f *sim.Fate) *string { return &f.Setting },
		"By hazard, in place of base: the rates of a published kind of unit, those of other ends too where the case gives none.", "routine"),
	may("begins", afterStart, func(f *sim.Fate) *sim.Time { return &f.Begins }, "Placed: this long after a vasopressor first ran, or the drug given below.", "75 min after start"),
	may("over", span("a time such as 20 min"), func(f *sim.Fate) *sim.Time { return &f.Over }, "Placed: how long it takes from nothing to the share lost.", "20 min"),
	may("share lost", share("a share such as 60 %"), func(f *sim.Fate) *float64 { return &f.Fraction }, "Placed: the share of the flow that ends in tissue.", "60 %"),
	may("vein", name("a vein of this case"), func(f *sim.Fate) *string { return &f.Vein },
		"Placed: only a line in this vein leaks, and only while it carries the drug; and as soon as it runs there again; left out, whichever line carries it then.", "right-dorsal-hand"),
	may("drug", name("a drug ordered in this case"), func(f *sim.Fate) *string { return &f.Drug },
		"Placed: only a line that carries this drug leaks, and its time counts from when the drug first ran; left out, whichever line carries a vasopressor.", "vasopressin"),
}}

var wearShape = shape[vein.Ends]{name: "other ends", rows: []row[vein.Ends]{
	may("occlusion", hazard, func(e *vein.Ends) *float64 { return &e.Occlusion }, "Blocked by a clot or a kink.", "0.002 per hour"),
	may("phlebitis", hazard, func(e *vein.Ends) *float64 { return &e.Phlebitis }, "The vein becomes inflamed.", "0.001 per hour"),
	may("slipping out", hazard, func(e *vein.Ends) *float64 { return &e.Dislodging }, "The cannula comes out by itself.", "0.001 per hour"),
}}

var callShape = shape[sim.CallOn]{name: "call", rows: []row[sim.CallOn]{
	need("at", span(timeSays), func(c *sim.CallOn) *sim.Time { return &c.At }, "When it comes.", "50 min"),
	need("text", prose, func(c *sim.CallOn) *string { return &c.Text }, "What is heard.", `"Bed 4 rings: the drip alarm."`),
	need("patience", span("a time such as 5 min"), func(c *sim.CallOn) *sim.Time { return &c.Patience }, "How long it waits.", "5 min"),
	need("takes", span("a time such as 3 min"), func(c *sim.CallOn) *sim.Time { return &c.Takes }, "How long answering it holds the hands.", "3 min"),
	need("answered", prose, func(c *sim.CallOn) *string { return &c.Answered }, "What is told when it is answered.", "The bag is changed."),
	need("lapsed", prose, func(c *sim.CallOn) *string { return &c.Lapsed }, "The cost of not answering.", "The line in bed 4 has clotted."),
	need("declined", prose, func(c *sim.CallOn) *string { return &c.Declined }, "What is told when it is declined or passed on.", "A colleague goes."),
}}

var happeningShape = shape[sim.Happening]{name: "happening", rows: []row[sim.Happening]{
	need("at", span(timeSays), func(h *sim.Happening) *sim.Time { return &h.At }, "When it happens.", "40 min"),
	need("text", prose, func(h *sim.Happening) *string { return &h.Text }, "What is told.", "The patient turns and the blanket covers both arms."),
	need("does", choice("what it does", []string{"only told", "covers the site"}, []sim.Effect{sim.Tells, sim.Covers}), func(h *sim.Happening) *sim.Effect { return &h.Does },
		"Whether it is only told, or hides the site until it is uncovered.", "covers the site"),
	may("vein", name("a vein of this case"), func(h *sim.Happening) *string { return &h.Line }, "Whose site it touches; every site when left out.", "left-cephalic-forearm"),
}}

var askShape = shape[sim.Question]{name: "question", rows: []row[sim.Question]{
	need("text", prose, func(q *sim.Question) *string { return &q.Text }, "The question as the learner reads it.", "What rate gives the ordered dose?"),
	need("when", line, func(q *sim.Question) *string { return &q.When }, "The action that raises it once it is first done, by its name in the table of actions.", "set"),
	need("what", sum, func(q *sim.Question) *sim.Sum { return &q.What }, "What is asked; the engine works out the answer, and shows no dose or run-out time that would give it away until it is answered.", "rate of order"),
	may("drug", name("a drug ordered in this case"), func(q *sim.Question) *string { return &q.Drug }, "Asked only about this drug; left out, about the one mixed last.", "vasopressin"),
	may("unit", line, func(q *sim.Question) *string { return &q.Point }, "The unit the answer is wanted in.", "mL/h"),
}}

var ruleShape = shape[Rule]{name: "rule", rows: []row[Rule]{
	need("serves", name("an objective of this case"), func(u *Rule) *string { return &u.Serves }, "The objective it serves.", "site"),
	need("points", points, func(u *Rule) *float64 { return &u.Points }, "What it is worth; 0 for a rule that is only critical.", "5"),
	may("critical", truth, func(u *Rule) *bool { return &u.Critical }, "When not met, the attempt does not pass, whatever the points.", "true"),
	may("applies when", expression, func(u *Rule) *Text { return &u.Applies }, "When not true, the rule leaves the count.", `visible("leak").known`),
	need("when", expression, func(u *Rule) *Text { return &u.When }, "What must be true for the rule to be met.", "line.share_in_vein >= policy.least_share"),
	need("met", message, func(u *Rule) *Text { return &u.Met }, "What is said when it is met.", "Two thirds or more of the cannula lay in the vein."),
	need("not met", message, func(u *Rule) *Text { return &u.NotMet }, "What is said when it is not met.", `"Only {line.share_in_vein} of the cannula lay in the vein."`),
}}

var passShape = shape[Case]{name: "pass mark", rows: []row[Case]{
	need("points", share("a share such as 80 %"), func(c *Case) *float64 { return &c.PassPoints }, "The share of the points that apply.", "80 %"),
	need("set by", prose, func(c *Case) *string { return &c.PassSetBy }, "How the pass mark was set, and by whom.", "Two educators, item by item."),
}}

var walkShape = shape[Walk]{name: "walk-through", rows: []row[Walk]{
	need("shows", prose, func(w *Walk) *string { return &w.Text }, "What it shows.", "An expert who asks early for central access."),
	may("policy", name("a policy"), func(w *Walk) *string { return &w.Policy }, "The policy it is marked under; that of the case when left out.", "alder-court"),
	may("seed", seed, func(w *Walk) *uint64 { return &w.Seed }, "The seed of its luck; 1 when left out.", "7"),
	need("passes", truth, func(w *Walk) *bool { return &w.Passes }, "Whether the attempt must pass.", "true"),
	may("loses", listOf(name("a rule of this case")), func(w *Walk) *[]string { return &w.Loses }, "The rules it must not meet; it must meet every other that applies.", "[found-in-time]"),
	may("steps", steps, func(w *Walk) *[]Step { return &w.Steps }, "Timed actions, one a line.", "[at 0 min: read the order]"),
	may("like", name("a walk-through above this one"), func(w *Walk) *string { return &w.Like }, "In place of steps: those of another walk-through, with changes.", "expert"),
	may("but", listOf(group(changeShape)), func(w *Walk) *[]Change { return &w.But }, "How it differs.", "[{instead of: draw back from left-hand, do: [then: pull left-hand]}]"),
}}

// of lifts a field of the case to the file around it.
func of[V any](to func(*Case) *V) func(*caseFile) *V {
	return func(f *caseFile) *V { return to(&f.Case) }
}

func addObjective(o *Objective, id string, at Pos) { o.ID, o.Pos = id, at }

var objective = form[Objective]{
	value: Value{Kind: "text", Says: "what the learner will do, beginning with a verb"},
	read:  func(r *reader, at string, n *node, v *Objective) bool { return prose.read(r, at, n, &v.Text) },
}

var caseShape = shape[caseFile]{name: "case", rows: []row[caseFile]{
	need("format", format, func(f *caseFile) *int { return &f.format }, "The version of this file format.", "1"),
	need("case", name("the name of the case"), func(f *caseFile) *string { return &f.ID }, "The name of the case, as of its file.", "rowan-bridge"),
	need("title", line, of(func(c *Case) *string { return &c.Title }), "What learners read in the list.", "A bridge until morning"),
	need("track", oneOf("who it is for", "nurse", "resident"), of(func(c *Case) *string { return &c.Track }), "Who it is for.", "nurse"),
	need("level", oneOf("how hard it is", "first", "middle", "advanced"), of(func(c *Case) *string { return &c.Level }), "How hard it is.", "first"),
	need("takes about", spanWithin("a time such as 20 min", sim.Minute, 24*sim.Hour), func(f *caseFile) *sim.Time { return &f.minutes }, "How long it takes a learner at the keyboard.", "20 min"),
	need("status", oneOf("how far it has come", "draft", "piloted"), of(func(c *Case) *string { return &c.Status }), "draft until learners have piloted it; learners see it.", "draft"),
	need("version", line, of(func(c *Case) *string { return &c.Version }), "Of the case, for records.", "3"),
	may("reviewed by", line, of(func(c *Case) *string { return &c.ReviewedBy }), "Who has read it, by role.", "A critical care pharmacist"),
	may("reviewed on", date, of(func(c *Case) *string { return &c.ReviewedOn }), "The day of the last review.", "2026-03-01"),
	need("place", name("a place"), of(func(c *Case) *string { return &c.Place }), "The place it is played in.", "tern-ward"),
	need("policy", name("a policy"), of(func(c *Case) *string { return &c.Policy }), "The policy it is marked under unless told otherwise.", "alder-court"),
	need("summary", prose, of(func(c *Case) *string { return &c.Summary }), "One sentence for the list of cases.", "Start a vasopressor by the arm and keep watch on it."),
	need("briefing", prose, of(func(c *Case) *string { return &c.Briefing }), "What is read before the clock starts.", "You take over a patient at 21:00."),
	need("not simulated", prose, of(func(c *Case) *string { return &c.NotShown }), "What the case leaves out.", "What blanching looks like on real skin."),
	may("objectives", entries(objective, "objective", addObjective), of(func(c *Case) *[]Objective { return &c.Objectives }),
		"What it teaches, each with a name that rules refer to, besides what the fragments it uses teach.", "{site: Choose a vein and cannula that keep two thirds of the cannula in the vein}"),
	need("patient", group(patientShape), of(func(c *Case) *sim.Patient { return &c.Patient }), "The body in the bed.", "{name: Ilse Varga, age: 68 y, ...}"),
	need("order", group(orderShape), of(func(c *Case) *sim.Order { return &c.Order }), "What has been prescribed.", "{drug: norepinephrine, start: 0.05 mcg/kg/min, ...}"),
	may("if queried", mended, of(func(c *Case) **sim.Mended { return &c.Mended }),
		"For an order that was not meant as it is written: what the prescriber answers when asked, and what the order then is.", "{says: I meant mcg/min., text: Norepinephrine 4 mcg/min, ...}"),
	may("also ordered", listOf(group(alsoShape)), of(func(c *Case) *[]sim.Order { return &c.Also }),
		"Other vasopressors ordered beside it.", "[{text: Vasopressin 0.03 units/min, drug: vasopressin, start: 0.03 units/min, range: {least: 0.01 units/min, most: 0.04 units/min}}]"),
	may("running when it opens", listOf(group(runningShape)), of(func(c *Case) *[]sim.Running { return &c.Running }),
		"Infusions that others started, so long ago that blood and pressure have settled; all times count from the opening.", "[{pump: pump-1, drug: norepinephrine, amount: 4 mg, bag: 250 mL, left: 180 mL, vein: left-cephalic-forearm, rate: 12 mL/h}]"),
	need("veins", named(veinShape, func(v *sim.VeinOffer, id string, _ Pos) { v.ID = id }), of(func(c *Case) *[]sim.VeinOffer { return &c.Veins }),
		"The veins on offer, each under its name.", "{left-cephalic-forearm: {side: left, site: forearm, diameter: 2.9 mm, ...}}"),
	may("lines in place", listOf(group(inPlaceShape)), of(func(c *Case) *[]sim.InPlace { return &c.InPlace }),
		"Cannulae that lie there when the case opens.", "[{vein: right-dorsal-hand, cannula: 22 gauge 25.4 mm, angle: 20 degrees}]"),
	need("cuff on", oneOf("left or right", sim.Left, sim.Right), of(func(c *Case) *sim.Side { return &c.CuffArm }), "The arm that the pressure cuff is on when the case opens.", "right"),
	need("leak", group(leakShape), of(func(c *Case) *sim.Fate { return &c.Leak }), "What becomes of the lines.", "{fate: placed, begins: 75 min after start, over: 20 min, share lost: 60 %}"),
	may("other ends", group(wearShape), of(func(c *Case) *vein.Ends { return &c.Wear }), "Base rates of the other ways in which lines end; none when left out.", "{occlusion: 0.002 per hour, phlebitis: 0.001 per hour, slipping out: 0.001 per hour}"),
	may("calls", named(callShape, func(v *sim.CallOn, id string, _ Pos) { v.ID = id }), of(func(c *Case) *[]sim.CallOn { return &c.Calls }),
		"What else wants the learner, in the order of time.", "{bed-4: {at: 50 min, ...}}"),
	may("happenings", listOf(group(happeningShape)), of(func(c *Case) *[]sim.Happening { return &c.Planned }),
		"What happens whatever the learner does, in the order of time.", "[{at: 40 min, text: The blanket slips over the arm., does: covers the site}]"),
	may("ask", named(askShape, func(v *sim.Question, id string, _ Pos) { v.ID = id }), of(func(c *Case) *[]sim.Question { return &c.Ask }),
		"Sums that the learner is asked for on the way; the engine works out the answers.", "{rate: {text: \"What rate gives the ordered dose?\", when: set, what: rate of order}}"),
	may("uses", listOf(name("a fragment such as leak-response")), of(func(c *Case) *[]string { return &c.Uses }),
		"Fragments that bring objectives, sums and rules which this case shares with others.", "[leak-response]"),
	may("leaves out", listOf(name("a rule or sum of a fragment")), of(func(c *Case) *[]string { return &c.LeavesOut }),
		"Rules and sums of those fragments that do not fit this case.", "[edge-marked]"),
	need("rules", named(ruleShape, func(u *Rule, id string, at Pos) { u.ID, u.Pos = id, at }), of(func(c *Case) *[]Rule { return &c.Rules }),
		"How the attempt is judged, each rule under its name, besides those of the fragments it uses. One of the same name as theirs stands in its place.", "{two-thirds: {serves: site, points: 5, when: ..., met: ..., not met: ...}}"),
	need("pass mark", group(passShape), of(itself[Case]), "What it takes to pass, besides every critical rule.", "{points: 80 %, set by: Two educators.}"),
	need("reflect", listOf(prose), of(func(c *Case) *[]string { return &c.Reflect }), "Questions asked before the marks are shown.", `["What did you notice first?"]`),
	need("teaching", prose, of(func(c *Case) *string { return &c.Teaching }), "The teaching note of the debrief.", "Feel as well as look."),
	need("sources", listOf(line), of(func(c *Case) *[]string { return &c.Sources }), "Where what is taught comes from.", "[Pandurangadu 2018]"),
	need("walk-throughs", named(walkShape, func(w *Walk, id string, at Pos) { w.ID, w.Pos = id, at }), of(func(c *Case) *[]Walk { return &c.Walks }),
		"Runs that prove the case: what is done when, and what it must earn.", "{expert: {shows: ..., passes: true, steps: [...]}}"),
	may("strains", named(strainShape, func(s *sim.Strain, id string, _ Pos) { s.ID = id }), of(func(c *Case) *[]sim.Strain { return &c.Strains }),
		"What else moves the pressure, in the order of time, and what treats it.", "{bleeding: {at: 90 min, ...}}"),
	may("away", named(absenceShape, func(a *sim.Absence, id string, _ Pos) { a.Person = id }), of(func(c *Case) *[]sim.Absence { return &c.Away }),
		"People of the place who cannot be reached at first.", "{doctor: {until: 30 min, heard: In the emergency room; back at half past.}}"),
	may("hand over from", span("a time such as 3 h"), of(func(c *Case) *sim.Time { return &c.Relief }), "Nobody takes the patient over before this; left out, at any time.", "3 h"),
	need("ends at", spanWithin("a time such as 4 h", sim.Minute, longest), of(func(c *Case) *sim.Time { return &c.Ends }), "When the shift ends.", "4 h"),
}}
