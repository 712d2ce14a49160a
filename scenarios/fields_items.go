package scenarios

import "strings"

// itemsFile is a file of items as a file gives it.
type itemsFile struct {
	format int
	Items
}

// headRows are the fields that every kind of item has.
func headRows[T any](head func(*T) *ItemHead) []row[T] {
	return []row[T]{
		need("objective", line, func(t *T) *string { return &head(t).Objective }, "What a right answer shows, with a verb that can be seen done.", "Choose a vein that holds most of the cannula"),
		need("level", oneOf("how hard it is", ItemLevels...), func(t *T) *string { return &head(t).Level }, "How hard it is.", "first"),
		need("critical", truth, func(t *T) *bool { return &head(t).Critical }, "Whether a wrong answer stands for harm that no points elsewhere make up for.", "true"),
		need("sources", listOf(line), func(t *T) *[]string { return &head(t).Sources }, "What was published, by name and year; common practice where it is that.", "[\"Pandurangadu 2018, Emerg Med J 35:550\"]"),
		may("views", listOf(group(viewShape)), func(t *T) *[]View { return &head(t).Views },
			"Where sources disagree: what each side holds. Learners see all of them, whatever the key is.", "[{holds: \"10 mL to 15 mL\", by: US norepinephrine label}, {holds: 10 mL, by: US phentolamine label}]"),
	}
}

var viewShape = shape[View]{name: "view", rows: []row[View]{
	need("holds", line, func(v *View) *string { return &v.Holds }, "What this side holds.", "The antecubital vein is preferred."),
	need("by", line, func(v *View) *string { return &v.By }, "Who holds it.", "US norepinephrine label"),
}}

var optionShape = shape[Option]{name: "option", rows: []row[Option]{
	need("option", line, func(o *Option) *string { return &o.Says }, "What is offered.", "The cephalic vein of the forearm"),
	may("key", truth, func(o *Option) *bool { return &o.Key }, "true at the one best option; left out at the others.", "true"),
	may("right when", line, func(o *Option) *string { return &o.When },
		"Where a policy decides: what its limit must be for this option to be the key. "+conditionSays+".", "has fossa"),
	need("because", prose, func(o *Option) *string { return &o.Because }, "Why it is right, or why it is wrong.", "Two thirds of the cannula lie in the vein."),
}}

var option = form[Option]{value: group(optionShape).value, read: func(r *reader, at string, n *node, v *Option) bool {
	v.at = r.src.pos(n.line, n.column)
	return optionShape.read(r, at, n, v)
}}

var singleBestShape = shape[SingleBest]{name: "single best answer", rows: append(headRows(func(s *SingleBest) *ItemHead { return &s.ItemHead }), []row[SingleBest]{
	may("policy decides", oneOf("a limit of a policy", decidingLimits()...), func(s *SingleBest) *string { return &s.Decides },
		"The limit of the policy in force that the key follows. Each option that can be right then says when; the views are needed.", "sites"),
	need("stem", prose, func(s *SingleBest) *string { return &s.Stem }, "The situation, with all that is needed to answer.", "A vein lies 12 mm deep."),
	need("lead-in", line, func(s *SingleBest) *string { return &s.LeadIn }, "The question; one can answer it with the options covered.", "Which cannula puts most of its length into the vein?"),
	need("options", listOf(option), func(s *SingleBest) *[]Option { return &s.Options },
		"Three to five options of one kind, one of them the key.", "[{option: 47.8 mm at 30 degrees, key: true, because: ...}]"),
}...)}

var orderingShape = shape[Ordering]{name: "ordering", rows: append(headRows(func(o *Ordering) *ItemHead { return &o.ItemHead }), []row[Ordering]{
	need("stem", prose, func(o *Ordering) *string { return &o.Stem }, "The situation, with all that is needed to answer.", "You find a cold, pale swelling beside the cannula."),
	need("lead-in", line, func(o *Ordering) *string { return &o.LeadIn }, "The question.", "In what order do you act?"),
	need("steps", orderSteps, func(o *Ordering) *[]OrderStep { return &o.Steps }, "Three to eight steps in a right order, each under a name.", "{stop: Stop the pump., tell: Call the prescriber.}"),
	may("policy decides", oneOf("a limit of a policy", decidingLimits()...), func(o *Ordering) *string { return &o.Decides },
		"The limit of the policy in force that says whether some of the steps belong; the views are needed.", "withdraw first"),
	may("only when", onlyWhen, func(o *Ordering) *[]OrderStep { return &o.only },
		"Where a policy decides: for each step that does not always belong, what the limit must be. Otherwise the step is not shown. "+strings.TrimSuffix(conditionSays, "; otherwise")+".", "{draw-out: is true}"),
	may("may swap", listOf(listOf(name("a step"))), func(o *Ordering) *[][]string { return &o.May },
		"Pairs of steps that may also stand the other way round. Every other pair must be kept.", "[[mark, tell]]"),
	need("because", prose, func(o *Ordering) *string { return &o.Because }, "Why the steps stand in this order, and why a pair may swap.", "What still runs does harm, so it is stopped first."),
}...)}

