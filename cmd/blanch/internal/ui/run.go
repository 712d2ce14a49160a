package ui

import (
	"errors"
	"fmt"
	"os"
	"runtime/debug"
	"time"

	"github.com/gdamore/tcell/v2"
	"github.com/rivo/tview"

	"blanch/cmd/blanch/internal/quiz"
	"blanch/cmd/blanch/internal/session"
)

// ErrInterrupted is returned after Ctrl-C or a signal to end.
var ErrInterrupted = errors.New("interrupted")

// ErrNoScreen is returned when the terminal cannot be drawn on, or is lost.
var ErrNoScreen = errors.New("the terminal fails")

// PanicError is a fault in the program itself. The terminal is whole.
type PanicError struct {
	Value any
	Stack string
}

func (e *PanicError) Error() string { return fmt.Sprintf("a fault in the program: %v", e.Value) }

// Options choose how the screen behaves.
type Options struct {
	ASCII    bool             // bytes below 128 only
	NoColour bool             // to begin with; a key switches it
	Signals  <-chan os.Signal // any value of it ends the play; may be nil
	Screen   tcell.Screen     // nil for the terminal

	drawn func(tcell.Screen) // hears of every frame, in tests
}

// Opening is what the screen opens at.
type Opening struct {
	Cases      []session.Listed
	Unfinished []session.Recorded
	Begin      func(id string) (*Attempt, error)
	Resume     func(path string) (*Attempt, error)
	Finished   []session.Recorded // the last ones, to read again
	Read       func(path string) (*Attempt, error)
	Refresh    func() (unfinished, finished []session.Recorded) // what there is by now, on coming back home; may be nil
	First      *Attempt                                         // goes straight there, past home
	Quiz       func(unit int) (*quiz.Sitting, error)            // begins a sitting of questions of one unit, counted from 1, or of all with 0; nil where there are none
	Study      func() (quiz.Study, error)                       // how far the units are; with Quiz
	Sitting    *quiz.Sitting                                    // goes straight to these questions, past home
}

// Attempt is one attempt with its recording.
type Attempt struct {
	Session *session.Session
	Path    string       // of the recording
	Start   func() error // begins to record; nil once that has been done
	Resumed bool
	Read    bool   // finished before, and opened to be read
	Draft   string // what was being typed when it was left
}

// Left is how the screen was left.
type Left struct {
	Attempt  *Attempt // that was under way or is finished; nil when none was begun
	Finished bool

	err error
}

// Run shows the screen until it is left.
func Run(o Opening, opt Options) (left Left, err error) {
	if opt.ASCII {
		setASCII()
	}
	u := newUI(o, opt)
	u.app = tview.NewApplication()
	if opt.Screen != nil {
		u.app.SetScreen(opt.Screen)
	}
	u.app.EnablePaste(true).SetRoot(u, true).SetInputCapture(func(ev *tcell.EventKey) *tcell.EventKey {
		if ev.Key() == tcell.KeyCtrlC { // tview would stop at once
			u.key(ev)
			return nil
		}
		return ev
	})
	if opt.drawn != nil {
		u.app.SetAfterDrawFunc(opt.drawn)
	}
	defer func() {
		if p := recover(); p != nil {
			err = &PanicError{p, string(debug.Stack())}
		}
		u.close()
		left = u.left
	}()
	u.beatAt = time.Now()
	go u.pump(opt.Signals)
	if err := u.app.Run(); err != nil {
		return u.left, fmt.Errorf("%w: %w", ErrNoScreen, err)
	}
	if u.panicked != nil {
		return u.left, u.panicked.(*PanicError)
	}
	return u.left, u.left.err
}

// pump brings the time and the signals into the event loop. It is the only
// goroutine beside that loop, and nothing but an update leaves it.
func (u *UI) pump(signals <-chan os.Signal) {
	defer func() {
		if p := recover(); p != nil {
			u.panicked = &PanicError{p, string(debug.Stack())}
			go u.app.Stop()
		}
		close(u.over)
	}()
	tick := time.NewTicker(beat)
	defer tick.Stop()
	for {
		select {
		case <-u.quit:
			return
		case <-signals:
			u.app.QueueUpdate(func() { u.leave(ErrInterrupted) })
			return
		case now := <-tick.C:
			drawn := false
			u.app.QueueUpdate(func() { drawn = !u.gone && u.tick(now) })
			if drawn {
				u.app.Draw()
			}
		}
	}
}

// leave ends the application once the other goroutine has: an update that
// nobody takes would hold it for ever.
func (u *UI) leave(why error) {
	if u.gone {
		return
	}
	u.gone = true
	u.left.err = why
	u.keepAll()
	close(u.quit)
	if u.app == nil {
		return
	}
	go func() {
		<-u.over
		u.app.Stop()
	}()
}

// keepAll records where the attempt stands and what is being typed.
func (u *UI) keepAll() {
	if u.play == nil || u.play.Start != nil {
		return
	}
	u.left.Attempt = u.play
	u.draft()
	if !u.s().Over() {
		u.s().Stand()
	}
}

// close is for ends that did not come through leave: a lost terminal, a
// panic. The other goroutine may wait in vain for the event loop then, and
// ends with the program.
func (u *UI) close() {
	if u.gone {
		return
	}
	u.gone = true
	close(u.quit)
	defer func() { recover() }() // after a fault keeping may fail as well; what was kept before stands
	u.keepAll()
}

// setASCII keeps to bytes below 128. tview has one set of borders for the
// whole program.
func setASCII() {
	tview.Borders.Horizontal = '-'
	tview.Borders.Vertical = '|'
	tview.Borders.TopLeft, tview.Borders.TopRight = '+', '+'
	tview.Borders.BottomLeft, tview.Borders.BottomRight = '+', '+'
}
