package progress

import (
	"reflect"
	"testing"
	"time"

	"blanch/cmd/blanch/internal/review"
)

// TestClock: a clock set back loses no answer and gives no negative interval,
// and the file read anew says the same.
func TestClock(t *testing.T) {
	for name, back := range map[string]float64{"an hour": 1. / 24, "a day": 1, "a year": 365} {
		p := open(t, newPath(t))
		record(t, p, right("a", after(0)), right("b", after(0)), right("a", after(2)))
		now := after(2 - back)
		due := map[string]bool{}
		for _, c := range p.Due(now) {
			due[c.Name] = true
		}
		if due["a"] != (back >= 1) {
			t.Errorf("%s: due is %v", name, due)
		}
		c, err := p.Record(right("a", now))
		if err != nil {
			t.Fatal(err)
		}
		if c.Answers != 3 || c.Right != 2 || review.Days(c.Last, c.Due) < 1 || !c.Last.Equal(now) {
			t.Errorf("%s: got %+v", name, c)
		}
		// The clock is put right again.
		if c, err = p.Record(right("a", after(30))); err != nil || c.Answers != 4 || !c.Due.After(after(30)) {
			t.Errorf("%s: right again: got %+v, %v", name, c, err)
		}
		same(t, p)
	}
}

// TestZone: the zone in which the clock is read changes nothing.
func TestZone(t *testing.T) {
	a, b := open(t, newPath(t)), open(t, newPath(t))
	zones := []*time.Location{time.UTC, time.FixedZone("", -8*3600), time.FixedZone("", 13*3600)}
	for i := range 6 {
		at := after(float64(i) * 0.99)
		record(t, a, right("q", at))
		record(t, b, right("q", at.In(zones[i%3])))
	}
	if !reflect.DeepEqual(a.cards, b.cards) {
		t.Errorf("in three zones %+v, in one %+v", b.cards, a.cards)
	}
}

// TestSleep: a laptop that slept has slept through its due times, though the
// monotonic clock of a process stood still.
func TestSleep(t *testing.T) {
	p := open(t, newPath(t))
	now := time.Now()
	record(t, p, right("a", now))
	if got := p.Due(now.Round(0).Add(3 * 24 * time.Hour)); len(got) != 1 {
		t.Errorf("due after three days asleep: %+v", got)
	}
	if c, _ := p.Card("a"); c.Last != c.Last.Round(0) {
		t.Errorf("the card keeps a monotonic time: %v", c.Last)
	}
}
