package scenarios

import (
	"fmt"
	"math"

	"blanch/sim/vein"
)

// Cohort is one published cohort as a table describes it: whom it took in,
// what was counted, and what was found.
type Cohort struct {
	ID, What, Source string
	Count            CohortCount
	Published        float64 // in the unit of Count, like Least and Most
	Least, Most      float64
	Setting          string       // of vein.Settings
	Lines            []CohortLine // nil: those of the setting
	Run              CohortRun    // zero: as in the setting
	LeastShare       float64      // of the cannula in the vein; 0 no bound
	UnderShare       float64      // 0 no bound

	at Pos
}

// CohortLine is one sort of line in a cohort's mix.
type CohortLine struct {
	Share     float64 // of all lines, 0 to 1
	Kind      string  // of vein.Kinds
	Cannula   vein.Cannula
	AngleDeg  float64
	Scan      bool    // placed under ultrasound
	WidthMM   float64 // mean diameter; 0: that of the kind
	WidthSD   float64 // 0: that of the kind
	LeastMM   float64 // narrower veins are passed over; 0 none
	DeepestMM float64 // deeper veins are passed over; 0 none
}

// CohortRun is how long infusions last: log-normal, given by its median and
// the standard deviation of its logarithm, or by its mean and standard
// deviation.
type CohortRun struct {
	MedianH, Sigma float64
	MeanH, SDH     float64
	MostH          float64 // longer ones end here; 0 none
}

// CohortCount is what is counted in a cohort, with its unit.
type CohortCount string

// What can be counted.
const (
	PatientsWithLeak CohortCount = "% of patients with a leak"
	LeaksPer1000Days CohortCount = "leaks per 1000 line-days"
	LinesThatFail    CohortCount = "% of lines that fail in any way"
	FirstSticks      CohortCount = "% of first sticks that succeed"
)

// CohortCounts lists them.
var CohortCounts = []CohortCount{PatientsWithLeak, LeaksPer1000Days, LinesThatFail, FirstSticks}

// LoadCohorts reads a table of cohorts, as [LoadCase] reads a case.
func LoadCohorts(file string, src []byte) ([]Cohort, []Complaint) {
	r := newReader(cohortsShape.fields())
	var f cohortsFile
	if load(r, "cohorts", file, src, cohortsShape, &f) {
		if at, given := r.where["rows"]; given && len(f.rows) == 0 && !r.broken["rows"] {
			r.complain(Complaint{Code: "unsound-cohort", Pos: at, Said: "there are no cohorts under rows", Allowed: "at least one, under a name of its own"})
		}
		for i := range f.rows {
			r.checkCohort(&f.rows[i])
		}
	}
	out, failed := r.done()
	if failed {
		return nil, out
	}
	return f.rows, out
}

// checkCohort looks at what several fields of a cohort say together.
func (r *reader) checkCohort(c *Cohort) {
	at := join("rows", c.ID)
	fault := func(path, said, allowed string) {
		pos, ok := r.where[path]
		if !ok {
			pos = c.at
		}
		r.complain(Complaint{Code: "unsound-cohort", Pos: pos, Said: said, Allowed: allowed})
	}
	if !r.broken[join(at, "published")] && !r.broken[join(at, "least")] && !r.broken[join(at, "most")] &&
		(c.Published < c.Least || c.Published > c.Most || c.Least >= c.Most) {
		fault(join(at, "published"), fmt.Sprintf("published is %g, and its interval goes from %g to %g", c.Published, c.Least, c.Most), "least below most, and published between them")
	}
	if lines := join(at, "lines"); len(c.Lines) > 0 && !r.broken[lines] {
		sum := 0.0
		for _, l := range c.Lines {
			sum += l.Share
		}
		if math.Abs(sum-1) > 1e-6 {
			fault(lines, fmt.Sprintf("the shares of the lines make %.4g %%", 100*sum), "shares that make 100 %")
		}
	}
	for i, l := range c.Lines {
		path := join(at, fmt.Sprintf("lines/%d", i+1))
		k, known := vein.KindNamed(l.Kind)
		if !known || r.broken[path] {
			continue
		}
		if l.WidthMM == 0 && l.LeastMM >= k.Most || l.DeepestMM > 0 && l.DeepestMM < k.DepthMM-2*k.DepthSD {
			fault(path, fmt.Sprintf("a vein of the kind %s is hardly ever so wide or so shallow", l.Kind), fmt.Sprintf("at least wide under %g mm, at most deep over %g mm", k.Most, k.DepthMM-2*k.DepthSD))
		}
		if shallow := (vein.Vein{DiameterMM: k.DiameterMM, DepthMM: max(1, k.DepthMM-k.DepthSD)}); vein.Lie(shallow, l.Cannula, l.AngleDeg).InVeinMM < 2 {
			fault(path, fmt.Sprintf("the cannula hardly ever reaches a vein of the kind %s at this angle", l.Kind), "a longer cannula or a steeper angle")
		}
	}
	if run := join(at, "run"); !r.broken[run] && c.Run != (CohortRun{}) && (c.Run.MedianH > 0) == (c.Run.MeanH > 0) {
		fault(run, "the length of infusions is given by neither or both of median and mean", "median and sigma, or mean and varies by")
	}
	if c.UnderShare > 0 && c.UnderShare <= c.LeastShare {
		fault(join(at, "under in vein"), "no share lies in this range", "under in vein above at least in vein")
	}
}
