package drill

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"blanch/sim/luck"
	"blanch/sim/quantity"
	"blanch/sim/sum"
)

// draft is a question before its numbers are held to the rules.
type draft struct {
	given map[string]quantity.Quantity
	unit  string  // of the answer; empty for a count
	step  float64 // 0: that of the kind
	stem  []string
	shown Picture
	never bool // numbers that do not go together
}

// Draw makes the question of a seed.
func (d Drill) Draw(seed uint64) Question {
	n := d.size()
	turn := seed % d.apart
	in := (n - turn + d.apart - 1) / d.apart // indices of this turn
	start := luck.Bits(seed, "numbers", d.Name, 0) % in
	for i := range in {
		if q, ok := d.at(seed, scatter(turn+(start+i)%in*d.apart, n)); ok {
			return q
		}
	}
	// A test tries every turn, so this is a fault of the table.
	panic(fmt.Sprintf("drill %s: no numbers for seed %d", d.Name, seed))
}

// size is how many sets of numbers the drill could have.
func (d Drill) size() uint64 {
	h := &hand{name: d.Name, size: 1}
	d.make(h)
	return h.size
}

// scatter is a permutation of 0 to n-1 without a pattern: a Feistel network of
// four rounds over the next power of four, walked until it lands within n. A
// multiplication would give the first pick of a turn to that turn alone.
func scatter(i, n uint64) uint64 {
	half := 1
	for uint64(1)<<(2*half) < n {
		half++
	}
	mask := uint64(1)<<half - 1
	for {
		left, right := i>>half, i&mask
		for round := range 4 {
			left, right = right, left^luck.Bits(right, "scatter", "", round)&mask
		}
		if i = left<<half | right; i < n {
			return i
		}
	}
}

// at is the question with the numbers of an index, unless they break a rule.
func (d Drill) at(seed, index uint64) (Question, bool) {
	f := d.make(&hand{name: d.Name, seed: seed, index: index, size: 1})
	if f.never {
		return Question{}, false
	}
	s, err := d.solve(f)
	if err != nil {
		return Question{}, false
	}
	q := Question{Drill: d, Seed: seed, Stem: f.stem, Shown: f.shown, Sum: s, Device: d.device}
	if q.Device == "" {
		q.Device = s.Kind.Device
	}
	if key := s.Key().Value; key < d.least || key > d.most || tied(key, s.Step) {
		return q, false
	}
	for _, o := range s.Overlaps() {
		if !d.declared(o) {
			return q, false
		}
		q.Either = append(q.Either, o)
	}
	for _, o := range meets(s) {
		if !d.declared(o) {
			return q, false
		}
		if !slices.ContainsFunc(q.Either, func(p sum.Overlap) bool { return slices.EqualFunc(o.Slips, p.Slips, alike) }) {
			q.Either = append(q.Either, o)
		}
	}
	return q, true
}

func (d Drill) solve(f draft) (*sum.Sum, error) {
	unit := quantity.Unit{}
	if f.unit != "" {
		unit = quantity.MustUnit(f.unit)
	}
	s, err := d.Kind().New(f.given, unit)
	if err != nil || f.step == 0 {
		return s, err
	}
	return s.To(f.step)
}

// tied says that a key lies on the half between two settings, or so near that
// the order of a calculation could tip it.
func tied(key, step float64) bool {
	n := key / step
	return math.Abs(n-math.Floor(n)-0.5) < 1e-6
}

// meets is what the marking would tell together, each set once: a slip, and
// the others that are found in the answer of whoever makes it. Overlaps looks
// from one side only, and a coarser number may fit where a finer one does not.
func meets(s *sum.Sum) []sum.Overlap {
	var out []sum.Overlap
	for _, slip := range s.Slips() {
		m := s.Mark(s.Shown(slip).String())
		if len(m.Diagnosis.Slips) < 2 {
			continue
		}
		o := sum.Overlap{Slips: m.Diagnosis.Slips}
		if !slices.ContainsFunc(out, func(p sum.Overlap) bool { return slices.EqualFunc(o.Slips, p.Slips, alike) }) {
			out = append(out, o)
		}
	}
	return out
}

func alike(a, b sum.Slip) bool { return a.Name == b.Name }

// declared says that a coincidence may stand: ways of rounding among
// themselves, with the key (which sets the device alike, and is no mistake) or
// with each other; and, where a drill says so, two digits swapped in what is
// given and in the answer.
func (d Drill) declared(o sum.Overlap) bool {
	if !slices.ContainsFunc(o.Slips, func(s sum.Slip) bool { return s.Family != sum.Rounding }) {
		return true
	}
	return d.swaps && !o.Key && len(o.Slips) == 2 &&
		strings.Contains(o.Slips[0].Name, " misread as ") && strings.HasPrefix(o.Slips[1].Name, "digits of the answer swapped")
}
