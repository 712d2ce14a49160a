package sum

import (
	"math/rand/v2"
	"slices"
	"strings"
	"testing"

	"blanch/sim/quantity"
)

// lasting is the time for a volume at 25 mL/h, to a hundredth of an hour.
func lasting(t *testing.T, mL, step float64) *Sum {
	t.Helper()
	k, _ := Named("run_out")
	s, err := k.New(map[string]quantity.Quantity{"volume": quantity.Of(mL, "mL"), "rate": quantity.Of(25, "mL/h")}, quantity.Unit{})
	if err == nil {
		s, err = s.To(step)
	}
	if err != nil {
		t.Fatal(err)
	}
	return s
}

// A right rounding to fewer digits is told as that; cutting only where digits
// were cut.
func TestRightRoundingIsNotCutting(t *testing.T) {
	coarse, cut := "which is coarser than asked", "cut off the digits behind "
	for _, c := range []struct {
		key, step    float64
		answer, says string
	}{
		{2.288, 0.01, "2.3 h", coarse},
		{2.288, 0.01, "2 h", coarse},
		{2.288, 0.01, "2.28 h", cut + "2.28"},
		{2.288, 0.01, "2.2 h", cut + "2.2"},
		{0.2156, 0.001, "0.22 h", coarse},
		{0.2156, 0.001, "0.215 h", cut + "0.215"},
		{0.2636, 0.001, "0.26 h", coarse},
		{19.896, 0.01, "20 h", coarse},
		{19.896, 0.01, "19.8 h", cut + "19.8"},
		{0.0588, 0.001, "0.06 h", coarse},
		{0.0272, 0.001, "0.03 h", coarse},
		{6.3, 0.1, "6 h", coarse},
		{2.1, 0.1, "2 h", coarse},
		{784.3, 0.1, "784 h", coarse},
		{320.4, 0.1, "320 h", coarse},
		{73.1, 1, "75 h", "rounded to the nearest 5 h"},
		{2.288, 0.01, "2.27 h", ""},
	} {
		s := lasting(t, c.key*25, c.step)
		m := s.Mark(c.answer)
		said := m.Diagnosis.Sentence()
		switch {
		case c.says != "" && (!strings.Contains(said, c.says) || !m.Diagnosis.Rounded()):
			t.Errorf("%s of %v: %q", c.answer, c.key, said)
		case c.says == "" && said != "":
			t.Errorf("%s of %v: %q", c.answer, c.key, said)
		case c.says == coarse && strings.Contains(said, cut):
			t.Errorf("%s of %v is told as cut: %q", c.answer, c.key, said)
		}
	}
}

// Whatever the numbers of a sum are, its key rounded rightly to fewer digits is
// told as that.
func TestEveryCoarserRoundingIsTold(t *testing.T) {
	for i, k := range kinds {
		r := rand.New(rand.NewPCG(uint64(i), 4))
		for range rounds(60, 3000) {
			s := draw(r, k)
			for step := power(magnitude(s.Step) + 1); step <= power(magnitude(s.key)); step *= 10 {
				x := quantity.Round(s.key, step)
				m := s.MarkAnswer(answerOf(quantity.Quantity{Value: x, Unit: s.Unit}))
				if m.Verdict == Right {
					continue
				}
				if !slices.ContainsFunc(m.Diagnosis.Slips, func(f Slip) bool {
					return strings.Contains(f.clause, "coarser than asked") || f.Family == Rounding && near(f.Value.Value, x)
				}) {
					t.Fatalf("%s: %v of %v: %q", tell(s), x, s.key, m.Diagnosis.Sentence())
				}
			}
		}
	}
}

// Two digits that were swapped are offered for exactly what comes of it, and not
// for any round number in its neighbourhood.
func TestMisreadingIsToldOnlyOfItsOwnNumber(t *testing.T) {
	k, _ := Named("rate")
	s, err := k.New(map[string]quantity.Quantity{ // 0.17 mcg/kg/min x 71 kg x 60 / 12.8 mcg/mL = 56.58 mL/h; with 0.71, 236.3
		"dose": quantity.Of(0.17, "mcg/kg/min"), "weight": quantity.Of(71, "kg"), "concentration": quantity.Of(12.8, "mcg/mL"),
	}, quantity.Unit{})
	if err != nil {
		t.Fatal(err)
	}
	misread := func(answer string) bool {
		return slices.ContainsFunc(s.Mark(answer).Diagnosis.Slips, func(f Slip) bool { return f.digits && strings.Contains(f.Name, "misread") })
	}
	for answer, want := range map[string]bool{"236.3 mL/h": true, "236.297 mL/h": true, "236 mL/h": false, "240 mL/h": false, "200 mL/h": false} {
		if misread(answer) != want {
			t.Errorf("%s: %q", answer, s.Mark(answer).Diagnosis.Sentence())
		}
	}
}

// A point that was misplaced, and swapped digits, belong to the answer and not to
// the step before it.
func TestSlipsInTheAnswerStandAtTheAnswer(t *testing.T) {
	s := rateOf(t)
	for _, answer := range []string{"131.3 mL/h", "31.1 mL/h", "1.31 mL/h"} {
		d := s.Mark(answer).Diagnosis
		if len(d.Slips) != 1 || d.Slips[0].Step != len(s.Steps()) || !strings.HasSuffix(d.Sentence(), ", in the answer.") {
			t.Errorf("%s: step %+v, %q", answer, d.Slips, d.Sentence())
		}
	}
}