var concordanceShape = shape[Concordance]{name: "script concordance", rows: append(headRows(func(c *Concordance) *ItemHead { return &c.ItemHead }), []row[Concordance]{
	need("vignette", prose, func(c *Concordance) *string { return &c.Vignette }, "A short situation that leaves room for judgement.", "Norepinephrine runs at 8 mcg/min through a forearm line."),
	need("hypothesis", line, func(c *Concordance) *string { return &c.Hypothesis }, "What one may be thinking of.", "The line leaks."),
	need("information", line, func(c *Concordance) *string { return &c.Information }, "What one then learns.", "The pressure alarm of the pump is silent."),
	need("panel", prose, func(c *Concordance) *string { return &c.Panel }, "Who voted, how many were asked, when, and how.", "Twelve intensive care nurses of two units, asked on paper, each alone."),
	need("votes", listOf(whole(0, 1000)), func(c *Concordance) *[]int { return &c.Votes },
		"How many of the panel chose each of the five points: "+strings.Join(ConcordanceScale, ", ")+".", "[0, 1, 4, 8, 2]"),
	need("because", prose, func(c *Concordance) *string { return &c.Because }, "What the panel said for its votes.", "Most leaks are silent."),
}...)}

// orderSteps reads steps by name.
var orderSteps = func() form[[]OrderStep] {
	step := form[OrderStep]{value: line.value, read: func(r *reader, at string, n *node, v *OrderStep) bool { return line.read(r, at, n, &v.Says) }}
	return entries(step, "step", func(s *OrderStep, id string, _ Pos) { s.ID = id })
}()

// onlyWhen reads conditions by the names of steps.
var onlyWhen = func() form[[]OrderStep] {
	step := form[OrderStep]{value: line.value, read: func(r *reader, at string, n *node, v *OrderStep) bool { return line.read(r, at, n, &v.When) }}
	return entries(step, "step", func(s *OrderStep, id string, _ Pos) { s.ID = id })
}()

var itemsShape = shape[itemsFile]{name: "file of items", rows: []row[itemsFile]{
	need("format", format, func(f *itemsFile) *int { return &f.format }, "The version of this file format.", "1"),
	need("items", name("a name for the file"), func(f *itemsFile) *string { return &f.ID }, "What this file of items is called.", "choosing-the-line"),
	need("unit", oneOf("a part of the job", Units...), func(f *itemsFile) *string { return &f.Unit },
		"The part of the job they belong to: the line, the mix, sums, the watch, the response to a leak, the bridge to central access.", "line"),
	need("title", line, func(f *itemsFile) *string { return &f.Title }, "What learners read.", "Choosing and proving the line"),
	may("note", prose, func(f *itemsFile) *string { return &f.Note }, "For authors.", "Draft; nobody has answered these yet."),
	may("single best answer", named(singleBestShape, func(s *SingleBest, id string, at Pos) { s.ID, s.at = id, at }), func(f *itemsFile) *[]SingleBest { return &f.Singles },
		"Items with one best answer among three to five, each under its name.", "{deep-vein: {stem: ..., lead-in: ..., options: ...}}"),
	may("ordering", named(orderingShape, func(o *Ordering, id string, at Pos) { o.ID, o.at = id, at }), func(f *itemsFile) *[]Ordering { return &f.Orders },
		"Items that ask for steps in order, each under its name.", "{leak-found: {stem: ..., lead-in: ..., steps: ...}}"),
	may("script concordance", named(concordanceShape, func(c *Concordance, id string, at Pos) { c.ID, c.at = id, at }), func(f *itemsFile) *[]Concordance { return &f.Concordances },
		"Items under uncertainty that are scored by a panel's votes, each under its name.", "{quiet-pump: {vignette: ..., hypothesis: ..., votes: ...}}"),
}}
