package session

import (
	"errors"
	"strings"
	"testing"
	"time"

	"blanch/sim"
)

// kept remembers a recording, and fails once told to.
type kept struct {
	said    []Said
	reached int64
	draft   string
	ended   *Stored
	full    bool
	endless bool // there is no room for the last line
}

var errFull = errors.New("no space left")

func (k *kept) keep(at int64, f func()) error {
	if k.full {
		return errFull
	}
	if at < k.reached {
		return errors.New("time goes back")
	}
	k.reached = at
	f()
	return nil
}

func (k *kept) Do(at int64, said string) error {
	return k.keep(at, func() { k.said, k.draft = append(k.said, Said{at, said}), "" })
}
func (k *kept) Reached(at int64) error  { return k.keep(at, func() {}) }
func (k *kept) Draft(text string) error { return k.keep(k.reached, func() { k.draft = text }) }
func (k *kept) record(s *Session) Record {
	return Record{Revision: sim.Revision, Seed: s.a.Seed, Source: s.a.Source, Said: k.said, Reached: k.reached, Draft: k.draft, Ended: k.ended}
}
func (k *kept) Ended(at int64, journal, sheet string) error {
	if k.endless {
		return errFull
	}
	return k.keep(at, func() { k.ended = &Stored{at, journal, sheet} })
}

// small begins the small case of the command's own tests.
func small(t *testing.T, speed float64) (*Session, *kept) {
	t.Helper()
	src, err := Find("../../testdata/files/small.yaml", "")
	if err != nil {
		t.Fatal(err)
	}
	a, err := Load(src, 4)
	if err != nil {
		t.Fatal(err)
	}
	s, err := New(a, speed)
	if err != nil {
		t.Fatal(err)
	}
	k := &kept{}
	s.Record(k)
	return s, k
}

// say types lines and lets the clock run to a stand after each, in slices of
// real time.
func say(s *Session, slice time.Duration, typed ...string) string {
	var out strings.Builder
	put := func(lines []Line) {
		for _, l := range lines {
			out.WriteString(strings.TrimSpace(l.At+" "+l.Text) + "\n")
		}
	}
	for _, line := range typed {
		put(s.Handle(line))
		for s.Running() {
			put(s.Pass(slice))
		}
	}
	return out.String()
}

func TestHowRealTimeIsCutMakesNoDifference(t *testing.T) {
	script := []string{"read the order", "examine left-cephalic-forearm", "send for second-nurse", "wait 9 min", "run", "answer bed-4", "wait until 0:29", "stop here", "yes"}
	jump, _ := small(t, 0)
	say(jump, 0, script...)
	want := jump.Finish() + jump.Journal()
	for _, slice := range []time.Duration{7 * time.Millisecond, 100 * time.Millisecond, 999 * time.Millisecond} {
		s, k := small(t, 97)
		say(s, slice, script...)
		if got := s.Finish() + s.Journal(); got != want {
			t.Errorf("in slices of %s the attempt comes to something else:\n%s\nwant:\n%s", slice, got, want)
		}
		again, err := Replay(k.record(s))
		if err != nil || again.Differs != "" || again.Journal != s.Journal() {
			t.Errorf("replay: %v, differs: %s", err, again.Differs)
		}
	}
}

func TestTheClockStandsUnlessMoved(t *testing.T) {
	s, _ := small(t, 60)
	for _, line := range []string{"help", "what", "now", "stock", "policy", "journal", "order", "actions feel", "nonsense", "", "wait", "wait 10", "wait until 0:00", "start pump-1", "help zzz", "what zzz"} {
		s.Handle(line)
		if s.Running() || s.e.Now() != 0 {
			t.Fatalf("after %q the clock is at %s, running %t", line, s.e.Now().Exact(), s.Running())
		}
	}
}

