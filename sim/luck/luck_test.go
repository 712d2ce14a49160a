package luck

import (
	"bufio"
	"fmt"
	"math"
	"os"
	"strconv"
	"strings"
	"testing"
)

// The first outputs of SplitMix64 from state 1234567, as published with the
// generator's reference code.
func TestSplitMixIsThePublishedOne(t *testing.T) {
	want := []uint64{6457827717110365317, 3203168211198807973, 9817491932198370423}
	state := uint64(1234567)
	for i, w := range want {
		if got := splitMix(state); got != w {
			t.Errorf("output %d is %d, want %d", i, got, w)
		}
		state += golden
	}
}

// FNV-1a of "foobar" is 85944171f73967e8 (test vectors of the FNV draft,
// draft-eastlake-fnv, appendix C).
func TestHashIsFNV1a(t *testing.T) {
	h := uint64(fnvStart)
	for _, c := range []byte("foobar") {
		h = (h ^ uint64(c)) * fnvPrime
	}
	want := uint64(0x85944171f73967e8)
	if h != want {
		t.Errorf("the constants give %x for foobar, want %x", h, want)
	}
	if got := hash(fnvStart, "foobar"); got != (want^0xff)*fnvPrime {
		t.Errorf("hash gives %x for foobar and a separator", got)
	}
}

// testdata/draws.txt was written once. A change that fails here changes
// every recorded attempt: mend the change, not the file.
func TestDrawsNeverChange(t *testing.T) {
	file, err := os.Open("testdata/draws.txt")
	if err != nil {
		t.Fatal(err)
	}
	defer file.Close()
	lines := 0
	for in := bufio.NewScanner(file); in.Scan(); {
		if in.Text() == "" || strings.HasPrefix(in.Text(), "#") {
			continue
		}
		lines++
		f := strings.Split(in.Text(), "|")
		if len(f) != 7 {
			t.Fatalf("line %q has %d fields, want 7", in.Text(), len(f))
		}
		seed, _ := strconv.ParseUint(f[0], 10, 64)
		index, _ := strconv.Atoi(f[3])
		got := fmt.Sprintf("%016x|%016x|%016x", Bits(seed, f[1], f[2], index),
			math.Float64bits(Exponential(seed, f[1], f[2], index)),
			math.Float64bits(Normal(seed, f[1], f[2], index)))
		if want := strings.Join(f[4:], "|"); got != want {
			t.Errorf("%s: got %s, want %s", strings.Join(f[:4], "|"), got, want)
		}
	}
	if lines < 40 {
		t.Errorf("only %d draws are held", lines)
	}
}

func TestKeysDoNotRunTogether(t *testing.T) {
	seen := map[uint64]string{}
	for _, purpose := range []string{"", "a", "ab", "leak", "leakc"} {
		for _, subject := range []string{"", "b", "c", "cannula", "annula"} {
			for _, index := range []int{-1, 0, 1, 2, 256, 1 << 30} {
				for _, seed := range []uint64{0, 1, golden, math.MaxUint64} {
					key := fmt.Sprintf("%d %q %q %d", seed, purpose, subject, index)
					b := Bits(seed, purpose, subject, index)
					if other, taken := seen[b]; taken {
						t.Errorf("%s and %s give the same draw", key, other)
					}
					seen[b] = key
				}
			}
		}
	}
}

// The draws here are fixed, so these tests give the same answer always. The
// bounds are four standard errors of each statistic over n independent
// draws, which a fair construction exceeds about once in 16,000 statistics.
const n = 100_000

func moments(draw func(i int) float64) (mean, variance float64) {
	sum, squares := 0.0, 0.0
	for i := range n {
		x := draw(i)
		sum += x
		squares += x * x
	}
	mean = sum / n
	return mean, squares/n - mean*mean
}

func near(t *testing.T, what string, got, want, sd float64) {
	t.Helper()
	if bound := 4 * sd / math.Sqrt(n); math.Abs(got-want) > bound {
		t.Errorf("%s is %.5f, want %.5f within %.5f", what, got, want, bound)
	}
}

func TestDrawsHaveTheirMoments(t *testing.T) {
	for _, vary := range []struct {
		name string
		key  func(i int) (uint64, string, string, int)
	}{
		{"index", func(i int) (uint64, string, string, int) { return 5, "leak", "cannula", i }},
		{"seed", func(i int) (uint64, string, string, int) { return uint64(i), "leak", "cannula", 1 }},
		{"subject", func(i int) (uint64, string, string, int) { return 5, "leak", strconv.Itoa(i), 1 }},
		{"purpose", func(i int) (uint64, string, string, int) { return 5, strconv.Itoa(i), "cannula", 1 }},
	} {
		t.Run(vary.name, func(t *testing.T) {
			// Fourth central moments: uniform 1/80, exponential 9, normal 3.
			m, v := moments(func(i int) float64 { return Uniform(vary.key(i)) })
			near(t, "mean of uniforms", m, 0.5, math.Sqrt(1.0/12))
			near(t, "variance of uniforms", v, 1.0/12, math.Sqrt(1.0/80-1.0/144))
			m, v = moments(func(i int) float64 { return Exponential(vary.key(i)) })
			near(t, "mean of exponentials", m, 1, 1)
			near(t, "variance of exponentials", v, 1, math.Sqrt(9-1))
			m, v = moments(func(i int) float64 { return Normal(vary.key(i)) })
			near(t, "mean of normals", m, 0, 1)
			near(t, "variance of normals", v, 1, math.Sqrt(3-1))
		})
	}
}

