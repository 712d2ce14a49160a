package ui

import (
	"strings"
	"testing"
	"time"
)

// atWork sits at the bed with a clock that the learner let run.
func atWork(t *testing.T) *hand {
	d := sit(t, 80, 24)
	return d.press("Down", "Enter", "End", "Enter", " ").beat(5)
}

func (d *hand) clock() string { return d.u.s().Board().Clock }

func TestTheClockStandsUnderWhatIsReadOrTyped(t *testing.T) {
	for _, keys := range [][]string{
		{"?"}, {"F1"}, {"?", "x"}, {"/"}, {"/", "feel"}, {"/", "feel", "Enter"}, {"/", "examine", "Enter"}, {"/", "examine", "Enter", "Enter"}, {"n"}, {"n", "abc"}, {"p"}, {"p", "Right"},
		{"w"}, {"Esc"}, {"Esc", "End", "Enter"}, {"c", "Enter"}, {"c", "Enter", " ", "Enter"}, {"l", "e"}, {"Enter"},
	} {
		d := atWork(t)
		before := d.clock()
		d.beat(5)
		if d.clock() == before {
			t.Fatal("the clock does not run at the bed")
		}
		d.press(keys...)
		stood := d.clock()
		d.beat(50)
		if d.clock() != stood {
			t.Errorf("after %q the clock ran on from %s to %s", keys, stood, d.clock())
		}
		d.want("held")
		for range 8 {
			if d.u.top() != d.u.stack[0] {
				d.press("Esc")
			}
		}
		if d.clock() != stood {
			t.Errorf("after %q and back the clock is at %s, and stood at %s", keys, d.clock(), stood)
		}
		d.beat(5)
		if d.clock() == stood {
			t.Errorf("after %q and back the clock does not go on", keys)
		}
	}
}

func TestTheClockRunsUnderScreensThatOnlyShow(t *testing.T) {
	for _, key := range []string{"l", "b", "o", "c"} {
		d := atWork(t)
		d.press(key)
		before := d.clock()
		if d.beat(5); d.clock() == before {
			t.Errorf("under %q the clock stands", key)
		}
	}
}

func TestSpaceHoldsAndSpeedsGoRound(t *testing.T) {
	d := atWork(t)
	d.press(" ").want("x60 held")
	stood := d.clock()
	if d.beat(20); d.clock() != stood {
		t.Error("a held clock runs")
	}
	for _, want := range []string{"x600 held", "x1 held", "x10 held", "x60 held"} {
		d.press("x").want(want)
	}
	d.press(" ").want("x60 running")
}

// TestACallSlowsTheClock: bed 4 rings at 26 min; the clock goes on at x1 and
// says why, and the next act goes at the old speed again.
func TestACallSlowsTheClock(t *testing.T) {
	d := sit(t, 80, 24)
	d.press("Down", "Enter", "End", "Enter")
	d.say("wait until 0:25:58", "wait") // the pain at 0:15 holds the first
	d.u.s().SetSpeed(600)
	d.press(" ").want("x600 running")
	d.beat(3).want("x1 running", "Someone needs you: bed-4", "bed-4 wants you since 0:26")
	if got := d.clock(); !strings.HasPrefix(got, "0:26:0") {
		t.Errorf("slowed at %s, want the first seconds of 0:26", got)
	}
	d.press("c", "Enter", "Enter").want("x600 running")
}

// TestAMachineThatSlept: a long pause between two beats is one second.
func TestAMachineThatSlept(t *testing.T) {
	d := atWork(t)
	before := d.u.s().Board().Clock
	d.now = d.now.Add(time.Hour)
	d.beat(1)
	d.want("0:01:3") // 0.5 s and 1 s at 60 a second
	if before == d.clock() {
		t.Error("nothing passed")
	}
}

