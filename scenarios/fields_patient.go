package scenarios

import (
	"strings"

	"blanch/sim"
	"blanch/sim/quantity"
)

// knot is one point of the untreated course: "90 min: 55 mmHg".
var knot = form[sim.Point]{
	value: Value{Kind: "point", Says: "a time and a pressure such as 90 min: 55 mmHg"},
	read: func(r *reader, at string, n *node, v *sim.Point) bool {
		if n.kind != mapping || len(n.keys) != 1 {
			return r.unfit(at, n, "not-a-point", "a time and a pressure such as 90 min: 55 mmHg")
		}
		key := *n.keys[0]
		t := span(timeSays).read(r, at, &key, &v.At)
		p := measure("mmHg", pressureSays, 10, 250).read(r, at, n.values[0], &v.MmHg)
		return t && p
	},
}

// severity is "SAPS II 52".
var severity = form[float64]{
	value: Value{Kind: "severity", Says: "a SAPS II score such as SAPS II 52", Pattern: `^SAPS II [0-9]{1,3}$`},
	read: func(r *reader, at string, n *node, v *float64) bool {
		const says = "a score from 0 to 163 such as SAPS II 52"
		text, ok := r.word(at, n, says)
		if !ok {
			return false
		}
		number, found := strings.CutPrefix(text, "SAPS II ")
		score, fits := count(number, 163)
		if !found || !fits {
			return r.unfit(at, n, "wrong-value", says)
		}
		*v = float64(score)
		return true
	},
}

// count is a number written in digits alone.
func count(s string, most int) (int, bool) {
	n := 0
	for _, r := range s {
		if r < '0' || r > '9' || n > most {
			return 0, false
		}
		n = n*10 + int(r-'0')
	}
	return n, s != "" && n <= most
}

var armsShape = shape[map[sim.Side]string]{name: "arms", rows: []row[map[sim.Side]string]{armRow(sim.Left), armRow(sim.Right)}}

func armRow(side sim.Side) row[map[sim.Side]string] {
	return row[map[sim.Side]string]{
		Field: Field{Key: string(side), Value: prose.value, Doc: "What is wrong with this arm, or of note on it.", Example: "A fistula at the wrist."},
		read: func(r *reader, at string, n *node, into *map[sim.Side]string) bool {
			var text string
			ok := prose.read(r, at, n, &text)
			if *into == nil {
				*into = map[sim.Side]string{}
			}
			(*into)[side] = text
			return ok
		},
	}
}

var patientShape = shape[sim.Patient]{name: "patient", rows: []row[sim.Patient]{
	need("name", line, func(p *sim.Patient) *string { return &p.Name }, "An invented name.", "Ilse Varga"),
	need("age", measure("y", "an age such as 68 y", 18, 110), func(p *sim.Patient) *float64 { return &p.AgeY }, "Adults only.", "68 y"),
	need("sex", oneOf("female or male", "female", "male"), func(p *sim.Patient) *string { return &p.Sex }, "female or male.", "female"),
	need("weight", measure("kg", "a body weight such as 64 kg or 141 lb", 30, 300), func(p *sim.Patient) *float64 { return &p.WeightKG },
		"The weight that doses are reckoned by, as measured; a policy may dose by another one that the case gives.", "64 kg"),
	may("ideal weight", measure("kg", "a body weight such as 55 kg", 30, 300), func(p *sim.Patient) *float64 { return &p.IdealKG },
		"The ideal weight, for policies that dose by it. The notes must tell it.", "55 kg"),
	may("stated weight", measure("kg", "a body weight such as 70 kg", 30, 300), func(p *sim.Patient) *float64 { return &p.StatedKG },
		"The weight that the patient or the chart states, for policies that dose by it. The notes must tell it.", "70 kg"),
	need("illness severity", severity, func(p *sim.Patient) *float64 { return &p.SAPS2 },
		"SAPS II score; it drives how fast norepinephrine is cleared.", "SAPS II 52"),
	need("pressure untreated", listOf(knot), func(p *sim.Patient) *[]sim.Point { return &p.Untreated },
		"Mean pressure without a vasopressor, from 0 min to the end of the case, straight between the points.", "[0 min: 52 mmHg, 4 h: 50 mmHg]"),
	may("heart rate", whole(30, 220), func(p *sim.Patient) *int { return &p.HeartRate }, "Untreated, in beats a minute; 100 when left out.", "108"),
	may("pulse pressure", measure("mmHg", "a pressure such as 38 mmHg", 10, 120), func(p *sim.Patient) *float64 { return &p.PulseMmHg }, "Untreated, systolic less diastolic; 40 mmHg when left out.", "38 mmHg"),
	need("can say it hurts", truth, func(p *sim.Patient) *bool { return &p.Tells }, "Whether the patient can report pain.", "true"),
	may("says so after", spanWithin("a time such as 10 min", sim.Second, longest), func(p *sim.Patient) *sim.Time { return &p.SaysAfter },
		"Once told what to report, says so this long after it began to hurt; left out, never unasked.", "10 min"),
	need("skin", oneOf("how dark the skin is", "light", "brown", "dark"), func(p *sim.Patient) *string { return &p.Skin },
		"How dark the skin is; colour is harder to see on darker skin.", "brown"),
	may("difficult access", truth, func(p *sim.Patient) *bool { return &p.Difficult }, "Known to be hard to cannulate.", "false"),
	may("restless", truth, func(p *sim.Patient) *bool { return &p.Restless }, "Moves about and pulls at lines.", "false"),
	need("notes", prose, func(p *sim.Patient) *string { return &p.Story }, "What reading the notes shows, allergies included.", "Three days of diarrhoea. No allergies."),
	may("arms", group(armsShape), func(p *sim.Patient) *map[sim.Side]string { return &p.Arms }, "What is wrong with an arm.", "{left: A fistula at the wrist.}"),
}}

