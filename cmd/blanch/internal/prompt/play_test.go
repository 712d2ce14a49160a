package prompt

import (
	"errors"
	"io"
	"strings"
	"testing"
	"time"

	"blanch/cmd/blanch/internal/session"
)

// disk remembers what was recorded, and is full for some of it.
type disk struct {
	said   []string
	drafts []string
	full   func(what string) bool
}

var errFull = errors.New("no space left on device")

func (d *disk) keep(what string) error {
	if d.full != nil && d.full(what) {
		return errFull
	}
	return nil
}

func (d *disk) Do(_ int64, said string) error {
	d.said = append(d.said, said)
	return d.keep("do")
}
func (d *disk) Reached(int64) error { return d.keep("reached") }
func (d *disk) Draft(text string) error {
	d.drafts = append(d.drafts, text)
	return d.keep("draft")
}
func (d *disk) Ended(int64, string, string) error { return d.keep("ended") }

// small begins the small case of the command's own tests, which jumps.
func small(t *testing.T) (*session.Session, *disk) {
	t.Helper()
	src, err := session.Find("../../testdata/files/small.yaml", "")
	if err != nil {
		t.Fatal(err)
	}
	a, err := session.Load(src, 4)
	if err != nil {
		t.Fatal(err)
	}
	s, err := session.New(a, 0)
	if err != nil {
		t.Fatal(err)
	}
	d := &disk{}
	s.Record(d)
	return s, d
}

// typing is a face that reads what was typed.
func typing(t *testing.T, typed string) (*Face, *strings.Builder) {
	t.Helper()
	var out strings.Builder
	f, err := Open(strings.NewReader(typed), &out, Options{})
	if err != nil {
		t.Fatal(err)
	}
	return f, &out
}

// TestADiskFullAtTheEndIsTold: the marks are shown all the same, and nobody
// takes them for saved.
func TestADiskFullAtTheEndIsTold(t *testing.T) {
	s, d := small(t)
	d.full = func(what string) bool { return what == "ended" }
	f, out := typing(t, "read the order\nstop here\nyes\nlooked\nquit\n")
	if err := f.Play(s, false, ""); err != nil {
		t.Fatal(err)
	}
	told := strings.Index(out.String(), "NOT saved from 0:00:30 on: no space left on device")
	if sheet := strings.Index(out.String(), "Result:"); told < 0 || sheet < told {
		t.Errorf("it is not told above the marks:\n%s", out.String())
	}
	if !errors.Is(s.Unsaved(), errFull) {
		t.Errorf("unsaved: %v", s.Unsaved())
	}
}

// TestALongLineIsCutAndTold: what follows it is read as well.
func TestALongLineIsCutAndTold(t *testing.T) {
	for _, n := range []int{session.LongestTyped - len("write in the notes: ") + 1, 70 << 10} {
		s, d := small(t)
		f, out := typing(t, "write in the notes: "+strings.Repeat("x", n)+"\r\nread the order\nquit\n")
		if err := f.Play(s, false, ""); !errors.Is(err, ErrLeft) {
			t.Fatal(err)
		}
		if !strings.Contains(strings.Join(strings.Fields(out.String()), " "), session.TooLong) {
			t.Errorf("%d letters: it is not told:\n%s", n, out.String())
		}
		if len(d.said) != 2 || len(d.said[0]) != session.LongestTyped || d.said[1] != "read the order" {
			t.Errorf("%d letters: %d bytes and %d acts are kept", n, len(d.said[0]), len(d.said))
		}
	}
	s, d := small(t)
	note := "write in the notes: " + strings.Repeat("x", session.LongestTyped-len("write in the notes: "))
	f, out := typing(t, note+"\r\n") // no more follows
	if err := f.Play(s, false, ""); !errors.Is(err, ErrLeft) || strings.Contains(out.String(), "left out") || len(d.said) != 1 || d.said[0] != note {
		t.Errorf("what just fits: %v, %d acts kept", err, len(d.said))
	}
}

// TestLeavingTheBriefing by the words that leave elsewhere.
func TestLeavingTheBriefing(t *testing.T) {
	for _, word := range []string{"quit", "Quit", "q", "Q"} {
		s, _ := small(t)
		f, out := typing(t, word+"\n\n")
		if err := f.Brief(s, "here.jsonl"); !errors.Is(err, ErrLeft) {
			t.Errorf("%q starts the clock: %v\n%s", word, err, out.String())
		}
		f, _ = typing(t, word+"\nread the order\n")
		if err := f.Play(s, false, ""); !errors.Is(err, ErrLeft) || s.View().Clock != "0:00:00" {
			t.Errorf("%q does not leave the play: %v", word, err)
		}
	}
}

