package cohort

import "math"

// Estimate is a simulated value with the standard error of its luck, zero for
// a formula. A share lies from 0 to 100 % and nowhere else.
type Estimate struct {
	Value, Error float64
	Share        bool
}

// Within says that the value lies inside with two errors either side.
func (e Estimate) Within(low, high float64) bool {
	from, to := e.Value-2*e.Error, e.Value+2*e.Error
	if e.Share {
		from, to = max(0, from), min(100, to)
	}
	return from >= low-1e-9 && to <= high+1e-9
}

// shareOf is a percentage counted in n patients. Its error is that of two
// further patients of each sort (Agresti and Coull, Am Stat 1998;52:119), so
// that none in n is not taken for never.
func shareOf(count, n int) Estimate {
	if n == 0 {
		return Estimate{math.NaN(), math.NaN(), true}
	}
	near := (float64(count) + 2) / (float64(n) + 4)
	return Estimate{100 * float64(count) / float64(n), 100 * math.Sqrt(near*(1-near)/(float64(n)+4)), true}
}

// ratePer is events in hours of line, per 1000 days.
func ratePer(count int, hours float64) Estimate {
	per := 24000 / hours
	return Estimate{Value: float64(count) * per, Error: math.Sqrt(float64(count)+1) * per}
}

// meanOf is a mean of n values with the given sum and sum of squares.
func meanOf(sum, squares float64, n int) Estimate {
	mean := sum / float64(n)
	return Estimate{Value: mean, Error: math.Sqrt(max(0, squares/float64(n)-mean*mean) / float64(n))}
}

// medianOf is the middle of sorted values; its error is that of the ranks.
func medianOf(sorted []float64) Estimate {
	n := float64(len(sorted))
	step := math.Sqrt(n) / 2
	at := func(r float64) float64 { return sorted[int(max(0, min(n-1, r)))] }
	return Estimate{Value: at(n / 2), Error: (at(n/2+step) - at(n/2-step)) / 2}
}

func formula(v float64) Estimate { return Estimate{Value: v} }
