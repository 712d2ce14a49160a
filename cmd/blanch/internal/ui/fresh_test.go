package ui

import (
	"strings"
	"testing"

	"github.com/gdamore/tcell/v2"

	"blanch/cmd/blanch/internal/session"
)

// TestQAtWorkOpensThePause: a letter too many leaves nothing; from the pause
// it leaves.
func TestQAtWorkOpensThePause(t *testing.T) {
	for _, keys := range [][]string{{}, {"l"}, {"b"}, {"o"}, {"c"}, {"p"}, {"l", "e"}, {"c", "Enter"}} {
		d := sit(t, 80, 24)
		d.press("Down", "Enter", "End", "Enter").press(keys...).press("q")
		if d.u.gone {
			t.Errorf("after %q, q leaves at once", keys)
			continue
		}
		d.want("leave; resume it later")
		if d.press("q"); !d.u.gone {
			t.Errorf("after %q, q in the pause does not leave", keys)
		}
	}
	for name, keys := range map[string][]string{"home": {}, "briefing": {"Down", "Enter"}} {
		d := sit(t, 80, 24)
		if d.press(keys...).press("q"); !d.u.gone {
			t.Errorf("%s: q does not leave", name)
		}
	}
}

// TestWhatIsTypedIsKeptOnItsLastPage: what was typed and waits to be agreed to
// is still there after leaving, and going back offers it again.
func TestWhatIsTypedIsKeptOnItsLastPage(t *testing.T) {
	d := sit(t, 80, 24)
	d.press("Down", "Enter", "End", "Enter", "/", "walk", "Enter", "5 min", "Enter").want("Enter does it")
	d.press("q", "q")
	if d.kept.draft != "walk away for 5 min" {
		t.Fatalf("the draft is %q", d.kept.draft)
	}
	s, err := session.Resume(d.record(), 60)
	if err != nil {
		t.Fatal(err)
	}
	again := sit(t, 80, 24)
	again.u.enter(&Attempt{Session: s, Resumed: true, Draft: d.kept.draft})
	again.draw()
	again.want("walk away for 5 min", "Enter does it")

	d = sit(t, 80, 24)
	d.press("Down", "Enter", "End", "Enter", "/", "walk", "Enter", "5 min", "Enter", "Esc").want("> 5 min")
}

// TestANoteThatIsLeftIsKept: Esc, and help on top of it, lose nothing.
func TestANoteThatIsLeftIsKept(t *testing.T) {
	d := sit(t, 80, 24)
	d.press("Down", "Enter", "End", "Enter", "n", "half a sen", "F1").beat(10)
	if d.kept.draft != "write in the notes: half a sen" {
		t.Errorf("under help the draft is %q", d.kept.draft)
	}
	d.press("Esc", "Esc").beat(10).want("n goes on with it")
	if d.kept.draft != "write in the notes: half a sen" {
		t.Errorf("after Esc the draft is %q", d.kept.draft)
	}
	d.press("n").want("half a sen").press("tence", "Enter").settle().press("n").want("half a sentence")
	if d.u.typed().text() != "" {
		t.Errorf("what was written is offered again: %q", d.u.typed().text())
	}
}

// TestALongPasteIsCutAndSaysSo
func TestALongPasteIsCutAndSaysSo(t *testing.T) {
	d := sit(t, 80, 24)
	d.press("Down", "Enter", "End", "Enter", "n", "abc ")
	paste := func(text string) { d.u.PasteHandler()(text, nil); d.draw() }
	paste(strings.Repeat("x", 600))
	if n := len(d.u.typed().text()); n != 604 || d.u.flash != "" {
		t.Errorf("600 characters leave %d, said %q", n, d.u.flash)
	}
	paste(strings.Repeat("\u00e9", 5000))
	text := d.u.typed().text()
	if len(text) < session.LongestTyped-1 || !strings.HasPrefix(text, "abc x") || strings.ContainsRune(text, '\ufffd') {
		t.Errorf("%d bytes are kept", len(text))
	}
	d.want("Only 2000 characters fit here")
	d.press("Enter").settle()
	d.press("n", "one").send(tcell.NewEventKey(tcell.KeyCtrlJ, 0, tcell.ModNone))
	d.press("two").want("one two").press("Esc", "n")
	d.press(strings.Repeat("y", 2001)).want("Only 2000 characters fit here")
	d.press("Esc", "Esc")
	paste("lost")
	d.want("nothing was pasted")
}

// TestChoicesArePickedByTyping
func TestChoicesArePickedByTyping(t *testing.T) {
	d := sit(t, 80, 24)
	d.press("Down", "Enter", "End", "Enter", "/", "put a tour", "Enter").want("> left")
	d.press("ri").want("> right", ": ri").press("Enter").want("put a tourniquet on the right arm")
	d = sit(t, 80, 24)
	d.press("Down", "Enter", "End", "Enter", "/", "tourniquet on right", "Enter").want("> right")
	d = sit(t, 80, 24)
	d.press("Down", "Enter", "End", "Enter", "/", "examine", "Enter", "forearm").want("> left-cephalic-forearm")
}