func TestReadingHoldsARunningClock(t *testing.T) {
	for _, line := range []string{"help", "what look", "policy", "", "hold", "nonsense", "stop here"} {
		s, _ := small(t, 60)
		s.Handle("wait 5 min")
		s.Pass(time.Second)
		s.Handle(line)
		if s.Running() {
			t.Errorf("the clock runs on under %q", line)
		}
	}
}

func TestWhatHoldsAWait(t *testing.T) {
	s, _ := small(t, 0)
	out := say(s, 0, "wait 20 min")
	if s.e.Now() != 12*sim.Minute || !strings.Contains(out, "What now?") {
		t.Errorf("a call at 0:12 leaves the clock at %s:\n%s", s.e.Now().Exact(), out)
	}
	if say(s, 0, "wait"); s.e.Now() != 17*sim.Minute {
		t.Errorf("going on, the lapse of the call at 0:17 leaves the clock at %s", s.e.Now().Exact())
	}
	s, _ = small(t, 0)
	if say(s, 0, "walk away for 20 min"); s.e.Now() != 20*sim.Minute {
		t.Errorf("an action goes on whatever happens; the clock is at %s", s.e.Now().Exact())
	}
}

func TestAnActionThatWasHeldGoesOn(t *testing.T) {
	s, _ := small(t, 60)
	s.Handle("walk away for 5 min")
	s.Pass(time.Second)
	s.Handle("")
	if s.Running() || s.e.Now() != sim.Minute {
		t.Fatalf("held: clock at %s, running %t", s.e.Now().Exact(), s.Running())
	}
	out := say(s, time.Second, "")
	if s.e.Now() != 5*sim.Minute || !strings.Contains(out, "Done: walk away for 5 min") {
		t.Errorf("after Enter the clock is at %s:\n%s", s.e.Now().Exact(), out)
	}
}

func TestMarksComeBeforeWhatIsShown(t *testing.T) {
	s, k := small(t, 60)
	s.Handle("wait 11 min")
	for s.Running() {
		before := len(s.entries)
		s.Pass(100 * time.Millisecond)
		if len(s.entries) > before && k.reached < int64(s.entries[len(s.entries)-1].At) {
			t.Fatalf("an entry of %s was shown with %d ms recorded", s.entries[len(s.entries)-1].At.Exact(), k.reached)
		}
		if lost := int64(s.e.Now()) - k.reached; lost > 60_000 {
			t.Fatalf("%d simulated ms are not recorded, more than a real second", lost)
		}
	}
}

func TestResumeStandsWhereItWas(t *testing.T) {
	s, k := small(t, 60)
	say(s, time.Second, "read the order")
	s.Handle("walk away for 5 min")
	s.Pass(2 * time.Second)
	s.Hold()
	s.Draft("take the pr")
	back, err := Resume(k.record(s), 60)
	if err != nil {
		t.Fatal(err)
	}
	if got, want := strings.Join(back.View().Status(), "  "), strings.Join(s.View().Status(), "  "); got != want {
		t.Errorf("resumed at %q, want %q", got, want)
	}
	if Journal(back.entries) != Journal(s.entries) {
		t.Errorf("resumed with\n%s\nwant\n%s", Journal(back.entries), Journal(s.entries))
	}
	if k.draft != "take the pr" || back.Running() {
		t.Errorf("draft %q, running %t", k.draft, back.Running())
	}
}

func TestAFullDiskTakesNothingFromTheLearner(t *testing.T) {
	s, k := small(t, 0)
	k.full = true
	out := say(s, 0, "read the order", "read the notes", "stop here", "yes")
	if n := strings.Count(out, "no longer being saved: no space left"); n != 1 {
		t.Errorf("told %d times, want once:\n%s", n, out)
	}
	if !strings.Contains(s.Finish(), "order-read: met") {
		t.Error("the attempt did not go on")
	}
	if want := "NOT saved from 0:00:00 on: no space left"; s.NotSaved() != want {
		t.Errorf("not saved: %q, want %q", s.NotSaved(), want)
	}
}

