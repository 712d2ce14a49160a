package review

import (
	"fmt"
	"math"
)

// Grade is how well a question was recalled, in the numbers of FSRS.
type Grade int

const (
	Again Grade = 1 + iota
	Hard
	Good
	Easy
)

// String is one plain word.
func (g Grade) String() string {
	if g < Again || g > Easy {
		return fmt.Sprintf("grade %d", int(g))
	}
	return [...]string{"again", "hard", "good", "easy"}[g-1]
}

// Memory is what FSRS holds of a learner and a question. The zero Memory is a
// question never answered.
type Memory struct {
	Stability  float64 // days until the chance of recall has fallen to 0.9; 0.001 to 36500
	Difficulty float64 // 1 to 10, without unit
}

// Bounds of a memory, those of the published implementations.
const (
	minStability  = 0.001 // days
	maxStability  = 36500 // days
	minDifficulty = 1
	maxDifficulty = 10
)

// Weights are the parameters of FSRS-6, w0 to w20. The first four are in days,
// the others have no unit.
type Weights [21]float64

// Published returns the default weights of FSRS-6 (py-fsrs 3abe686e, go-fsrs
// 81c1d8c1, fsrs-rs 0cbb9d3c and ts-fsrs cdec8d2f, all in
// github.com/open-spaced-repetition, have the same).
func Published() Weights {
	return Weights{
		0.212, 1.2931, 2.3065, 8.2956, 6.4133, 0.8334, 3.0194, 0.001, 1.8722, 0.1666, 0.796,
		1.4835, 0.0614, 0.2629, 1.6483, 0.6014, 1.8729, 0.5425, 0.0912, 0.0658, 0.1542,
	}
}

// What the quiz asks of the model.
const (
	// Wanted is the chance of recall at which a question comes again: the
	// default of the published implementations.
	Wanted = 0.9
	// Longest is the longest time in days between two reviews. It is our own
	// choice: half a year, since local protocols change and months may pass
	// without a leak on a unit. FSRS itself goes to 36500.
	Longest = 180
)

// Model is FSRS-6 with its parameters. With t in days since the last review and
// G the number of the grade:
//
//	recall      R = (1 + F t/S)^-w20, F = 0.9^(-1/w20) - 1
//	interval    I = round(S/F (r^(-1/w20) - 1)), from 1 to the longest, for a wanted recall r
//	first       S = w[G-1], D = d(G) from 1 to 10, d(G) = w4 - e^(w5 (G-1)) + 1
//	difficulty  D' = w7 d(4) + (1-w7) (D - w6 (G-3) (10-D)/9), from 1 to 10
//	recalled    S' = S (1 + e^w8 (11-D) S^-w9 (e^(w10 (1-R)) - 1) h), h = w15 if hard, w16 if easy, else 1
//	forgotten   S' = min(w11 D^-w12 ((S+1)^w13 - 1) e^(w14 (1-R)), S e^(-w17 w18))
//	same day    S' = S max(1, k) unless again, S k if again, k = e^(w17 (G-3+w18)) S^-w19
//
// S' uses the difficulty before the review and stays within 0.001 to 36500
// days. The source is open-spaced-repetition's description of FSRS-6 ("The
// Algorithm") and the four implementations named at [Published]. They differ in
// one place: py-fsrs keeps the same-day factor from falling below 1 for good and
// easy only, the other three for hard too. This follows the three.
//
// Nothing is drawn at random: published schedulers may scatter intervals, and
// this one does not. They may also repeat a new question after minutes; here a
// question graded again is due at once, and every other one in whole days.
type Model struct {
	w       Weights
	f       float64 // F above
	wanted  float64
	longest int
}

// Default is FSRS-6 with its published weights, [Wanted] and [Longest].
func Default() Model {
	m, err := NewModel(Published(), Wanted, Longest)
	if err != nil {
		panic(err) // constants
	}
	return m
}

