package cohort

import (
	"fmt"

	"blanch/sim"
	"blanch/sim/vein"
)

// Course is one way in which the same leak can go.
type Course struct {
	Name  string
	Run   infusion
	Found sim.Time // after the leak began; 0 is never
	Does  []string // besides moving the infusion, once found
}

// Came is what became of an arm in a course.
type Came struct {
	Before, Lowest float64   // mean pressure when the leak began, and the least in the 4 h after it
	FirstSign      float64   // min after the leak began until a competent look would have found it
	FoundMM        float64   // width of the swelling when it was found, or 4 h after it began
	Ischaemic      []float64 // minutes so far at each of Marks
}

// Marks are the times after the leak began at which a course is read.
var Marks = []sim.Time{sim.Hour, 2 * sim.Hour, 4 * sim.Hour, 8 * sim.Hour, 24 * sim.Hour}

// unattended is how long a leak that nobody finds runs on.
const unattended = 4 * sim.Hour

var (
	// weakVasopressin gives 0.03 units/min at 9 mL/h.
	weakVasopressin = infusion{"vasopressin", "200 units", 9}

	phentolamine = []string{"draw up 5 mg of phentolamine to 10 mL", "infiltrate around " + arm + " with 10 mL of antidote-1"}
	terbutaline  = []string{"draw up 1 mg of terbutaline to 10 mL", "infiltrate around " + arm + " with 10 mL of antidote-1"}
	nitrate      = []string{"put nitrate ointment on " + arm}
	warmth       = []string{"warm the left arm with a warm pack"}
	drawBack     = []string{"draw back from " + arm}
	raise        = []string{"raise the left arm"}
)

// Courses are the ways of the table of one leak, which TestCourses writes into
// the page beside the published figures.
func Courses() []Course {
	all := func(sets ...[]string) (out []string) {
		for _, s := range sets {
			out = append(out, s...)
		}
		return out
	}
	usually := all(drawBack, phentolamine, raise)
	at := func(min int) sim.Time { return sim.Time(min) * sim.Minute }
	return []Course{
		{"not found, runs on for 4 h", usual, 0, nil},
		{"found at 15 min: moved, drawn back, phentolamine, raised", usual, at(15), usually},
		{"found at 30 min: the same", usual, at(30), usually},
		{"found at 60 min: the same", usual, at(60), usually},
		{"found at 120 min: the same", usual, at(120), usually},
		{"found at 60 min: moved, nothing else", usual, at(60), nil},
		{"and drawn back", usual, at(60), drawBack},
		{"and raised", usual, at(60), raise},
		{"and a warm pack", usual, at(60), warmth},
		{"and nitrate ointment", usual, at(60), nitrate},
		{"and terbutaline 1 mg", usual, at(60), terbutaline},
		{"and phentolamine 5 mg", usual, at(60), phentolamine},
		{"vasopressin, found at 60 min: moved, nothing else", weakVasopressin, at(60), nil},
		{"and phentolamine 5 mg", weakVasopressin, at(60), phentolamine},
		{"and nitrate ointment", weakVasopressin, at(60), nitrate},
		{"and terbutaline 1 mg", weakVasopressin, at(60), terbutaline},
	}
}

// Play plays a course: a forearm drip whose leak begins an hour after the
// infusion did and takes 15 min to lose 90 % of the flow.
func (c Course) Play() (Came, error) {
	const begins = sim.Hour
	v := vein.Vein{Site: vein.Forearm, DiameterMM: 3.2, DepthMM: 4.5, StraightMM: 60}
	fate := sim.Fate{Kind: sim.Placed, Begins: begins, Over: 15 * sim.Minute, Fraction: 0.9}
	b, err := newBed(1, v, cannula(20, 29.5), 25, fate, vein.Ends{}, 27*sim.Hour, c.Run)
	if err != nil {
		return Came{}, err
	}
	leaks := b.began + begins
	b.Advance(leaks)
	out := Came{Before: b.Truth().MeanMmHg, FirstSign: -1}
	out.Lowest = out.Before
	stop := leaks + unattended
	if c.Found > 0 {
		stop = leaks + c.Found
	}
	read := func(to sim.Time) { // minute by minute, looking only
		for b.Now() < to {
			b.Advance(min(to, b.Now()+sim.Minute))
			if b.Now() <= leaks+4*sim.Hour {
				out.Lowest = min(out.Lowest, b.Truth().MeanMmHg)
			}
			for len(out.Ischaemic) < len(Marks) && b.Now() >= leaks+Marks[len(out.Ischaemic)] {
				out.Ischaemic = append(out.Ischaemic, b.Truth().IschaemicS/60)
			}
		}
	}
	read(stop)
	out.FoundMM = b.Truth().WidthMM
	says := []string{"stop pump-1"}
	if c.Found > 0 {
		says = append([]string{"move pump-1 to " + spare + " primed to the tip"}, c.Does...)
	}
	for _, say := range says {
		a, err := sim.ParseAction(say)
		if err != nil {
			return out, err
		}
		if en := b.Do(a)[0]; en.Kind == sim.Refused {
			return out, fmt.Errorf("%s: %s: refused: %s", c.Name, say, en.Why)
		}
		read(b.HandsFree())
	}
	read(leaks + Marks[len(Marks)-1])
	for _, s := range b.Result().Sights {
		if s.Subject == arm && s.Sign == "leak" {
			out.FirstSign = (s.At - leaks).Seconds() / 60
		}
	}
	return out, nil
}
