package ui

import (
	"errors"
	"strings"
	"testing"
)

// TestADiskThatFillsWhileTheClockRuns is told at once, loudly, and stays in
// sight: nobody plays on in the belief that the hour is kept.
func TestADiskThatFillsWhileTheClockRuns(t *testing.T) {
	d := atWork(t)
	d.beat(20)
	d.kept.full = func(what string) bool { return what == "reached" }
	d.beat(12) // a mark is made each second
	d.want("NOT saved from 0:0", "on: no space left on device", "running")
	if !d.u.loud || !errors.Is(d.u.s().Unsaved(), errFull) {
		t.Errorf("loud %t, unsaved: %v", d.u.loud, d.u.s().Unsaved())
	}
	d.press("l")
	if d.u.flash != "" {
		t.Errorf("the next key leaves %q", d.u.flash)
	}
	d.want("NOT saved from 0:0").press("Esc", "q").want("The clock stands. NOT saved from 0:0")
	if strings.Contains(d.text(), "Everything so far is saved") {
		t.Errorf("the pause calls it saved:\n%s", d.text())
	}
}

// TestADiskThatFillsWhileOneTypes is told as well.
func TestADiskThatFillsWhileOneTypes(t *testing.T) {
	d := atWork(t)
	d.press("n", "half a sen")
	d.kept.full = func(what string) bool { return what == "draft" }
	d.beat(6).want("NOT saved from 0:0")
	if !d.u.loud {
		t.Error("it is not told loudly")
	}
}

// TestADiskFullAtTheEnd: the debrief says that the marks are not kept.
func TestADiskFullAtTheEnd(t *testing.T) {
	d := atWork(t)
	d.kept.full = func(what string) bool { return what == "ended" }
	d.press("Esc", "End", "Enter", "Down", "Enter", "The hand", "Enter")
	d.want("Result:", "NOT saved from 0:0", "no space left on device")
	if !d.u.loud {
		t.Error("it is not told loudly")
	}
	d.press("Down", "Up").want("NOT saved from 0:0")
	if text := d.u.s().Debrief("attempts/screen.jsonl")[0].Lines; strings.Contains(text[len(text)-1].Text, "The recording lies") {
		t.Errorf("the debrief sends one to the recording: %q", text[len(text)-1].Text)
	}
}

// TestNothingIsDrawnRaw: what a recording holds was perhaps written by someone
// else.
func TestNothingIsDrawnRaw(t *testing.T) {
	const nasty = "a\x1b]0;owned\x07b\u009b31mc\u202ed"
	_, s := attempt(t, 3)
	s.Stop()
	s.Reflect(0, nasty)
	d := sit(t, 80, 24)
	d.u.enter(&Attempt{Session: s, Resumed: true, Draft: nasty})
	d.draw()
	d.press("Right")
	for range 4 {
		if strings.ContainsAny(d.text(), "\x1b\x07\u009b\u202e") {
			t.Fatalf("drawn raw: %+q", d.text())
		}
		d.press("Right", "End")
	}
	d.want("a?]0;owned?b?31mc?d")

	d = atWork(t)
	d.u.bed("write in the notes: " + "x")
	d.u.typed().paste(nasty)
	d.send(keyOf('\u009b'))
	d.draw()
	if text := d.u.typed().text(); text != "xa?]0;owned?b?31mc?d" {
		t.Errorf("typed: %+q", text)
	}
}
