package cohort

import (
	"sort"

	"blanch/sim/vein"
)

// Tally is what becomes of the infusions of a cohort.
type Tally struct {
	Patients, Leaks int
	LineHours       float64
}

// Infusions plays n patients from line to line.
func (p *Preset) Infusions(seed uint64, n int) Tally {
	var all Tally
	for _, t := range spread(n, func(from, to int) (t Tally) {
		for i := from; i < to; i++ {
			end, hours, _, _ := p.Patient(seed, i).Hours()
			t.Patients++
			t.LineHours += hours
			if end == Leak {
				t.Leaks++
			}
		}
		return t
	}) {
		all.Patients += t.Patients
		all.Leaks += t.Leaks
		all.LineHours += t.LineHours
	}
	return all
}

// Fails counts, of the first lines of n patients with a share in the vein from
// least to under, those that end in any way before the infusion does.
func (p *Preset) Fails(seed uint64, n int, least, under float64) (fail, of int) {
	for _, t := range spread(n, func(from, to int) (t [2]int) {
		for i := from; i < to; i++ {
			pt := p.Patient(seed, i)
			at := pt.Line(1)
			if at.Share < least || under > 0 && at.Share >= under {
				continue
			}
			t[1]++
			if _, when := pt.Ended(1, at); when < pt.RunH {
				t[0]++
			}
		}
		return t
	}) {
		fail += t[0]
		of += t[1]
	}
	return fail, of
}

// Sticks is the mean chance that the first stick succeeds over the first lines
// of n patients that are wanted.
func (p *Preset) Sticks(seed uint64, n int, wanted func(Placed) bool) Estimate {
	type part struct {
		n            int
		sum, squares float64
	}
	var all part
	for _, t := range spread(n, func(from, to int) (t part) {
		for i := from; i < to; i++ {
			at := p.Patient(seed, i).Line(1)
			if !wanted(at) {
				continue
			}
			chance := 100 * vein.Success(at.Vein, at.Line.Cannula, at.Line.AngleDeg, at.technique(), p.Name == "difficult-access")
			t.n++
			t.sum += chance
			t.squares += chance * chance
		}
		return t
	}) {
		all.n += t.n
		all.sum += t.sum
		all.squares += t.squares
	}
	e := meanOf(all.sum, all.squares, all.n)
	e.Share = true
	return e
}

// MedianRun is the median length of the infusions of n patients, in hours.
func (p *Preset) MedianRun(seed uint64, n int) Estimate {
	var all []float64
	for _, part := range spread(n, func(from, to int) (out []float64) {
		for i := from; i < to; i++ {
			out = append(out, p.Patient(seed, i).RunH)
		}
		return out
	}) {
		all = append(all, part...)
	}
	sort.Float64s(all)
	return medianOf(all)
}
