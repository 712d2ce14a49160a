package scenarios

import (
	"strconv"
	"strings"

	"blanch/sim"
	"blanch/sim/quantity"
	"blanch/sim/sentence"
	"blanch/sim/vein"
)

// format is the number that every file begins with.
var format = form[int]{
	value: Value{Kind: "count", Says: "1", Least: 1, Most: 2, Choices: []string{"1"}},
	read: func(r *reader, at string, n *node, v *int) bool {
		text, ok := r.word(at, n, "1")
		if ok && text != "1" {
			return r.unfit(at, n, "unknown-format", "format: 1, which is all that this program reads")
		}
		*v = 1
		return ok
	},
}

// placeFile is a place as a file gives it.
type placeFile struct {
	format    int
	note      string
	pumps     []pumpFile
	vials     []vialFile
	premixed  []premixedFile
	libraries []libraryFile
	sim.Place
}

type pumpFile struct {
	sim.Pump
	library string
}

// stocked is an amount of a drug in mg or in units.
type stocked struct {
	amount float64
	units  bool
}

type vialFile struct {
	sim.Vial
	stocked
}

type premixedFile struct {
	sim.Premixed
	stocked
}

type libraryFile struct {
	name   string
	limits []sim.DrugLimit
}

// amount is an amount of drug in stock.
var amount = func() form[stocked] {
	const says = "an amount such as 4 mg, or 20 units of vasopressin"
	mg, units := measure("mg", says, 0.001, 10000), measure("units", says, 0.1, 10000)
	return form[stocked]{value: mg.value, read: func(r *reader, at string, n *node, v *stocked) bool {
		if q, err := quantity.Parse(n.text); n.kind == scalar && err == nil && q.Unit.Same(quantity.MustUnit("units")) {
			v.units = true
			return units.read(r, at, n, &v.amount)
		}
		return mg.read(r, at, n, &v.amount)
	}}
}()

func doseRange(name, says, low, high string) form[sim.DoseRange] {
	return group(shape[sim.DoseRange]{name: name, rows: []row[sim.DoseRange]{
		may("least", dose, func(d *sim.DoseRange) *quantity.Quantity { return &d.Least }, says+" under this dose.", low),
		may("most", dose, func(d *sim.DoseRange) *quantity.Quantity { return &d.Most }, says+" over this dose.", high),
	}})
}

var limitShape = shape[sim.DrugLimit]{name: "drug", rows: []row[sim.DrugLimit]{
	may("soft", doseRange("soft", "It warns", "0.01 mcg/kg/min", "0.3 mcg/kg/min"), func(l *sim.DrugLimit) *sim.DoseRange { return &l.Soft },
		"The pump warns outside these doses and takes the rate all the same.", "{most: 0.3 mcg/kg/min}"),
	may("hard", doseRange("hard", "It refuses", "0.005 mcg/kg/min", "1 mcg/kg/min"), func(l *sim.DrugLimit) *sim.DoseRange { return &l.Hard },
		"The pump refuses a rate outside these doses.", "{most: 1 mcg/kg/min}"),
}}

var libraries = func() form[[]libraryFile] {
	drugs := named(limitShape, identify(func(l *sim.DrugLimit) *string { return &l.Drug }))
	return entries(form[libraryFile]{value: drugs.value, read: func(r *reader, at string, n *node, v *libraryFile) bool {
		return drugs.read(r, at, n, &v.limits)
	}}, "library", identify(func(l *libraryFile) *string { return &l.name }))
}()

func identify[T any](id func(*T) *string) func(t *T, name string, at Pos) {
	return func(t *T, name string, at Pos) { *id(t) = name }
}

var cannula = form[vein.Cannula]{
	value: Value{Kind: "cannula", Says: "a gauge and a length such as 20 gauge 47.8 mm", Pattern: `^[-+]?[0-9]+ gauge .+$`},
	read: func(r *reader, at string, n *node, v *vein.Cannula) bool {
		const says = "a gauge and a length such as 20 gauge 47.8 mm"
		text, ok := r.word(at, n, says)
		if !ok {
			return false
		}
		number, length, found := strings.Cut(text, " gauge ")
		gauge, err := strconv.Atoi(number)
		if !found || err != nil || gauge < 14 || gauge > 26 {
			return r.unfit(at, n, "wrong-value", says+", from 14 to 26 gauge")
		}
		q, err := quantity.Parse(length)
		if err != nil || !q.Unit.Same(quantity.MustUnit("mm")) {
			return r.unfit(at, n, "wrong-value", says)
		}
		mm := q.Float("mm")
		if mm < 10 || mm > 120 {
			return r.unfit(at, n, "out-of-range", says+", from 10 mm to 120 mm")
		}
		*v = vein.Cannula{Gauge: gauge, LengthMM: mm}
		return true
	},
}

