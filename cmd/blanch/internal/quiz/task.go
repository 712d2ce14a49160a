package quiz

import (
	"fmt"
	"maps"
	"slices"
	"time"

	"blanch/cmd/blanch/internal/review"
	"blanch/scenarios"
	"blanch/sim/luck"
	"blanch/sim/sum"
)

// Task is one question that can be put, of one of four kinds.
type Task struct {
	review.Question
	Objective string
	Sources   []string
	Views     []scenarios.View // where sources disagree

	Numbers     *Numbers
	Single      *scenarios.SingleBest
	Order       *scenarios.Ordering
	Concordance *scenarios.Concordance
}

// Numbers is a question of arithmetic, drawn anew each time it is put.
type Numbers struct {
	Draw  func(seed uint64) Drawn
	Apart uint64 // successive seeds, so many, never have the same numbers; 0 or 1 for no promise
}

// Drawn is a question of arithmetic with its numbers.
type Drawn struct {
	Stem   []string // paragraphs; the last asks
	Shown  []Shown
	Sum    *sum.Sum
	Device string // what the answer is set on; empty for none
}

// Allowed is what an unhurried answer may take. The authors of questions set no
// times, so these are our own choice, by kind; whoever takes longer is asked
// again a little sooner, and nothing else hangs on it.
func (t *Task) Allowed() time.Duration {
	switch {
	case t.Numbers != nil:
		return 5 * time.Minute
	case t.Order != nil:
		return 4 * time.Minute
	}
	return 3 * time.Minute
}

// longestLook is when nobody can have sat there all the time: such an answer
// counts as not timed.
const longestLook = 30 * time.Minute

// kind names the kind of question.
func (t *Task) kind() string {
	switch {
	case t.Numbers != nil:
		return "sum"
	case t.Order != nil:
		return "ordering"
	case t.Concordance != nil:
		return "script concordance"
	}
	return "single best answer"
}

// draw is the question with the numbers of its n-th time, counted from 0. They
// are never those of the time before: where the source keeps successive seeds
// apart, under any seed of the sitting; otherwise under this one.
func (t *Task) draw(seed uint64, n int) Drawn {
	key := luck.Bits(seed, "numbers", t.Name, n)
	if apart := t.Numbers.Apart; apart > 1 {
		return t.Numbers.Draw((key>>32)*apart + uint64(n)%apart)
	}
	const tries = 100
	d := t.Numbers.Draw(luck.Bits(seed, "numbers", t.Name, 0))
	for time := 1; time <= n; time++ {
		before := d.Sum.Given()
		key = luck.Bits(seed, "numbers", t.Name, time)
		for i := range uint64(tries) {
			if d = t.Numbers.Draw(key + i); !maps.Equal(d.Sum.Given(), before) {
				break
			}
		}
	}
	return d
}

// shuffled is 0 to n-1 in an order drawn by the key.
func shuffled(n int, seed uint64, purpose, name string, time int) []int {
	out := make([]int, n)
	for i := range out {
		out[i] = i
	}
	slices.SortStableFunc(out, func(a, b int) int {
		x := luck.Bits(seed, purpose, fmt.Sprintf("%s %d", name, a), time)
		y := luck.Bits(seed, purpose, fmt.Sprintf("%s %d", name, b), time)
		if x < y {
			return -1
		}
		return 1
	})
	return out
}
