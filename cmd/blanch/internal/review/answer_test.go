package review

import (
	"testing"
	"time"
)

// TestGrade holds to the table of grade, which is ours.
func TestGrade(t *testing.T) {
	const minute = time.Minute
	for name, test := range map[string]struct {
		a     Answer
		quick int
		want  Grade
	}{
		"right":                       {Answer{Right: true, Try: 1}, 0, Good},
		"wrong":                       {Answer{Try: 1}, 0, Again},
		"wrong, though quick before":  {Answer{Try: 2, Took: 1, Allowed: minute}, 5, Again},
		"critical miss, right in end": {Answer{Right: true, CriticalMiss: true, Try: 2}, 0, Again},
		"critical miss, first try":    {Answer{Right: true, CriticalMiss: true, Try: 1}, 9, Again},
		"second try":                  {Answer{Right: true, Try: 2}, 9, Hard},
		"third try":                   {Answer{Right: true, Try: 3}, 0, Again},
		"hinted":                      {Answer{Right: true, Try: 1, Hinted: true}, 9, Hard},
		"slow":                        {Answer{Right: true, Try: 1, Took: minute + 1, Allowed: minute}, 9, Hard},
		"just in time":                {Answer{Right: true, Try: 1, Took: minute, Allowed: minute}, 0, Good},
		"long, but not timed":         {Answer{Right: true, Try: 1, Took: 9 * minute}, 0, Good},
		"quick on two days":           {Answer{Right: true, Try: 1, Took: minute / 2, Allowed: minute}, 2, Good},
		"quick on three days":         {Answer{Right: true, Try: 1, Took: minute / 2, Allowed: minute}, 3, Easy},
	} {
		if got := grade(test.a, test.quick); got != test.want {
			t.Errorf("%s: got %v, want %v", name, got, test.want)
		}
	}
}

func TestAtSpeed(t *testing.T) {
	for _, test := range []struct {
		took, allowed time.Duration
		want          bool
	}{
		{30 * time.Second, time.Minute, true},
		{31 * time.Second, time.Minute, false},
		{0, time.Minute, false}, // not measured
		{time.Second, 0, false}, // not timed
	} {
		a := Answer{Right: true, Try: 1, Took: test.took, Allowed: test.allowed}
		if got := a.atSpeed(); got != test.want {
			t.Errorf("%v of %v: got %t, want %t", test.took, test.allowed, got, test.want)
		}
		a.Hinted = true
		if a.atSpeed() {
			t.Error("a hinted answer is at speed")
		}
	}
}

func TestFirstTime(t *testing.T) {
	for name, test := range map[string]struct {
		a    Answer
		want bool
	}{
		"first time":    {Answer{Right: true, Try: 1}, true},
		"slow":          {Answer{Right: true, Try: 1, Took: time.Hour, Allowed: time.Minute}, true},
		"wrong":         {Answer{Try: 1}, false},
		"second try":    {Answer{Right: true, Try: 2}, false},
		"hinted":        {Answer{Right: true, Try: 1, Hinted: true}, false},
		"critical miss": {Answer{Right: true, Try: 1, CriticalMiss: true}, false},
	} {
		if got := test.a.FirstTime(); got != test.want {
			t.Errorf("%s: got %t, want %t", name, got, test.want)
		}
	}
}