// TestASlashBeginsTheSearchAnew: in a step's list too.
func TestASlashBeginsTheSearchAnew(t *testing.T) {
	d := sit(t, 80, 24)
	d.press("Down", "Enter", "End", "Enter", "Enter").want("Read the order and the patient:")
	d.press("/", "feel").want("Any step: feel", "> feel around <line>")
}

// TestWhyComesBeforeTheWork: a call that is refused anyway says so at the
// person, and ticks survive.
func TestWhyComesBeforeTheWork(t *testing.T) {
	d := sit(t, 80, 24)
	d.press("Down", "Enter", "End", "Enter", "c")
	people := d.u.s().CallDesk().People
	if len(people) == 0 {
		t.Fatal("nobody to call")
	}
	d.press("Enter", " ", "Down", " ", "Esc", "Enter").want("[x] who", "[x] reason")
	d.press("Esc", "Esc", "/", "hand over", "Enter")
	d.want("Next: ")
	d = sit(t, 80, 24)
	d.press("Down", "Enter", "End", "Enter", "l", "i").want("Not possible now: ")
	if len(d.u.stack) != 2 {
		t.Error("what is impossible was opened all the same")
	}
}

// TestTheLineScreenRemembers, and its lists stop at their ends.
func TestTheLineScreenRemembers(t *testing.T) {
	d := sit(t, 80, 24)
	d.press("Down", "Enter", "End", "Enter", "l", "Left").want("1 of 2").press("Right", "Right", "Right").want("2 of 2")
	d.press("Esc", "l").want("2 of 2")
}

// TestTinyScreensShowTimeAndPressureFirst
func TestTinyScreensShowTimeAndPressureFirst(t *testing.T) {
	for _, size := range [][2]int{{10, 5}, {8, 4}, {20, 6}, {30, 8}} {
		d := sit(t, size[0], size[1])
		d.press("Down", "Enter", "End", "Enter").say("read the order")
		s := d.u.s()
		d.want(s.Board().Clock, s.Board().Mean)
	}
	d := sit(t, 60, 20)
	d.press("Down", "Enter", "End", "Enter").say("read the order")
	d.want("65 to 80 mmHg", "under")
	d.press("c").want("under the target")
}

// TestAFindingIsNeverCut
func TestAFindingIsNeverCut(t *testing.T) {
	const long = "it stings and feels tight and cold all along the arm"
	l := &look{u: sit(t, 80, 24).press("Down", "Enter", "End", "Enter").u}
	r := lookRow{said: "glance at right-dorsal-hand", find: session.Finding{What: "pain", Visits: []string{long}}}
	if got := l.below(r, 24)[0]; got != long {
		t.Errorf("under the table stands %q", got)
	}
	if got := l.below(r, 80)[0]; got != "" {
		t.Errorf("with room in its column it is told twice: %q", got)
	}
}

// TestWhatCameMeanwhileIsTold at the end of an act.
func TestWhatCameMeanwhileIsTold(t *testing.T) {
	d := sit(t, 120, 36)
	d.press("Down", "Enter", "End", "Enter").say("wait until 0:25:30", "wait", "read the notes")
	d.want("Meanwhile: Someone wants you (bed-4)")
}

// TestHomeShowsWhatIsOpenElsewhereAndWhatIsFinished
func TestHomeShowsWhatIsOpenElsewhereAndWhatIsFinished(t *testing.T) {
	d := sit(t, 80, 24)
	o := &d.u.open
	o.Unfinished = append([]session.Recorded{{Path: "busy.jsonl", Title: "The other", Reached: "0:09", InUse: true}}, o.Unfinished...)
	o.Finished = []session.Recorded{{Path: "done.jsonl", Title: "The last", Played: "2026-01-30 21:00"}}
	o.Read = func(path string) (*Attempt, error) {
		_, s := attempt(t, 3)
		s.Stop()
		s.Finish()
		return &Attempt{Session: s, Path: path, Read: true}, nil
	}
	d.draw()
	d.want("open in another window: The other, at 0:09", "read again: The last, finished 2026-01-30 21:00")
	d.press("Home", "Enter").want("Leave it there first")
	d.press("End", "Enter").want("Result:", "Marks").press("End").want("done.jsonl")
	if !d.u.left.Finished || d.kept.ended != nil {
		t.Error("reading it again recorded something")
	}
	d.press("Esc").want("rehearse a vasopressor")
	if d.press("r"); d.u.play == nil || d.u.play.Path != "attempts/screen.jsonl" {
		t.Error("r goes to one that is open elsewhere")
	}
}
