package ui

import (
	"fmt"
	"testing"

	"github.com/gdamore/tcell/v2"
)

// start plays up to the running infusion.
func (d *hand) start() *hand {
	return d.say(
		"read the order", "mix 4 mg of norepinephrine in 250 mL, adding to the bag", "label bag-1", "give concentration as 16 mcg/mL",
		"hang bag-1 on pump-1", "prime pump-1", "set pump-1 to 12 mL/h", "connect pump-1 to right-dorsal-hand primed to the tip", "start pump-1",
	)
}

// TestScreens holds every screen, whole, to what a person has read.
func TestScreens(t *testing.T) {
	for _, size := range []struct{ w, h int }{{80, 24}, {120, 36}} {
		at := fmt.Sprintf("%dx%d-", size.w, size.h)
		t.Run(at, func(t *testing.T) {
			d := sit(t, size.w, size.h)
			d.shot(at + "home")
			d.press("Down", "Enter").shot(at + "briefing")
			d.press("End", "Enter").shot(at + "bedside-first")
			d.press("?").shot(at + "help").press("flush").shot(at + "help-searched").press("Esc")
			d.press("/", "refill").shot(at + "finder")
			d.press("Enter").shot(at+"finder-preview").press("Esc", "Esc")
			d.press("/", "examine", "Enter").shot(at+"finder-gap").press("Esc", "Esc")
			d.press("/", "start").shot(at+"finder-impossible").press("Enter", "Enter").shot(at+"impossible").press("Esc", "Esc", "Esc")
			d.press("l", "Right").shot(at + "line-unknown")
			d.press("u", "Enter").settle().press("Down", "Right", "Down", "Left").shot(at + "line-scanned")
			d.press("Esc", "o").shot(at+"look-first").press("Down", "Enter").settle().press("Down", "Enter").settle().shot(at + "look").press("Esc")
			d.press("b").shot(at + "bench-first").press("Esc")
			d.say("mix 4 mg of norepinephrine in 250 mL, adding to the bag", "label bag-1", "draw up 5 mg of phentolamine to 10 mL")
			d.press("b").shot(at+"bench").press("Enter", "16 mc").shot(at+"bench-answer").press("Esc", "Esc")
			d.press("n", "Line looked at, no swelling").shot(at+"notes").press("Enter").settle().press("n").shot(at+"notes-written").press("Esc", "w").shot(at + "wait").press("Esc")
			d.press("c").shot(at+"calls").press("Down", "Down", "Enter", " ", "Down", "Down", " ").shot(at+"calls-facts").press("Enter", "Down").shot(at+"calls-request").press("Esc", "Esc", "Esc")
			d.press("p").shot(at+"papers").press("Right", "Right", "Right").shot(at+"policy").press("Esc", "Esc").shot(at + "pause").press("Esc")

			d.say("give concentration as 16 mcg/mL", "read the order", "read the notes", "hang bag-1 on pump-1", "prime pump-1", "set pump-1 to 12 mL/h", "connect pump-1 to right-dorsal-hand primed to the tip", "start pump-1")
			d.shot(at+"bedside-running").press("/", "feel").shot(at + "finder-done").press("Esc")
			d.press(" ").beat(30).press(" ").shot(at + "bedside-later")
			d.press("w", "0:27", "Enter").settle()
			d.shot(at + "bedside-called").press("l").shot(at + "line-called").press("Esc")
			d.press("c", "Enter").shot(at+"answer").press("Esc", "Esc")
			d.say("answer bed-4")
			d.press("x", "x", "x", "w", "15", "Enter").settle().press("o", "Down", "Enter").settle().press("Down", "Enter").settle()
			for range 8 {
				d.press("Down")
			}
			d.press("Enter").settle().shot(at + "look-leak").press("d").shot(at + "look-drawn")
			d.press("d", "r").shot(at + "look-again").press("Esc")
			d.press("End", "Up", "Up", "Up", "Up", "Up").shot(at + "look-judge").press("Enter").shot(at + "look-judge-card").press("Enter").shot(at + "look-judged").press("Esc").shot(at + "bedside-leak")
			d.press("Esc", "End", "Enter").shot(at+"stop").press("Down", "Enter").shot(at + "reflect")
			d.press("The blanket was warm", "Enter").shot(at + "marks")
			for _, part := range []string{"timeline", "sums", "arm", "teaching"} {
				d.press("Right").shot(at + part)
			}
		})
	}
}

// TestEverySizeHolds draws every screen in every size, small ones too.
func TestEverySizeHolds(t *testing.T) {
	views := []string{"", "?", "/", "l", "o", "b", "c", "n", "p", "w", "Esc"}
	for _, size := range [][2]int{{0, 0}, {1, 1}, {2, 2}, {5, 3}, {10, 4}, {20, 6}, {30, 8}, {40, 12}, {59, 15}, {60, 16}, {72, 16}, {79, 23}, {100, 30}, {200, 60}, {300, 100}} {
		d := sit(t, size[0], size[1])
		d.draw()
		d.press("Down", "Enter", "End", "Enter").start()
		for _, v := range views {
			d.u.bedside()
			if v != "" {
				d.press(v)
			}
			d.draw()
			for _, k := range []string{"Down", "PgDn", "End", "Home", "Right", "Left", "Enter", "F1", "Esc", "Esc"} {
				d.press(k)
			}
		}
	}
}

// TestSmallScreensKeepWhatMatters: the pressure, what runs and the time stay
// in sight in 40 columns and 12 rows, whatever is open.
func TestSmallScreensKeepWhatMatters(t *testing.T) {
	for _, size := range [][2]int{{80, 24}, {60, 16}, {40, 12}} {
		d := sit(t, size[0], size[1])
		d.press("Down", "Enter", "End", "Enter").start()
		for _, v := range []string{"", "l", "b", "o", "c", "n", "p", "w", "/", "?", "Esc"} {
			d.u.bedside()
			if v != "" {
				d.press(v)
			}
			d.draw()
			d.want(d.u.s().Board().Clock, "mean ", "mmHg", "right-dorsal-hand", "12 mL/h")
		}
	}
}

// TestNothingIsColoured: without colour no cell has one, and with it the words
// are the same.
func TestNothingIsColoured(t *testing.T) {
	d := sit(t, 80, 24)
	d.press("Down", "Enter", "End", "Enter").start()
	check := func(wanted bool) {
		t.Helper()
		cells, _, _ := d.screen.GetContents()
		coloured := false
		for _, c := range cells {
			fg, bg, _ := c.Style.Decompose()
			coloured = coloured || fg != tcell.ColorDefault || bg != tcell.ColorDefault
		}
		if coloured != wanted {
			t.Errorf("coloured: %t, want %t", coloured, wanted)
		}
	}
	d.press("l")
	check(false)
	before := d.text()
	d.u.colour = true
	d.draw()
	check(true)
	if d.text() != before {
		t.Errorf("colour changes the words:\n%s\nwithout:\n%s", d.text(), before)
	}
	d.press("k")
	check(false)
}
