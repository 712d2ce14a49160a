package prompt

import (
	"errors"
	"fmt"
	"io"
	"os"
	"strings"
	"time"

	"github.com/chzyer/readline"

	"blanch/cmd/blanch/internal/session"
)

// ErrLeft is returned when whoever sits there left before the end: with quit,
// or because there is no more to read.
var ErrLeft = errors.New("left before the end")

// ErrInterrupted is returned after Ctrl-C or a signal to end.
var ErrInterrupted = errors.New("interrupted")

// Options choose how a face behaves.
type Options struct {
	Plain   bool             // plain lines also on a terminal, for screen readers
	Signals <-chan os.Signal // any value of it ends the play; may be nil
}

// Face is one place to type at.
type Face struct {
	in      input
	out     io.Writer
	live    bool // a terminal: the clock may run in real time
	height  func() int
	width   func() int // 0 where nobody knows
	signals <-chan os.Signal
	guarded
	more []string          // rows that did not fit
	keep func(text string) // saves what is typed in a conversation; nil for nothing
}

// input reads lines, one for each Ask.
type input interface {
	// Ask begins to read a line, with text already typed. The line comes
	// through Lines.
	Ask(prompt, text string)
	Lines() <-chan typed
	// Typing tells that what is being typed has changed; Text is what it is.
	Typing() <-chan struct{}
	Text() string
	// Prompt changes the prompt of a line being read.
	Prompt(prompt string)
	Panics() <-chan any
	Close()
}

// typed is a line that was read, or why there is none.
type typed struct {
	text string
	long bool  // more was typed than there is room for
	err  error // io.EOF or ErrInterrupted; text is then what stood on the line
}

// OnTerminal says that both ends are a terminal.
func OnTerminal(stdin io.Reader, stdout io.Writer) bool {
	in, inOK := stdin.(*os.File)
	out, outOK := stdout.(*os.File)
	return inOK && outOK && readline.IsTerminal(int(in.Fd())) && readline.IsTerminal(int(out.Fd()))
}

// Open readies a face. It is a terminal's when both ends are one.
func Open(stdin io.Reader, stdout io.Writer, o Options) (*Face, error) {
	f := &Face{signals: o.Signals, height: func() int { return 0 }, width: func() int { return 0 }}
	if !o.Plain && OnTerminal(stdin, stdout) {
		if err := f.openTerminal(stdin.(*os.File), stdout.(*os.File)); err != nil {
			return nil, err
		}
		return f, nil
	}
	in, inOK := stdin.(*os.File)
	echo := !inOK || !readline.IsTerminal(int(in.Fd()))
	f.in, f.out = newPlain(stdin, stdout, echo), stdout
	return f, nil
}

// narrow says that a long prompt would fold and be written again on every
// beat.
func (f *Face) narrow() bool {
	const room = 60 // the prompt with a few words
	w := f.width()
	return w > 0 && w < room
}

// Live says that the clock can run in real time here.
func (f *Face) Live() bool { return f.live }

// Close gives the terminal back as it was found.
func (f *Face) Close() { f.in.Close() }

// put writes rows.
func (f *Face) put(rows ...string) {
	if len(rows) > 0 {
		io.WriteString(f.out, session.Harmless(strings.Join(rows, "\n"))+"\n")
	}
}

// say writes lines.
func (f *Face) say(lines ...session.Line) { f.put(renderAll(lines)...) }

// Say folds and writes a text.
func (f *Face) Say(format string, args ...any) { f.put(wrap("", "", fmt.Sprintf(format, args...))...) }

// page writes rows as far as the screen goes and keeps the rest for turn.
func (f *Face) page(rows []string) {
	room := f.height() - 4
	if room < 5 || len(rows) <= room+1 {
		f.more = nil
		f.put(rows...)
		return
	}
	f.put(rows[:room]...)
	f.more = rows[room:]
}

// turn shows the next page; false when there is none.
func (f *Face) turn() bool {
	if len(f.more) == 0 {
		return false
	}
	f.page(f.more)
	return true
}

const moreMark = "(Enter for more) "

// ask asks one line of a conversation in which no clock runs.
func (f *Face) ask(prompt, draft string) (string, error) {
	for {
		p := prompt
		if len(f.more) > 0 {
			p = moreMark + prompt
		}
		f.in.Ask(p, draft)
		draft = ""
		t, err := f.await()
		switch {
		case err != nil:
			return "", err
		case t == "" && f.turn():
			continue
		}
		f.more = nil
		return t, nil
	}
}

// await waits for the line that was asked for.
func (f *Face) await() (string, error) {
	drafts := drafting{last: time.Now(), keep: f.keep}
	tick := time.NewTicker(draftEvery)
	defer tick.Stop()
	for {
		select {
		case <-f.signals:
			drafts.leave(f.in.Text())
			return "", ErrInterrupted
		case p := <-f.in.Panics():
			panic(p)
		case <-f.in.Typing():
			drafts.typed = true
		case now := <-tick.C:
			drafts.beat(now, f.in.Text())
		case t := <-f.in.Lines():
			if t.err != nil {
				drafts.leave(t.text)
				return "", leaving(t.err)
			}
			return strings.TrimSpace(f.fitting(t)), nil
		}
	}
}

// fitting is a line as far as there is room for one. What was left out is told.
func (f *Face) fitting(t typed) string {
	text, whole := session.Fitting(t.text)
	if t.long || !whole {
		f.Say("%s", session.TooLong)
	}
	return text
}

// leaves says that a line asks for the way out.
func leaves(line string) bool {
	line = strings.TrimSpace(line)
	return strings.EqualFold(line, "quit") || strings.EqualFold(line, "q")
}

func leaving(err error) error {
	if errors.Is(err, io.EOF) {
		return ErrLeft
	}
	return err
}