var rangeShape = shape[sim.Order]{name: "range", rows: []row[sim.Order]{
	need("least", dose, func(o *sim.Order) *quantity.Quantity { return &o.Least }, "Lowest dose ordered.", "0.01 mcg/kg/min"),
	need("most", dose, func(o *sim.Order) *quantity.Quantity { return &o.Most }, "Highest dose ordered.", "0.2 mcg/kg/min"),
}}

var keepShape = shape[sim.Order]{name: "keep", rows: []row[sim.Order]{
	need("at or above", measure("mmHg", pressureSays, 30, 150), func(o *sim.Order) *float64 { return &o.TargetMmHg },
		"Keep the mean pressure at or above this.", "65 mmHg"),
	need("at or below", measure("mmHg", "a pressure such as 80 mmHg", 30, 200), func(o *sim.Order) *float64 { return &o.CeilMmHg },
		"And at or below this.", "80 mmHg"),
}}

func itself[T any](t *T) *T { return t }

var orderShape = shape[sim.Order]{name: "order", rows: []row[sim.Order]{
	need("text", prose, func(o *sim.Order) *string { return &o.Text }, "The order as the learner reads it.", "Norepinephrine 0.05 mcg/kg/min, keep the mean pressure at 65 mmHg or above."),
	need("drug", name("a drug such as norepinephrine"), func(o *sim.Order) *string { return &o.Drug }, "Generic name of the drug.", "norepinephrine"),
	need("start", dose, func(o *sim.Order) *quantity.Quantity { return &o.Start }, "Dose to start with, in the unit of the order.", "0.05 mcg/kg/min"),
	need("range", group(rangeShape), itself[sim.Order], "Doses between which the learner may titrate.", "{least: 0.01 mcg/kg/min, most: 0.2 mcg/kg/min}"),
	need("keep", group(keepShape), itself[sim.Order], "Mean pressures to keep between.", "{at or above: 65 mmHg, at or below: 80 mmHg}"),
}}

// alsoShape is an order beside the first, which has the pressure to keep.
var alsoShape = shape[sim.Order]{name: "order", rows: orderShape.rows[:4]}

var mendedShape = shape[sim.Mended]{name: "answer", rows: []row[sim.Mended]{
	need("says", prose, func(m *sim.Mended) *string { return &m.Says }, "What the prescriber answers.", `"I meant mcg/min. Thank you; I have changed it."`),
	need("text", prose, func(m *sim.Mended) *string { return &m.Text }, "The order as it then reads.", "Norepinephrine 4 mcg/min, keep the mean pressure at 65 mmHg or above."),
	need("start", dose, func(m *sim.Mended) *quantity.Quantity { return &m.Start }, "Dose to start with, as it was meant.", "4 mcg/min"),
	need("range", within(group(rangeShape), func(m *sim.Mended) *sim.Order { return &m.Order }), itself[sim.Mended], "Doses between which the learner may titrate, as they were meant.", "{least: 1 mcg/min, most: 12 mcg/min}"),
}}

// mended is the answer of a prescriber, where there is one to give.
var mended = form[*sim.Mended]{
	value: group(mendedShape).value,
	read: func(r *reader, at string, n *node, into **sim.Mended) bool {
		*into = &sim.Mended{}
		return mendedShape.read(r, at, n, *into)
	},
}

var strainShape = shape[sim.Strain]{name: "strain", rows: []row[sim.Strain]{
	need("at", span(timeSays), func(s *sim.Strain) *sim.Time { return &s.At }, "When it begins.", "90 min"),
	need("over", span("a time such as 10 min"), func(s *sim.Strain) *sim.Time { return &s.Over }, "From nothing to the whole of it.", "10 min"),
	need("moves", signedPressure, func(s *sim.Strain) *float64 { return &s.MmHg }, "What it adds to the mean pressure; a fall is negative.", "-14 mmHg"),
	may("treated by", line, func(s *sim.Strain) *string { return &s.By }, "The action that treats it, by its name in the table of actions; nothing does when left out.", "press"),
	may("eases over", span("a time such as 8 min"), func(s *sim.Strain) *sim.Time { return &s.Eases }, "From treated to gone.", "8 min"),
	may("told", prose, func(s *sim.Strain) *string { return &s.Told }, "What is told when it begins; left out, nothing is.", "She turns pale."),
	may("found", prose, func(s *sim.Strain) *string { return &s.Found }, "What looking the patient over shows of it.", "The dressing on the hip is soaked."),
}}

// signedPressure is "-14 mmHg".
var signedPressure = form[float64]{
	value: Value{Kind: "measure", Says: "a change of pressure such as -14 mmHg", Pattern: quantityPattern},
	read: func(r *reader, at string, n *node, v *float64) bool {
		const says = "a change of pressure from -60 mmHg to 60 mmHg such as -14 mmHg"
		text, ok := r.word(at, n, says)
		if !ok {
			return false
		}
		bare, falls := strings.CutPrefix(text, "-")
		q, err := quantity.Parse(bare)
		if err == nil {
			*v, err = q.In(quantity.MustUnit("mmHg"))
		}
		if err != nil || *v < 0 || *v > 60 {
			return r.unfit(at, n, "wrong-value", says)
		}
		if falls {
			*v = -*v
		}
		return true
	},
}