// TestADiskFullAtTheEnd: the marks are there, and the debrief says that they
// are not kept.
func TestADiskFullAtTheEnd(t *testing.T) {
	s, k := small(t, 0)
	k.endless = true
	say(s, 0, "read the order", "stop here", "yes")
	if s.Unsaved() != nil || s.NotSaved() != "" {
		t.Errorf("before the end: %v, %q", s.Unsaved(), s.NotSaved())
	}
	marks := s.Debrief("here.jsonl")[0].Lines
	if !errors.Is(s.Unsaved(), errFull) || k.ended != nil {
		t.Errorf("unsaved: %v", s.Unsaved())
	}
	if want := "NOT saved from 0:00:30 on: no space left"; marks[0].Text != want || marks[0].Kind != Fault {
		t.Errorf("the marks begin with %+v, want %q", marks[0], want)
	}
	for _, l := range marks {
		if strings.Contains(l.Text, "here.jsonl") {
			t.Errorf("the debrief sends one to the recording: %q", l.Text)
		}
	}
}

func TestHiddenIsHiddenUntilTheEnd(t *testing.T) {
	s, _ := small(t, 0)
	out := say(s, 0, "choose left-cephalic-forearm with 20 gauge 47.8 mm at 40 degrees", "insert the cannula under ultrasound",
		"mix 4 mg of norepinephrine in 250 mL, adding to the bag", "hang bag-1 on pump-1", "prime pump-1",
		"connect pump-1 to left-cephalic-forearm primed to the tip", "set pump-1 to 12 mL/h", "start pump-1", "wait 2 min", "journal", "now", "stop here", "yes")
	const hidden = "The drug first reached the blood"
	if strings.Contains(out, hidden) {
		t.Errorf("hidden truth was shown:\n%s", out)
	}
	if !strings.Contains(s.Journal(), "(not shown) "+hidden) {
		t.Errorf("the journal of the end lacks it:\n%s", s.Journal())
	}
	if out := say(s, 0, "read the notes"); !strings.Contains(out, "the case has ended") {
		t.Errorf("after the end: %s", out)
	}
}

// TestAFinishedAttemptIsReadAgain: its debrief is the one it ended with.
func TestAFinishedAttemptIsReadAgain(t *testing.T) {
	s, k := small(t, 0)
	say(s, 0, "read the order", "stop here", "yes")
	if _, err := Read(k.record(s)); err == nil {
		t.Error("an attempt without marks is read")
	}
	s.Reflect(0, "looked")
	s.Finish()
	again, err := Read(k.record(s))
	if err != nil {
		t.Fatal(err)
	}
	text := func(s *Session) (out string) {
		for _, p := range s.Debrief("here.jsonl") {
			for _, l := range p.Lines {
				out += l.Text + "\n"
			}
		}
		return out
	}
	if text(again) != text(s) || !again.Over() {
		t.Errorf("read again:\n%s\nwas:\n%s", text(again), text(s))
	}
	if !strings.Contains(text(s), "The recording lies in here.jsonl") {
		t.Error("the debrief does not say where the recording lies")
	}
	other := k.record(s)
	other.Revision++
	if _, err := Read(other); err == nil {
		t.Error("an attempt of another engine revision is made again")
	}
}

func TestCompletion(t *testing.T) {
	s, _ := small(t, 0)
	for typed, want := range map[string]string{
		"wa":                                 "wait",
		"examine ":                           "examine left-cephalic-forearm",
		"read the o":                         "read the order",
		"choose left-cephalic-forearm with ": "choose left-cephalic-forearm with 20 gauge ",
	} {
		found := false
		for _, line := range s.Complete(typed) {
			found = found || line == want
		}
		if !found {
			t.Errorf("Complete(%q) = %q, want %q among them", typed, s.Complete(typed), want)
		}
	}
}
