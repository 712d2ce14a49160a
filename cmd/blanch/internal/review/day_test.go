package review

import (
	"testing"
	"time"
	_ "time/tzdata" // zones also where the system has none
)

func TestDays(t *testing.T) {
	from := time.Date(2026, 12, 1, 20, 0, 0, 0, time.UTC)
	for _, test := range []struct {
		after time.Duration
		want  int
	}{
		{0, 0}, {20*time.Hour - time.Millisecond, 0}, {20 * time.Hour, 1}, {24 * time.Hour, 1},
		{44*time.Hour - time.Millisecond, 1}, {44 * time.Hour, 2}, {365 * 24 * time.Hour, 365},
		{-time.Hour, 0}, {-24 * time.Hour, 0}, {-365 * 24 * time.Hour, 0},
	} {
		if got := Days(from, from.Add(test.after)); got != test.want {
			t.Errorf("%v later: got %d days, want %d", test.after, got, test.want)
		}
	}
	// The furthest that a time can be written, where a Duration overflows.
	if got := Days(time.Date(1, 1, 1, 0, 0, 0, 0, time.UTC), time.Date(9999, 12, 31, 0, 0, 0, 0, time.UTC)); got != 3652058 {
		t.Errorf("year 1 to 9999: got %d days, want 3652058", got)
	}
}

// TestDaysInZones: the same evening hour by the clock on the wall is the next
// day through both changes of daylight saving, and a journey changes nothing.
func TestDaysInZones(t *testing.T) {
	zone := func(name string) *time.Location {
		z, err := time.LoadLocation(name)
		if err != nil {
			t.Fatal(err)
		}
		return z
	}
	paris, auckland := zone("Europe/Paris"), zone("Pacific/Auckland")
	for _, change := range []time.Time{
		time.Date(2026, 3, 28, 20, 0, 0, 0, paris),  // 23 h to the next evening
		time.Date(2026, 10, 24, 20, 0, 0, 0, paris), // 25 h
		time.Date(2026, 9, 26, 20, 0, 0, 0, auckland),
	} {
		next := change.AddDate(0, 0, 1)
		if next.Sub(change) == 24*time.Hour {
			t.Fatalf("no change of the clock at %v", change)
		}
		if got := Days(change, next); got != 1 {
			t.Errorf("%v to %v: got %d days, want 1", change, next, got)
		}
		if a, b := Days(change, next), Days(change.In(auckland), next.In(time.UTC)); a != b {
			t.Errorf("%d days in one zone and %d in two", a, b)
		}
	}
	// Past midnight, but one shift: the same day.
	if got := Days(time.Date(2026, 12, 1, 23, 50, 0, 0, paris), time.Date(2026, 12, 2, 0, 10, 0, 0, paris)); got != 0 {
		t.Errorf("past midnight: got %d days, want 0", got)
	}
}