// TestNothingOfARecordingReachesTheTerminalRaw: recordings are what people send
// each other.
func TestNothingOfARecordingReachesTheTerminalRaw(t *testing.T) {
	const nasty = "a\x1b]0;owned\x07b\u009b31mc\u202ed"
	s, _ := small(t)
	s.Reflect(0, "quiet")
	f, out := typing(t, "stop here\nyes\njournal\n"+nasty+"\nquit\n")
	if err := f.Play(s, true, nasty); err != nil {
		t.Fatal(err)
	}
	s, _ = small(t)
	s.Reflect(0, nasty)
	g, again := typing(t, "stop here\nyes\njournal\nquit\n")
	if err := g.Play(s, false, ""); err != nil {
		t.Fatal(err)
	}
	h, home := typing(t, "quit\n")
	if _, err := h.Home(nil, []session.Recorded{{Title: nasty}}); !errors.Is(err, ErrLeft) {
		t.Fatal(err)
	}
	for name, text := range map[string]string{"draft and echo": out.String(), "reflection": again.String(), "home": home.String()} {
		if strings.ContainsAny(text, "\x1b\x07\u009b\u202e") {
			t.Errorf("%s: printed raw: %+q", name, text)
		}
		if !strings.Contains(text, "a?]0;owned?b?31mc?d") {
			t.Errorf("%s: not shown at all:\n%s", name, text)
		}
	}
}

// TestTypingIsSavedOnceASecond, however many keys there are.
func TestTypingIsSavedOnceASecond(t *testing.T) {
	var kept []string
	now := time.Unix(0, 0)
	d := drafting{last: now, keep: func(text string) { kept = append(kept, text) }}
	text := ""
	for range 100 { // ten keys a second
		now = now.Add(100 * time.Millisecond)
		text += "x"
		d.typed = true
		d.beat(now, text)
	}
	if len(kept) != 10 || kept[9] != text {
		t.Errorf("%d saves in ten seconds, the last of %d letters", len(kept), len(kept[len(kept)-1]))
	}
	d.beat(now.Add(time.Hour), text)
	if len(kept) != 10 {
		t.Error("what has not changed is saved again")
	}
	d.typed = true
	if d.save(text + "y"); len(kept) != 11 {
		t.Error("nothing is saved at a hold")
	}
	if d.leave(text + "yz"); kept[len(kept)-1] != text+"yz" {
		t.Error("nothing is saved on leaving")
	}
}

// keyboard is an input at which keys are typed faster than anybody can, and
// then Ctrl-C.
type keyboard struct {
	lines chan typed
	keys  chan struct{}
	text  string
}

func (k *keyboard) Ask(string, string) {
	go func() {
		for range 200 {
			k.keys <- struct{}{}
		}
		k.lines <- typed{text: k.text, err: ErrInterrupted}
	}()
}
func (k *keyboard) Lines() <-chan typed     { return k.lines }
func (k *keyboard) Typing() <-chan struct{} { return k.keys }
func (k *keyboard) Text() string            { return k.text }
func (k *keyboard) Prompt(string)           {}
func (k *keyboard) Panics() <-chan any      { return nil }
func (k *keyboard) Close()                  {}

func TestAKeyCostsNoDisk(t *testing.T) {
	s, d := small(t)
	none := func() int { return 0 }
	f := &Face{in: &keyboard{lines: make(chan typed), keys: make(chan struct{}), text: "half a sen"}, out: io.Discard, height: none, width: none}
	if err := f.Play(s, false, ""); !errors.Is(err, ErrInterrupted) {
		t.Fatal(err)
	}
	if n := len(d.drafts); n == 0 || n > 20 || d.drafts[n-1] != "half a sen" {
		t.Errorf("200 keys wrote %d drafts: %q", n, d.drafts)
	}
	s.Stop()
	d.drafts = nil
	if err := f.Play(s, false, ""); !errors.Is(err, ErrInterrupted) {
		t.Fatal(err)
	}
	if n := len(d.drafts); n > 20 || s.Unsaved() != nil {
		t.Errorf("200 keys of a reflection wrote %d drafts", n)
	}
}
