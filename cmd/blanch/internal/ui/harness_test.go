package ui

import (
	"errors"
	"flag"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"github.com/gdamore/tcell/v2"

	"blanch/cmd/blanch/internal/session"
)

var update = flag.Bool("update", false, "write the expected screens anew")

func TestMain(m *testing.M) {
	setASCII() // tview has one set of borders; the expected screens are ASCII
	os.Exit(m.Run())
}

// hand holds a screen and presses its keys, without an event loop.
type hand struct {
	t      testing.TB
	u      *UI
	screen tcell.SimulationScreen
	kept   *memory
	now    time.Time
}

// memory remembers a recording.
type memory struct {
	full    func(what string) bool // the disk has no room for it; nil for never
	said    []session.Said
	reached int64
	draft   string
	ended   *session.Stored
}

var errFull = errors.New("no space left on device")

func (m *memory) room(what string) error {
	if m.full != nil && m.full(what) {
		return errFull
	}
	return nil
}

func (m *memory) Do(at int64, said string) error {
	if err := m.room("do"); err != nil {
		return err
	}
	m.said, m.draft = append(m.said, session.Said{At: at, Text: said}), ""
	m.reached = at
	return nil
}
func (m *memory) Reached(at int64) error {
	if err := m.room("reached"); err != nil {
		return err
	}
	m.reached = at
	return nil
}
func (m *memory) Draft(text string) error {
	if err := m.room("draft"); err != nil {
		return err
	}
	m.draft = text
	return nil
}
func (m *memory) Ended(at int64, journal, sheet string) error {
	if err := m.room("ended"); err != nil {
		return err
	}
	m.ended = &session.Stored{At: at, Journal: journal, Sheet: sheet}
	return nil
}

func attempt(t testing.TB, seed uint64) (*session.Attempt, *session.Session) {
	t.Helper()
	src, err := session.Find("testdata/screen.yaml", "")
	if err != nil {
		t.Fatal(err)
	}
	a, err := session.Load(src, seed)
	if err != nil {
		t.Fatal(err)
	}
	s, err := session.New(a, 60)
	if err != nil {
		t.Fatal(err)
	}
	return a, s
}

// sit opens a screen at home, with one case and one attempt to resume.
func sit(t testing.TB, w, h int) *hand {
	t.Helper()
	k := &memory{}
	begin := func(string) (*Attempt, error) {
		_, s := attempt(t, 3)
		return &Attempt{Session: s, Path: "attempts/screen.jsonl", Start: func() error { s.Record(k); return nil }}, nil
	}
	o := Opening{
		Cases:      []session.Listed{{ID: "screen", Title: "A bridge for the screen", Track: "nurse", Status: "draft", Minutes: "10 min", Summary: "Norepinephrine must start now, and the only drip is a small one in the hand."}},
		Unfinished: []session.Recorded{{Path: "attempts/old.jsonl", Title: "A bridge for the screen", Reached: "0:21", Played: "2026-01-31 22:10"}},
		Begin:      begin,
		Resume: func(string) (*Attempt, error) {
			a, err := begin("")
			a.Start, a.Resumed = nil, true
			a.Session.Record(k)
			return a, err
		},
	}
	hd := &hand{t: t, u: newUI(o, Options{ASCII: true, NoColour: true}), kept: k, screen: tcell.NewSimulationScreen("UTF-8"), now: time.Unix(0, 0)}
	if err := hd.screen.Init(); err != nil {
		t.Fatal(err)
	}
	t.Cleanup(hd.screen.Fini)
	hd.screen.SetSize(w, h)
	hd.u.beatAt = hd.now
	return hd
}

var named = map[string]tcell.Key{
	"Enter": tcell.KeyEnter, "Esc": tcell.KeyEscape, "Up": tcell.KeyUp, "Down": tcell.KeyDown, "Left": tcell.KeyLeft, "Right": tcell.KeyRight,
	"PgUp": tcell.KeyPgUp, "PgDn": tcell.KeyPgDn, "Home": tcell.KeyHome, "End": tcell.KeyEnd, "Tab": tcell.KeyTab, "Backtab": tcell.KeyBacktab,
	"F1": tcell.KeyF1, "Ctrl-C": tcell.KeyCtrlC, "Backspace": tcell.KeyBackspace2, "Delete": tcell.KeyDelete,
}

// press presses keys: names such as Enter, and any other text letter by
// letter.
func (d *hand) press(keys ...string) *hand {
	for _, k := range keys {
		if code, ok := named[k]; ok {
			d.send(tcell.NewEventKey(code, 0, tcell.ModNone))
			continue
		}
		for _, r := range k {
			d.send(tcell.NewEventKey(tcell.KeyRune, r, tcell.ModNone))
		}
	}
	return d
}

func keyOf(r rune) *tcell.EventKey { return tcell.NewEventKey(tcell.KeyRune, r, tcell.ModNone) }

func (d *hand) send(ev *tcell.EventKey) {
	if !d.u.gone {
		d.u.key(ev)
		d.draw()
	}
}

func (d *hand) draw() {
	d.screen.Clear()
	d.u.Draw(d.screen)
	d.screen.Show()
}

// beat lets real time pass, a tenth of a second at a time.
func (d *hand) beat(n int) *hand {
	for range n {
		d.now = d.now.Add(beat)
		d.u.tick(d.now)
		d.draw()
	}
	return d
}

// settle lets time pass, quickly, until the clock stands.
func (d *hand) settle() *hand {
	d.t.Helper()
	s := d.u.s()
	speed := s.Speed()
	for range 10_000 {
		if !s.Running() {
			s.SetSpeed(speed)
			d.draw()
			return d
		}
		if d.u.stands() {
			d.draw()
			d.t.Fatalf("the clock stands under what is open:\n%s", d.text())
		}
		s.SetSpeed(600)
		d.now = d.now.Add(beat)
		d.u.tick(d.now)
	}
	d.t.Fatal("the clock does not come to a stand")
	return d
}

// say says sentences past the menus, each to its end.
func (d *hand) say(said ...string) *hand {
	for _, s := range said {
		d.u.say(s)
		d.settle()
	}
	d.draw()
	return d
}

// text is the whole screen.
func (d *hand) text() string {
	cells, w, h := d.screen.GetContents()
	var b strings.Builder
	for y := range h {
		var row strings.Builder
		for x := range w {
			if r := cells[y*w+x].Runes; len(r) > 0 {
				row.WriteString(string(r))
			} else {
				row.WriteByte(' ')
			}
		}
		b.WriteString(strings.TrimRight(row.String(), " ") + "\n")
	}
	return b.String()
}

func (d *hand) want(parts ...string) *hand {
	d.t.Helper()
	text := d.text()
	for _, p := range parts {
		if !strings.Contains(text, p) {
			d.t.Errorf("not on the screen: %q\n%s", p, text)
		}
	}
	return d
}

// shot holds the screen to an expected one.
func (d *hand) shot(name string) *hand {
	d.t.Helper()
	d.draw()
	path := filepath.Join("testdata", "screens", name+".txt")
	got := d.text()
	if *update {
		if err := os.WriteFile(path, []byte(got), 0o600); err != nil {
			d.t.Fatal(err)
		}
		return d
	}
	want, err := os.ReadFile(path)
	if err != nil {
		d.t.Errorf("%v; go test ./cmd/blanch/internal/ui -update writes it", err)
		return d
	}
	if string(want) != got {
		d.t.Errorf("%s differs; got\n%s\nwant\n%s", name, got, want)
	}
	return d
}