var pumpShape = shape[pumpFile]{name: "pump", rows: []row[pumpFile]{
	need("step", measure("mL/h", "a rate such as 0.1 mL/h", 0.01, 10), func(p *pumpFile) *float64 { return &p.StepMLH },
		"The smallest step in which the rate can be set.", "0.1 mL/h"),
	need("most", measure("mL/h", "a rate such as 999 mL/h", 1, 10000), func(p *pumpFile) *float64 { return &p.MostMLH },
		"The highest rate it can be set to.", "999 mL/h"),
	need("warns before empty", span("a time such as 10 min"), func(p *pumpFile) *sim.Time { return &p.EmptyWarn },
		"How long before the bag is empty it warns.", "10 min"),
	may("library", name("a library of this place"), func(p *pumpFile) *string { return &p.library },
		"The drug library that it runs with; left out, it takes any dose.", "general"),
}}

var vialShape = shape[vialFile]{name: "vial", rows: []row[vialFile]{
	need("drug", name("a drug such as norepinephrine"), func(v *vialFile) *string { return &v.Drug },
		"The generic name of the drug.", "norepinephrine"),
	need("amount", amount, func(v *vialFile) *stocked { return &v.stocked },
		"Drug in one vial; norepinephrine as base, vasopressin in units.", "4 mg"),
	need("volume", measure("mL", "a volume such as 4 mL", 0.1, 1000), func(v *vialFile) *float64 { return &v.ML },
		"Volume of one vial.", "4 mL"),
	need("number", whole(0, 1000), func(v *vialFile) *int { return &v.Number },
		"How many are in stock.", "4"),
	may("out of date", truth, func(v *vialFile) *bool { return &v.Past },
		"Whether they have passed their date; then nothing can be drawn from them, and looking through the kit finds an antidote that has.", "true"),
}}

var premixedShape = shape[premixedFile]{name: "premixed bag", rows: []row[premixedFile]{
	need("drug", name("a drug such as norepinephrine"), func(v *premixedFile) *string { return &v.Drug },
		"The generic name of the drug.", "norepinephrine"),
	need("amount", amount, func(v *premixedFile) *stocked { return &v.stocked },
		"Drug in one bag; norepinephrine as base, vasopressin in units.", "4 mg"),
	need("volume", measure("mL", "a volume such as 250 mL", 10, 5000), func(v *premixedFile) *float64 { return &v.ML },
		"What the bag holds, as on its label.", "250 mL"),
	need("number", whole(0, 1000), func(v *premixedFile) *int { return &v.Number },
		"How many are in stock.", "2"),
}}

var kitShape = shape[sim.Place]{name: "kit", rows: []row[sim.Place]{
	need("at", line, func(p *sim.Place) *string { return &p.KitAt },
		"Where the extravasation kit is kept.", "the nurses' station"),
	need("walk", span("a time such as 2 min"), func(p *sim.Place) *sim.Time { return &p.KitWalk },
		"There and back.", "2 min"),
	need("ready", truth, func(p *sim.Place) *bool { return &p.KitReady },
		"Whether it is complete and in date.", "true"),
	may("lacks", line, func(p *sim.Place) *string { return &p.KitLacks },
		"What looking through a kit that is not ready shows; left out, that the antidote is missing.", "the fine needles are missing"),
}}

var personShape = shape[sim.Person]{name: "person", rows: []row[sim.Person]{
	need("role", oneOf("what the person is trained to do", sim.Nurse, sim.Doctor, sim.Operator, sim.Surgeon, sim.Colleague, sim.Pharmacist), func(p *sim.Person) *sim.Role { return &p.Role },
		"What the person is trained and allowed to do; an operator places central lines, a pharmacist makes up bags.", "nurse"),
	need("arrives", span("a time such as 2 min"), func(p *sim.Person) *sim.Time { return &p.Arrives },
		"From being asked to standing at the bed.", "2 min"),
	may("grants", listOf(oneOf("a request", sentence.Requests...)), func(p *sim.Person) *[]string { return &p.Grants },
		"Requests that this person can grant.", "[central-access, antidote]"),
	may("needs", listOf(oneOf("a fact", sentence.Facts...)), func(p *sim.Person) *[]string { return &p.Needs },
		"Facts that a call must give before anything is granted.", "[who, reason, pressure, drug]"),
}}

var centralShape = shape[sim.Central]{name: "central access", rows: []row[sim.Central]{
	need("dead volume", measure("mL", "a volume such as 0.5 mL", 0, 20), func(c *sim.Central) *float64 { return &c.DeadML },
		"Volume of the lumen that the infusion will use.", "0.5 mL"),
	need("lead", span("a time such as 35 min"), func(c *sim.Central) *sim.Time { return &c.Lead },
		"From being granted to the first touch of skin.", "35 min"),
	need("takes", span("a time such as 25 min"), func(c *sim.Central) *sim.Time { return &c.Takes },
		"From skin to a lumen that can be used.", "25 min"),
	need("delay chance", share("a share such as 25 %"), func(c *sim.Central) *float64 { return &c.DelayChance },
		"How often something comes between.", "25 %"),
	need("delay", span("a time such as 20 min"), func(c *sim.Central) *sim.Time { return &c.Delay },
		"How much longer it then takes.", "20 min"),
}}

