package scenarios

import (
	"fmt"
	"math"
	"strconv"
	"strings"

	"blanch/sim/vein"
)

// cohortsFile is a table of cohorts as a file gives it.
type cohortsFile struct {
	format int
	id     string
	note   string
	rows   []Cohort
}

// figure is a plain number: its unit is that of what is counted.
func figure(least, most float64) form[float64] {
	says := fmt.Sprintf("a number from %s to %s without a unit, which is that of count", strconv.FormatFloat(least, 'g', -1, 64), strconv.FormatFloat(most, 'g', -1, 64))
	return form[float64]{value: Value{Kind: "points", Says: says, Least: least, Most: most}, read: func(r *reader, at string, n *node, v *float64) bool {
		text, ok := r.word(at, n, says)
		if !ok {
			return false
		}
		x, err := strconv.ParseFloat(text, 64)
		if err != nil || math.IsNaN(x) || x < least || x > most || strings.ContainsAny(text, "_xXpPeE") {
			return r.unfit(at, n, "wrong-value", says)
		}
		*v = x
		return true
	}}
}

var cohortLineShape = shape[CohortLine]{name: "line", rows: []row[CohortLine]{
	need("share", share("a share such as 40 %"), func(l *CohortLine) *float64 { return &l.Share },
		"How many of the cohort's lines are of this sort; the shares of one cohort make 100 %.", "40 %"),
	need("vein", oneOf("a kind of vein", kindNames()...), func(l *CohortLine) *string { return &l.Kind },
		"The kind of vein; its width and depth vary between patients.", "forearm-cephalic"),
	need("cannula", cannula, func(l *CohortLine) *vein.Cannula { return &l.Cannula },
		"Gauge and length.", "20 gauge 29.5 mm"),
	need("angle", measure("degrees", "an angle such as 30 degrees", 5, 90), func(l *CohortLine) *float64 { return &l.AngleDeg },
		"Angle to the skin.", "30 degrees"),
	may("under ultrasound", truth, func(l *CohortLine) *bool { return &l.Scan },
		"How the vein is found; by feel when left out.", "true"),
	may("width", measure("mm", "a diameter such as 4.7 mm", 0.3, 20), func(l *CohortLine) *float64 { return &l.WidthMM },
		"Mean diameter of the veins of this cohort, where it was measured.", "4.7 mm"),
	may("width varies by", measure("mm", "a standard deviation such as 1.4 mm", 0, 10), func(l *CohortLine) *float64 { return &l.WidthSD },
		"Standard deviation of the diameter; that of the kind when left out.", "1.4 mm"),
	may("at least wide", measure("mm", "a diameter such as 4 mm", 0.3, 20), func(l *CohortLine) *float64 { return &l.LeastMM },
		"Narrower veins of this kind are passed over.", "4 mm"),
	may("at most deep", measure("mm", "a depth such as 16 mm", 1, 40), func(l *CohortLine) *float64 { return &l.DeepestMM },
		"Deeper veins of this kind are passed over.", "16 mm"),
}}

var cohortRunShape = shape[CohortRun]{name: "run", rows: []row[CohortRun]{
	may("median", measure("h", "a time such as 5.8 h", 0.01, 2000), func(d *CohortRun) *float64 { return &d.MedianH },
		"Median length of an infusion; lengths are log-normal.", "5.8 h"),
	may("sigma", figure(0, 4), func(d *CohortRun) *float64 { return &d.Sigma },
		"Standard deviation of the logarithm of the length, beside a median.", "1.71"),
	may("mean", measure("h", "a time such as 49 h", 0.01, 2000), func(d *CohortRun) *float64 { return &d.MeanH },
		"Mean length, where a study gives mean and standard deviation instead.", "49 h"),
	may("varies by", measure("h", "a standard deviation such as 22 h", 0, 2000), func(d *CohortRun) *float64 { return &d.SDH },
		"Standard deviation of the length, beside a mean.", "22 h"),
	may("at most", measure("h", "a time such as 120 h", 0.01, 2000), func(d *CohortRun) *float64 { return &d.MostH },
		"Longer infusions end here.", "120 h"),
}}

var cohortShape = shape[Cohort]{name: "cohort", rows: []row[Cohort]{
	need("what", line, func(c *Cohort) *string { return &c.What }, "What the study reports.", "patients with an extravasation"),
	need("source", line, func(c *Cohort) *string { return &c.Source }, "Where it was published.", "Tian 2020, Emerg Med Australas 32:220"),
	need("count", oneOf("what is counted", CohortCounts...), func(c *Cohort) *CohortCount { return &c.Count },
		"What is counted, and its unit.", `"% of patients with a leak"`),
	need("published", figure(0, 100000), func(c *Cohort) *float64 { return &c.Published }, "The published figure.", "3.4"),
	need("least", figure(0, 100000), func(c *Cohort) *float64 { return &c.Least }, "The lower end of its interval.", "2.5"),
	need("most", figure(0, 100000), func(c *Cohort) *float64 { return &c.Most }, "The upper end.", "4.7"),
	need("setting", oneOf("a setting", vein.SettingNames()...), func(c *Cohort) *string { return &c.Setting },
		"The preset whose base hazards hold, and whose lines and lengths where none are given here.", "routine"),
	may("lines", listOf(group(cohortLineShape)), func(c *Cohort) *[]CohortLine { return &c.Lines },
		"The mix of lines; that of the setting when left out.", "[{share: 100 %, vein: forearm-cephalic, cannula: 20 gauge 29.5 mm, angle: 25 degrees}]"),
	may("run", group(cohortRunShape), func(c *Cohort) *CohortRun { return &c.Run },
		"How long infusions last; as in the setting when left out.", "{median: 5.8 h, sigma: 1.71, at most: 120 h}"),
	may("at least in vein", share("a share such as 30 %"), func(c *Cohort) *float64 { return &c.LeastShare },
		"Only lines with at least this share of the cannula in the vein are counted.", "30 %"),
	may("under in vein", share("a share such as 65 %"), func(c *Cohort) *float64 { return &c.UnderShare },
		"Only lines with less than this share of the cannula in the vein are counted.", "65 %"),
}}

var cohortsShape = shape[cohortsFile]{name: "table of cohorts", rows: []row[cohortsFile]{
	need("format", format, func(f *cohortsFile) *int { return &f.format }, "The version of this file format.", "1"),
	need("cohorts", name("a name for the table"), func(f *cohortsFile) *string { return &f.id }, "What the table is called.", "two-worked"),
	may("note", prose, func(f *cohortsFile) *string { return &f.note }, "For readers: how the figures were read.", "Read in the abstracts."),
	need("rows", named(cohortShape, func(c *Cohort, id string, at Pos) { c.ID, c.at = id, at }), func(f *cohortsFile) *[]Cohort { return &f.rows },
		"The cohorts, each under a name.", "{tian-routine: {...}}"),
}}
