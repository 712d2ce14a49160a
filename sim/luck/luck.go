// Package luck gives keyed draws: chance without a stream.
//
// Every draw is a pure function of (seed, purpose, subject, index), so that
// what a learner does cannot reshuffle what chance would have done. The
// leak luck of the second cannula is the same whether or not the pressure
// was read in between:
//
//	e := luck.Exponential(seed, "leak", "cannula", 2)
//	noise := luck.Normal(seed, "cuff", "right", minute)
//
// The same key always gives the same bits; keys that differ in anything
// give draws with no relation to each other. A file of draws in testdata
// holds the whole construction for ever.
//
// # Construction
//
// The purpose, a byte 0xFF, the subject, a byte 0xFF and the index as eight
// bytes, lowest first, are hashed by 64-bit FNV-1a (Fowler, Noll and Vo). 0xFF
// never occurs in UTF-8, so no two keys run together. The seed passes through
// one step of SplitMix64 (Steele, Lea and Flood, OOPSLA 2014), the hash is
// added, and SplitMix64 finishes twice.
package luck

import "blanch/sim/portable"

const (
	fnvStart = 0xcbf29ce484222325
	fnvPrime = 0x100000001b3
	golden   = 0x9e3779b97f4a7c15
	apart    = 0xff
)

// Bits is the draw itself: 64 evenly spread bits.
func Bits(seed uint64, purpose, subject string, index int) uint64 {
	h := uint64(fnvStart)
	h = hash(h, purpose)
	h = hash(h, subject)
	for i := 0; i < 64; i += 8 {
		h = (h ^ uint64(index)>>i&0xff) * fnvPrime
	}
	return splitMix(splitMix(splitMix(seed) + h))
}

// hash takes s and a separator into an FNV-1a hash.
func hash(h uint64, s string) uint64 {
	for i := 0; i < len(s); i++ {
		h = (h ^ uint64(s[i])) * fnvPrime
	}
	return (h ^ apart) * fnvPrime
}

// splitMix is the output of SplitMix64 from state z.
func splitMix(z uint64) uint64 {
	z += golden
	z = (z ^ z>>30) * 0xbf58476d1ce4e5b9
	z = (z ^ z>>27) * 0x94d049bb133111eb
	return z ^ z>>31
}

// Uniform is spread evenly over the open interval from 0 to 1: the middles
// of 2^52 equal parts, so neither end is ever drawn.
func Uniform(seed uint64, purpose, subject string, index int) float64 {
	return (float64(Bits(seed, purpose, subject, index)>>12) + 0.5) / (1 << 52)
}

// Between is spread evenly from lo to hi.
func Between(seed uint64, purpose, subject string, index int, lo, hi float64) float64 {
	return lo + float64((hi-lo)*Uniform(seed, purpose, subject, index))
}

// Happens is true with the given chance, 0 to 1.
func Happens(seed uint64, purpose, subject string, index int, chance float64) bool {
	return Uniform(seed, purpose, subject, index) < chance
}

// Exponential has the exponential distribution with mean 1.
func Exponential(seed uint64, purpose, subject string, index int) float64 {
	return -portable.Log(Uniform(seed, purpose, subject, index))
}

// Normal has the normal distribution with mean 0 and standard deviation 1.
func Normal(seed uint64, purpose, subject string, index int) float64 {
	return normalAt(Uniform(seed, purpose, subject, index))
}
