package ui

import (
	"testing"

	"blanch/cmd/blanch/internal/session"
	"blanch/sim"
)

// record is what a recording of the play holds.
func (d *hand) record() session.Record {
	a, _ := attempt(d.t, 3)
	return session.Record{Revision: sim.Revision, Seed: 3, Source: a.Source, Said: d.kept.said, Reached: d.kept.reached, Draft: d.kept.draft, Ended: d.kept.ended}
}

// TestAPlayReplays: what a play on the screen leaves comes to the same bytes
// again, and so does the same input typed at the prompt.
func TestAPlayReplays(t *testing.T) {
	d := sit(t, 80, 24)
	d.press("Down", "Enter", "End", "Enter").start()
	d.press("o", "Down", "Enter").settle().press("Esc", "n", "All well", "Enter").settle()
	d.press("w", "0:40", "Enter").settle().press("c", "Enter", " ", "Enter", "Enter", "Enter").settle()
	d.press("Esc", "Esc", "End", "Enter", "Down", "Enter", "The hand", "Enter")
	d.want("Result:")
	r, err := session.Replay(d.record())
	if err != nil || r.Differs != "" || r.Journal == "" {
		t.Fatalf("replay: %v, differs %q", err, r.Differs)
	}

	_, s := attempt(t, 3)
	k := &memory{}
	s.Record(k)
	for _, said := range d.kept.said {
		s.SetSpeed(0)
		for sim.Time(said.At) > 0 && s.Board().Clock != sim.Time(said.At).Exact() && !s.Over() {
			s.Handle("wait until " + sim.Time(said.At).Exact())
			for s.Running() {
				s.Pass(0)
			}
		}
		if said.Text == "stop here" {
			s.Stop()
			break
		}
		s.Handle(said.Text)
	}
	s.Reflect(0, "The hand")
	if s.Finish() != d.kept.ended.Sheet || s.Journal() != d.kept.ended.Journal {
		t.Errorf("typed at the prompt the play comes to something else:\n%s\nwant:\n%s", s.Journal(), d.kept.ended.Journal)
	}
}

// TestLeavingKeepsWhereItStood: by every way out the attempt can go on where
// it stood, with what was being typed.
func TestLeavingKeepsWhereItStood(t *testing.T) {
	for name, leave := range map[string]func(d *hand){
		"q":      func(d *hand) { d.press("Esc", "q", "q") },
		"Ctrl-C": func(d *hand) { d.press("Ctrl-C") },
		"pause":  func(d *hand) { d.press("Esc", "Esc", "Down", "Enter") },
	} {
		d := sit(t, 80, 24)
		d.press("Down", "Enter", "End", "Enter", " ").beat(13).press("n", "half a sen").beat(6)
		stood := d.clock()
		leave(d)
		if !d.u.gone || d.u.left.Attempt == nil || d.u.left.Finished {
			t.Fatalf("%s: not left: %+v", name, d.u.left)
		}
		s, err := session.Resume(d.record(), 60)
		if err != nil {
			t.Fatal(err)
		}
		if got := s.Board().Clock; got != stood {
			t.Errorf("%s: resumed at %s, left at %s", name, got, stood)
		}
		if name == "Ctrl-C" {
			if want := "write in the notes: half a sen"; d.kept.draft != want {
				t.Errorf("the draft is %q, want %q", d.kept.draft, want)
			}
			again := sit(t, 80, 24)
			again.u.enter(&Attempt{Session: s, Resumed: true, Draft: d.kept.draft})
			again.draw()
			again.want("half a sen", "Write:")
		}
	}
}

// TestDraftsAreKeptAsOneTypes, whatever is typed at.
func TestDraftsAreKeptAsOneTypes(t *testing.T) {
	for _, c := range []struct {
		keys []string
		want string
		back string // on the screen after a resume
	}{
		{[]string{"n", "abc"}, "write in the notes: abc", "abc"},
		{[]string{"/", "flu"}, "flu", "flush <line>"},
		{[]string{"b", "Enter", "16 mc"}, "give concentration as 16 mc", "16 mc"},
		{[]string{"/", "walk", "Enter", "5 m"}, "walk away for 5 m", "walk away for 5 m"},
	} {
		d := sit(t, 80, 24)
		d.press("Down", "Enter", "End", "Enter").say("mix 4 mg of norepinephrine in 250 mL, adding to the bag", "label bag-1")
		d.press(c.keys...).beat(10)
		if d.kept.draft != c.want {
			t.Errorf("after %q the draft is %q, want %q", c.keys, d.kept.draft, c.want)
		}
		s, err := session.Resume(d.record(), 60)
		if err != nil {
			t.Fatal(err)
		}
		again := sit(t, 80, 24)
		again.u.enter(&Attempt{Session: s, Resumed: true, Draft: d.kept.draft})
		again.draw()
		again.want(c.back)
		d.press("Esc").press("Esc").beat(10)
		if d.kept.draft != "" && c.keys[0] != "n" { // notes keep what was begun
			t.Errorf("after %q and Esc the draft is still %q", c.keys, d.kept.draft)
		}
	}
}

// TestReflectionComesBeforeTheMarks
func TestReflectionComesBeforeTheMarks(t *testing.T) {
	d := sit(t, 80, 24)
	d.press("Down", "Enter", "End", "Enter", "Esc", "End", "Enter", "Down", "Enter")
	d.want("Before the marks", "1 of 1.")
	if d.kept.ended != nil {
		t.Error("marked before the reflection")
	}
	d.press("the q key ? types /", "Enter").want("Result:")
	if d.kept.ended == nil {
		t.Error("the marks are shown and not stored")
	}
}