// With 100 equal cells the statistic has mean 99 and standard deviation
// sqrt(2 x 99); four of those either way also catches draws too even to be
// chance.
func TestUniformsFillTheirCells(t *testing.T) {
	for _, shift := range []float64{1, 100, 1e4} { // leading, middle and later digits
		cells := [100]float64{}
		for i := range n {
			x := Uniform(9, "cells", "", i) * shift
			cells[int((x-math.Floor(x))*100)]++
		}
		chi := 0.0
		for _, c := range cells {
			chi += (c - n/100) * (c - n/100) / (n / 100)
		}
		if math.Abs(chi-99) > 4*math.Sqrt(2*99) {
			t.Errorf("chi-square at shift %v is %.1f, want 99 within %.1f", shift, chi, 4*math.Sqrt(2*99))
		}
	}
}

// Neighbouring keys must not be related: the correlation of n independent
// pairs has standard deviation 1/sqrt(n).
func TestNeighboursAreUnrelated(t *testing.T) {
	pairs := map[string]func(i int) (a, b float64){
		"next index": func(i int) (a, b float64) { return Uniform(1, "p", "s", i), Uniform(1, "p", "s", i+1) },
		"next seed":  func(i int) (a, b float64) { return Uniform(uint64(i), "p", "s", 0), Uniform(uint64(i+1), "p", "s", 0) },
		"seed and index": func(i int) (a, b float64) {
			return Uniform(uint64(i), "p", "s", 0), Uniform(0, "p", "s", i)
		},
		"purpose": func(i int) (a, b float64) { return Uniform(1, "p", "s", i), Uniform(1, "q", "s", i) },
	}
	for name, pair := range pairs {
		sum := 0.0
		for i := range n {
			a, b := pair(i)
			sum += (a - 0.5) * (b - 0.5)
		}
		near(t, "correlation by "+name, sum/n*12, 0, 1)
	}
}

func TestEveryBitFlipsHalfTheDraw(t *testing.T) {
	for bit := range 64 {
		flips := 0
		for i := range 1000 {
			x := Bits(uint64(i), "p", "s", 0) ^ Bits(uint64(i)^1<<bit, "p", "s", 0)
			for ; x != 0; x &= x - 1 {
				flips++
			}
		}
		// 64000 fair coins: standard deviation sqrt(16000) = 126.
		if math.Abs(float64(flips)-32000) > 4*126.5 {
			t.Errorf("seed bit %d flips %d of 64000 bits, want 32000 within 506", bit, flips)
		}
	}
}

// The inverse must undo the normal distribution function, which the library
// gives as erfc; AS 241 states seven digits for this routine.
func TestNormalInvertsItsDistribution(t *testing.T) {
	for _, p := range []float64{1e-16, 1e-12, 1e-6, 0.001, 0.025, 0.0749, 0.0751, 0.3, 0.5, 0.6, 0.925, 0.926, 0.975, 0.999, 1 - 1e-9} {
		z := normalAt(p)
		back := math.Erfc(-z/math.Sqrt2) / 2
		density := math.Exp(-z*z/2) / math.Sqrt(2*math.Pi)
		if off := math.Abs(back-p) / density; off > 1e-6*max(1, math.Abs(z)) {
			t.Errorf("normalAt(%v) = %v is off by %v", p, z, off)
		}
	}
	if z := normalAt(0.975); math.Abs(z-1.959963985) > 1e-6 { // any table of the normal
		t.Errorf("normalAt(0.975) = %v, want 1.959963985", z)
	}
}

func TestBetweenAndHappensKeepToTheirRange(t *testing.T) {
	yes := 0
	for i := range n {
		if x := Between(2, "delay", "central", i, 20, 50); !(x > 20 && x < 50) {
			t.Fatalf("draw %d of 20 to 50 is %v", i, x)
		}
		if Happens(2, "late", "central", i, 0.3) {
			yes++
		}
		if Happens(2, "never", "", i, 0) || !Happens(2, "always", "", i, 1) {
			t.Fatal("a chance of 0 happened, or one of 1 did not")
		}
	}
	near(t, "share that happened", float64(yes)/n, 0.3, math.Sqrt(0.3*0.7))
}