// TestEscGoesBackOneLevel walks into every screen and out again.
func TestEscGoesBackOneLevel(t *testing.T) {
	for _, walk := range []struct {
		keys   []string
		levels int
	}{
		{[]string{"l"}, 1}, {[]string{"l", "e"}, 2}, {[]string{"b"}, 1}, {[]string{"b", "Enter"}, 2}, {[]string{"o"}, 1}, {[]string{"c"}, 1},
		{[]string{"c", "Enter"}, 2}, {[]string{"c", "Enter", " ", "Enter"}, 3}, {[]string{"c", "Enter", " ", "Enter", "Enter"}, 4}, {[]string{"q"}, 1}, {[]string{"l", "q"}, 2},
		{[]string{"p"}, 1}, {[]string{"w"}, 1}, {[]string{"/"}, 1}, {[]string{"/", "flush", "Enter"}, 2}, {[]string{"/", "examine", "Enter"}, 2}, {[]string{"/", "examine", "Enter", "Enter"}, 3},
		{[]string{"Enter"}, 1}, {[]string{"?"}, 1}, {[]string{"l", "?"}, 2}, {[]string{"n", "F1"}, 2}, {[]string{"Esc"}, 1}, {[]string{"Esc", "End", "Enter"}, 2},
	} {
		d := sit(t, 80, 24)
		d.press("Down", "Enter", "End", "Enter")
		d.u.flash = ""
		d.draw()
		bed := d.text()
		d.press(walk.keys...)
		for i := range walk.levels {
			if d.text() == bed {
				t.Errorf("%q: back at the bed after Esc %d times, want %d", walk.keys, i, walk.levels)
			}
			d.press("Esc")
		}
		if d.text() != bed {
			t.Errorf("%q: not back at the bed after Esc %d times:\n%s", walk.keys, walk.levels, d.text())
		}
	}
}

// TestEveryKeyIsInHelp: what the foot names, help names too, with the keys
// that work everywhere.
func TestEveryKeyIsInHelp(t *testing.T) {
	for _, open := range []string{"", "l", "b", "o", "c", "p", "Esc"} {
		d := sit(t, 120, 60)
		d.press("Down", "Enter", "End", "Enter")
		if open != "" {
			d.press(open)
		}
		keys := append(d.u.top().keys(), d.u.anywhere()...)
		d.press("?")
		for _, k := range keys {
			d.want(k.key)
		}
	}
}

// TestHelpRunsWhatIsChosen: help finds a sentence and opens it.
func TestHelpRunsWhatIsChosen(t *testing.T) {
	d := sit(t, 80, 24)
	d.press("Down", "Enter", "End", "Enter", "?", "blood return", "Enter").want("test blood return at right-dorsal-hand", "Enter does it")
	d.press("Esc", "?", "bench", "Enter").want("pump-1")
}

// TestWhatIsImpossibleSaysWhyAndIsNotDone
func TestWhatIsImpossibleSaysWhyAndIsNotDone(t *testing.T) {
	d := sit(t, 80, 24)
	d.press("Down", "Enter", "End", "Enter", "/", "start <", "Backspace", "Backspace", "Enter", "Enter")
	d.want("Not possible now: no bag hangs on pump-1.")
	n := len(d.kept.said)
	d.press("Enter")
	if len(d.kept.said) != n {
		t.Errorf("it was done all the same: %v", d.kept.said)
	}
}

// TestBracketsAreShown: text with tview's own brackets stays as it was written.
func TestBracketsAreShown(t *testing.T) {
	d := sit(t, 120, 36)
	d.press("Down", "Enter", "End", "Enter").say("wait until 0:26:30", "wait", "write in the notes: [red]BP [mmHg[] 120")
	d.want("[he] wants to get up.", "[red]BP [mmHg[] 120")
}

// TestTheCursorIsWhereOneTypes
func TestTheCursorIsWhereOneTypes(t *testing.T) {
	d := sit(t, 80, 24)
	d.press("Down", "Enter", "End", "Enter", "/", "feel")
	x, y, shown := d.screen.GetCursor()
	if !shown || y != 5 || x != len(" Any step: feel") {
		t.Errorf("the cursor is at %d,%d, shown %t", x, y, shown)
	}
	d.press("Esc")
	if x, y, shown = d.screen.GetCursor(); !shown || x != 1 {
		t.Errorf("at the bed the cursor is at %d,%d, shown %t; want it on the chosen step", x, y, shown)
	}
}