// NewModel is FSRS-6 with other weights, wanted chance of recall and longest
// interval in days.
func NewModel(w Weights, wanted float64, longest int) (Model, error) {
	for i, v := range w {
		if math.IsNaN(v) || math.IsInf(v, 0) || v < 0 {
			return Model{}, fmt.Errorf("weight w%d is %g, want a number of 0 or more", i, v)
		}
	}
	// The bounds of w20 are those that ts-fsrs and py-fsrs hold it to.
	if w[20] < 0.1 || w[20] > 0.8 {
		return Model{}, fmt.Errorf("weight w20 is %g, want 0.1 to 0.8", w[20])
	}
	if !(wanted > 0 && wanted <= 1) {
		return Model{}, fmt.Errorf("wanted chance of recall is %g, want more than 0 and at most 1", wanted)
	}
	if longest < 1 || longest > maxStability {
		return Model{}, fmt.Errorf("longest interval is %d days, want 1 to %d", longest, maxStability)
	}
	return Model{w, math.Pow(0.9, -1/w[20]) - 1, wanted, longest}, nil
}

// Recall is the chance, from 0 to 1, that a question is recalled so many days
// after its last review. It is 0 for a question never answered. It is what the
// model expects, and was not measured on this learner.
func (m Model) Recall(s Memory, days float64) float64 {
	if s == (Memory{}) {
		return 0
	}
	return math.Pow(1+m.f*max(0, days)/s.Stability, -m.w[20])
}

// Interval is the number of whole days to the next review of a memory of this
// stability in days: at least 1.
func (m Model) Interval(stability float64) int {
	return int(min(max(math.Round(m.days(stability)), 1), float64(m.longest)))
}

// days is the interval before it is rounded and bounded.
func (m Model) days(stability float64) float64 {
	return stability / m.f * (math.Pow(m.wanted, -1/m.w[20]) - 1)
}

// Next is the memory after a review so many whole days after the last; days
// below 0 count as 0.
func (m Model) Next(s Memory, days int, g Grade) Memory {
	g = min(max(g, Again), Easy)
	if s == (Memory{}) {
		return Memory{bound(m.w[g-1], minStability, maxStability), bound(m.firstDifficulty(g), minDifficulty, maxDifficulty)}
	}
	var stability float64
	switch {
	case days <= 0:
		stability = m.sameDay(s, g)
	case g == Again:
		stability = m.forgotten(s, m.Recall(s, float64(days)))
	default:
		stability = m.recalled(s, m.Recall(s, float64(days)), g)
	}
	return Memory{bound(stability, minStability, maxStability), m.difficulty(s.Difficulty, g)}
}

func (m Model) firstDifficulty(g Grade) float64 {
	return m.w[4] - math.Exp(m.w[5]*float64(g-1)) + 1
}

func (m Model) difficulty(d float64, g Grade) float64 {
	moved := d - m.w[6]*float64(g-3)*(10-d)/9
	return bound(m.w[7]*m.firstDifficulty(Easy)+(1-m.w[7])*moved, minDifficulty, maxDifficulty)
}

func (m Model) recalled(s Memory, r float64, g Grade) float64 {
	gain := math.Exp(m.w[8]) * (11 - s.Difficulty) * math.Pow(s.Stability, -m.w[9]) * math.Expm1(m.w[10]*(1-r))
	switch g {
	case Hard:
		gain *= m.w[15]
	case Easy:
		gain *= m.w[16]
	}
	return s.Stability * (1 + gain)
}

func (m Model) forgotten(s Memory, r float64) float64 {
	after := m.w[11] * math.Pow(s.Difficulty, -m.w[12]) * (math.Pow(s.Stability+1, m.w[13]) - 1) * math.Exp(m.w[14]*(1-r))
	return min(after, s.Stability*math.Exp(-m.w[17]*m.w[18]))
}

func (m Model) sameDay(s Memory, g Grade) float64 {
	factor := math.Exp(m.w[17]*(float64(g-3)+m.w[18])) * math.Pow(s.Stability, -m.w[19])
	if g >= Hard {
		factor = max(1, factor)
	}
	return s.Stability * factor
}

func bound(v, least, most float64) float64 { return min(max(v, least), most) }