var placeShape = shape[placeFile]{name: "place", rows: []row[placeFile]{
	need("format", format, func(p *placeFile) *int { return &p.format }, "The version of this file format.", "1"),
	need("place", name("the name of the place"), func(p *placeFile) *string { return &p.ID }, "What cases call this place.", "tern-ward"),
	need("name", line, func(p *placeFile) *string { return &p.Name }, "What learners read.", "Tern Ward, Alder Court Hospital"),
	may("note", prose, func(p *placeFile) *string { return &p.note }, "For authors: where the figures come from.", "An invented ward."),
	need("pumps", named(pumpShape, identify(func(p *pumpFile) *string { return &p.ID })), func(p *placeFile) *[]pumpFile { return &p.pumps },
		"The pumps, each under its name.", "{pump-1: {step: 0.1 mL/h, most: 999 mL/h, warns before empty: 10 min}}"),
	may("libraries", libraries, func(p *placeFile) *[]libraryFile { return &p.libraries },
		"Drug libraries, each under a name, with the limits for each drug. Doses are reckoned with the concentration on the bag's label and the patient's weight.", "{general: {norepinephrine: {soft: {most: 0.3 mcg/kg/min}, hard: {most: 1 mcg/kg/min}}}}"),
	need("tubing", measure("mL", "a volume such as 15 mL", 0, 100), func(p *placeFile) *float64 { return &p.TubingML },
		"Dead volume of an infusion set from bag to connector.", "15 mL"),
	need("extension", measure("mL", "a volume such as 0.9 mL", 0, 20), func(p *placeFile) *float64 { return &p.ExtensML },
		"Dead volume of the extension on a peripheral cannula.", "0.9 mL"),
	need("cannulae", listOf(cannula), func(p *placeFile) *[]vein.Cannula { return &p.Cannulae },
		"The cannulae in stock.", "[20 gauge 29.5 mm, 20 gauge 47.8 mm]"),
	need("bags", listOf(measure("mL", "a volume such as 250 mL", 10, 5000)), func(p *placeFile) *[]float64 { return &p.BagsML },
		"The bags of diluent in stock, by their labelled volume.", "[250 mL]"),
	need("vials", listOf(group(vialShape)), func(p *placeFile) *[]vialFile { return &p.vials },
		"The drugs in stock.", "[{drug: norepinephrine, amount: 4 mg, volume: 4 mL, number: 4}]"),
	may("premixed", listOf(group(premixedShape)), func(p *placeFile) *[]premixedFile { return &p.premixed },
		"Bags in stock that come with the drug in them.", "[{drug: norepinephrine, amount: 4 mg, volume: 250 mL, number: 2}]"),
	may("pharmacist mixes", truth, func(p *placeFile) *bool { return &p.Pharmacy },
		"Whether a pharmacist alone makes up bags; when left out or false, nurses and the learner do too.", "false"),
	need("kit", group(kitShape), func(p *placeFile) *sim.Place { return &p.Place },
		"The extravasation kit.", "{at: the nurses' station, walk: 2 min, ready: true}"),
	need("ultrasound", truth, func(p *placeFile) *bool { return &p.Ultrasound }, "Whether there is an ultrasound machine.", "true"),
	may("nitrate ointment", truth, func(p *placeFile) *bool { return &p.Nitrate }, "Whether there is nitroglycerin ointment; none when left out.", "true"),
	need("cuff every", spanWithin("a time such as 5 min", 30*sim.Second, 2*sim.Hour), func(p *placeFile) *sim.Time { return &p.Cuff },
		"How often the pressure cuff cycles.", "5 min"),
	need("alarm under", measure("mmHg", "a pressure such as 60 mmHg", 1, 200), func(p *placeFile) *float64 { return &p.AlarmMmHg },
		"The monitor alarms when it shows a mean pressure under this.", "60 mmHg"),
	may("alarm over", measure("mmHg", "a pressure such as 105 mmHg", 70, 200), func(p *placeFile) *float64 { return &p.AlarmOver },
		"The monitor alarms over this mean pressure; never when left out.", "105 mmHg"),
	need("people", named(personShape, identify(func(p *sim.Person) *string { return &p.ID })), func(p *placeFile) *[]sim.Person { return &p.People },
		"Who can be reached, each under a name.", "{second-nurse: {role: nurse, arrives: 2 min}}"),
	need("central access", group(centralShape), func(p *placeFile) *sim.Central { return &p.Central },
		"How central access comes about.", "{dead volume: 0.5 mL, lead: 35 min, takes: 25 min, delay chance: 25 %, delay: 20 min}"),
}}
