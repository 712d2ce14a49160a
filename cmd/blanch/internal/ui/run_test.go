package ui

import (
	"errors"
	"os"
	"strings"
	"sync"
	"syscall"
	"testing"
	"time"

	"github.com/gdamore/tcell/v2"
)

// loop runs the real application on a simulated screen.
type loop struct {
	t       *testing.T
	screen  tcell.SimulationScreen
	signals chan os.Signal
	done    chan struct{}
	mu      sync.Mutex
	frame   string // the last one
	left    Left
	err     error
}

func begin(t *testing.T, o Opening) *loop {
	t.Helper()
	l := &loop{t: t, screen: tcell.NewSimulationScreen("UTF-8"), signals: make(chan os.Signal, 1), done: make(chan struct{})}
	go func() {
		defer close(l.done)
		l.left, l.err = Run(o, Options{ASCII: true, NoColour: true, Screen: l.screen, Signals: l.signals, drawn: l.drawn})
	}()
	return l
}

func (l *loop) wait() {
	l.t.Helper()
	select {
	case <-l.done:
	case <-time.After(20 * time.Second):
		l.t.Fatal("the screen does not end")
	}
}

// drawn keeps the frame, in the event loop.
func (l *loop) drawn(screen tcell.Screen) {
	w, h := screen.Size()
	var b strings.Builder
	for y := range h {
		for x := range w {
			r, _, _ := screen.Get(x, y)
			b.WriteString(r)
		}
		b.WriteByte('\n')
	}
	l.mu.Lock()
	defer l.mu.Unlock()
	l.frame = b.String()
}

// see waits for a text.
func (l *loop) see(part string) {
	l.t.Helper()
	frame := ""
	for end := time.Now().Add(10 * time.Second); time.Now().Before(end); time.Sleep(5 * time.Millisecond) {
		l.mu.Lock()
		frame = l.frame
		l.mu.Unlock()
		if strings.Contains(frame, part) {
			return
		}
	}
	l.t.Fatalf("waited in vain for %q:\n%s", part, frame)
}

func first(t *testing.T) (Opening, *memory) {
	_, s := attempt(t, 3)
	k := &memory{}
	s.Record(k)
	return Opening{First: &Attempt{Session: s, Path: "x.jsonl", Resumed: true}}, k
}

func TestRunEndsByEveryWayOut(t *testing.T) {
	for name, c := range map[string]struct {
		leave func(l *loop)
		want  error
	}{
		"q": {func(l *loop) {
			l.screen.InjectKey(tcell.KeyRune, 'q', tcell.ModNone)
			l.see("The clock stands. Everything")
			l.screen.InjectKey(tcell.KeyRune, 'q', tcell.ModNone)
		}, nil},
		"Ctrl-C":    {func(l *loop) { l.screen.InjectKey(tcell.KeyCtrlC, 0, tcell.ModCtrl) }, ErrInterrupted},
		"terminate": {func(l *loop) { l.signals <- syscall.SIGTERM }, ErrInterrupted},
		"hang up":   {func(l *loop) { l.signals <- syscall.SIGHUP }, ErrInterrupted},
	} {
		t.Run(name, func(t *testing.T) {
			o, k := first(t)
			l := begin(t, o)
			l.see("mean pressure")
			l.screen.InjectKey(tcell.KeyRune, ' ', tcell.ModNone)
			l.see("0:00:1")
			c.leave(l)
			l.wait()
			if !errors.Is(l.err, c.want) || l.left.Attempt == nil || l.left.Finished {
				t.Errorf("left with %v, %+v", l.err, l.left)
			}
			if k.reached < 10_000 {
				t.Errorf("%d ms are recorded, want at least the 10 s that were shown", k.reached)
			}
		})
	}
}

// TestAPanicLeavesTheTerminalWhole: one in the event loop comes back as an
// error with its stack, and the attempt is left where it stood.
func TestAPanicLeavesTheTerminalWhole(t *testing.T) {
	o, _ := first(t)
	o.First = nil
	o.Begin = func(string) (*Attempt, error) { panic("broken on purpose") }
	o.Cases = sit(t, 80, 24).u.open.Cases
	l := begin(t, o)
	l.see("blanch")
	l.screen.InjectKey(tcell.KeyEnter, 0, tcell.ModNone)
	l.wait()
	var fault *PanicError
	if !errors.As(l.err, &fault) || !strings.Contains(fault.Stack, "TestAPanic") || fault.Value != "broken on purpose" {
		t.Errorf("the error is %v", l.err)
	}
}

// TestALostScreen: when the terminal goes away the screen ends and what was
// being done is kept.
func TestALostScreen(t *testing.T) {
	o, k := first(t)
	l := begin(t, o)
	l.see("mean pressure")
	l.screen.InjectKey(tcell.KeyRune, 'n', tcell.ModNone)
	l.screen.InjectKey(tcell.KeyRune, 'y', tcell.ModNone)
	l.see("Write:")
	if err := l.screen.PostEvent(tcell.NewEventError(errors.New("input/output error"))); err != nil {
		t.Fatal(err)
	}
	l.wait()
	if l.err == nil || l.left.Attempt == nil || k.draft != "write in the notes: y" {
		t.Errorf("left with %v, %+v, draft %q", l.err, l.left, k.draft)
	}
}
