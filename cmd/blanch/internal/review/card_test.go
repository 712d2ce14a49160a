package review

import (
	"math/rand/v2"
	"testing"
	"time"
)

var evening = time.Date(2026, 12, 1, 20, 0, 0, 0, time.UTC)

// after is a time so many days after the first evening.
func after(days float64) time.Time {
	return evening.Add(time.Duration(days * float64(24*time.Hour)))
}

func right(q Question, at time.Time) Answer { return Answer{Question: q, At: at, Right: true, Try: 1} }

func wrong(q Question, at time.Time) Answer { return Answer{Question: q, At: at, Try: 1} }

func quick(q Question, at time.Time) Answer {
	a := right(q, at)
	a.Took, a.Allowed = 20*time.Second, time.Minute
	return a
}

var bag = Question{Name: "bag", Unit: Mix, Level: 1, Critical: true}

func answered(answers ...Answer) Card {
	var c Card
	for _, a := range answers {
		c = Default().Review(c, a)
	}
	return c
}

func TestDue(t *testing.T) {
	c := answered(right(bag, evening))
	if got, want := c.Due, after(2).Add(-Leeway); !got.Equal(want) {
		t.Errorf("due %v, want %v", got, want)
	}
	if c.IsDue(c.Due.Add(-1)) || !c.IsDue(c.Due) {
		t.Error("not due from Due on")
	}
	if got := Days(c.Last, c.Due); got != Default().Interval(c.Stability) {
		t.Errorf("due after %d days, want the interval", got)
	}
	c = answered(right(bag, evening), wrong(bag, after(2)))
	if !c.Due.Equal(after(2)) || c.Lapses != 1 || c.Answers != 2 || c.Grade != Again || !c.First.Equal(evening) {
		t.Errorf("after a miss: %+v", c)
	}
	if (Card{Question: bag}).IsDue(evening) {
		t.Error("a new card is due for review")
	}
}

func TestRightOnDays(t *testing.T) {
	hinted := right(bag, after(1))
	hinted.Hinted = true
	for name, test := range map[string]struct {
		answers []Answer
		want    int
	}{
		"once":                           {[]Answer{right(bag, after(0))}, 1},
		"twice on one day":               {[]Answer{right(bag, after(0)), right(bag, after(0.5))}, 1},
		"on two days":                    {[]Answer{right(bag, after(0)), right(bag, after(1))}, 2},
		"an evening a little earlier":    {[]Answer{right(bag, after(0)), right(bag, after(0.9))}, 2},
		"many within a day, then a day":  {[]Answer{right(bag, after(0)), right(bag, after(.5)), right(bag, after(1))}, 2},
		"then missed":                    {[]Answer{right(bag, after(0)), right(bag, after(1)), wrong(bag, after(2))}, 0},
		"right on the day of a miss":     {[]Answer{wrong(bag, after(0)), right(bag, after(.1))}, 0},
		"right the day after a miss":     {[]Answer{wrong(bag, after(0)), right(bag, after(.1)), right(bag, after(1))}, 1},
		"a hint begins the count again":  {[]Answer{right(bag, after(0)), hinted, right(bag, after(2))}, 1},
		"clock back by an hour":          {[]Answer{right(bag, after(0)), right(bag, evening.Add(-time.Hour))}, 1},
		"clock back by a year":           {[]Answer{right(bag, after(0)), right(bag, after(-365))}, 1},
		"a day after a clock set back":   {[]Answer{right(bag, after(0)), right(bag, after(-365)), right(bag, after(-364))}, 2},
		"a miss, then the clock is back": {[]Answer{wrong(bag, after(0)), right(bag, after(-365)), right(bag, after(-364))}, 1},
	} {
		if got := answered(test.answers...).Right; got != test.want {
			t.Errorf("%s: got %d days, want %d", name, got, test.want)
		}
	}
}

// TestEasy: easy takes three days at speed, and repeats within a day do not
// hurry it.
func TestEasy(t *testing.T) {
	c := answered(quick(bag, after(0)), quick(bag, after(0.1)), quick(bag, after(0.2)), quick(bag, after(1)))
	if c.Grade != Good || c.Quick != 2 {
		t.Errorf("two days: got %v, %d days", c.Grade, c.Quick)
	}
	third := answered(quick(bag, after(0)), quick(bag, after(2)), quick(bag, after(10)))
	if third.Grade != Easy {
		t.Errorf("three days: got %v, want easy", third.Grade)
	}
	slow := answered(quick(bag, after(0)), quick(bag, after(2)), right(bag, after(10)), quick(bag, after(40)))
	if slow.Grade != Good || slow.Quick != 1 {
		t.Errorf("not in a row: got %v, %d days", slow.Grade, slow.Quick)
	}
	if plain := answered(right(bag, after(0)), right(bag, after(2)), right(bag, after(10))); plain.Grade != Good || !plain.Due.Before(third.Due) {
		t.Errorf("not at speed: %+v, want it due before %v", plain, third.Due)
	}
}

// TestClockSetBack: an answer given before the last one counts as the same day,
// and the card is not lost in the future.
func TestClockSetBack(t *testing.T) {
	m := Default()
	for name, back := range map[string]float64{"a day": 1, "a year": 365} {
		c := answered(right(bag, after(0)), right(bag, after(2)))
		if !c.IsDue(after(2 - back)) {
			t.Errorf("%s: the card is not due after the clock was set back", name)
		}
		b := m.Review(c, right(bag, after(2-back)))
		if want := m.Next(c.Memory, 0, Good); b.Memory != want {
			t.Errorf("%s: memory %+v, want that of the same day, %+v", name, b.Memory, want)
		}
		if days := Days(b.Last, b.Due); days != m.Interval(b.Stability) || b.Due.Before(b.Last) {
			t.Errorf("%s: due after %d days", name, days)
		}
		if b.Answers != 3 || b.IsDue(b.Last) {
			t.Errorf("%s: %+v, want three answers and not due at once", name, b)
		}
	}
	c := answered(right(bag, after(2)))
	if c.IsDue(after(2).Add(-time.Hour)) {
		t.Error("an hour back makes the card due")
	}
}

// TestNoNegativeInterval: whatever the times and answers, a card is never due
// before its last answer, and counts every answer.
func TestNoNegativeInterval(t *testing.T) {
	r := rand.New(rand.NewPCG(3, 6))
	for range rounds(2000) {
		var c Card
		for n := range 1 + r.IntN(20) {
			at := after(800*r.Float64() - 400)
			a := []Answer{right(bag, at), wrong(bag, at), quick(bag, at)}[r.IntN(3)]
			c = Default().Review(c, a)
			if c.Due.Before(c.Last) || !c.Last.Equal(at) || c.Answers != n+1 || c.Right > c.Answers || c.Quick > c.Right {
				t.Fatalf("after %+v: %+v", a, c)
			}
			if c.Grade != Again && Days(c.Last, c.Due) < 1 {
				t.Fatalf("after %+v: due again on the same day: %+v", a, c)
			}
		}
	}
}
