// Package spread sums many runs up: the figures of a distribution, and how far
// two of them lie apart.
package spread

import (
	"math"
	"slices"
)

// Spread is a distribution in three figures.
type Spread struct {
	Median float64 `json:"median"`
	Low    float64 `json:"p10"`
	High   float64 `json:"p90"`
}

// Of is the distribution of values, in any order.
func Of(values []float64) Spread {
	return Spread{Quantile(values, 0.5), Quantile(values, 0.1), Quantile(values, 0.9)}
}

// Quantile is that of values, in any order, and 0 of none. It lies straight
// between two of them: the seventh way of Hyndman and Fan, Am Stat
// 1996;50:361, which most programs use.
func Quantile(values []float64, q float64) float64 {
	sorted := slices.Sorted(slices.Values(values))
	if len(sorted) == 0 {
		return 0
	}
	at := q * float64(len(sorted)-1)
	i := int(math.Floor(at))
	if i+1 >= len(sorted) {
		return sorted[len(sorted)-1]
	}
	return sorted[i] + float64((at-float64(i))*(sorted[i+1]-sorted[i]))
}

// CliffsDelta is the share of pairs in which a value of a is higher than one
// of b, less the share in which it is lower: 1 when every a is above every b,
// 0 when neither is (Cliff, Psychol Bull 1993;114:494).
func CliffsDelta(a, b []float64) float64 {
	if len(a) == 0 || len(b) == 0 {
		return 0
	}
	sorted := slices.Sorted(slices.Values(b))
	higher, lower := 0, 0
	for _, v := range a {
		below, _ := slices.BinarySearch(sorted, v)
		upTo, _ := slices.BinarySearchFunc(sorted, v, func(x, v float64) int {
			if x <= v {
				return -1
			}
			return 1
		})
		higher += below
		lower += len(sorted) - upTo
	}
	return float64(higher-lower) / float64(len(a)*len(b))
}
