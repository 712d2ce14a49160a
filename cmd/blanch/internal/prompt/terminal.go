package prompt

import (
	"errors"
	"io"
	"os"
	"sync"
	"time"

	"github.com/chzyer/readline"

	"blanch/cmd/blanch/internal/session"
)

// guarded lets completion, which runs while a line is being read, look at the
// session that the clock moves meanwhile.
type guarded struct {
	mu sync.Mutex
	s  *session.Session
}

// with runs f while nothing else touches the session.
func (g *guarded) with(f func()) {
	g.mu.Lock()
	defer g.mu.Unlock()
	f()
}

func (g *guarded) complete(line string) []string {
	g.mu.Lock()
	defer g.mu.Unlock()
	if g.s == nil {
		return nil
	}
	return g.s.Complete(line)
}

// terminal reads lines with editing and completion.
type terminal struct {
	rl     *readline.Instance
	lines  chan typed
	typing chan struct{}
	panics chan any

	mu      sync.Mutex
	text    string
	long    bool // more was typed than there is room for
	reading bool
}

// openTerminal makes f a terminal's face.
func (f *Face) openTerminal(in, out *os.File) error {
	t := &terminal{lines: make(chan typed, 1), typing: make(chan struct{}, 1), panics: make(chan any, 1)}
	config := &readline.Config{
		Stdin: readline.NewCancelableStdin(in), Stdout: out, Stderr: out,
		HistoryLimit: 200, InterruptPrompt: "\n", EOFPrompt: "\n",
		AutoComplete: completer{t, f.complete},
		Listener:     readline.FuncListener(t.listen),
		FuncFilterInputRune: func(r rune) (rune, bool) {
			return r, r != readline.CharCtrlZ
		},
		FuncGetWidth: func() int {
			if w, _, err := readline.GetSize(int(out.Fd())); err == nil && w > 0 {
				return w
			}
			return 80
		},
	}
	rl, err := readline.NewEx(config)
	if err != nil {
		return err
	}
	t.rl = rl
	f.in, f.out, f.live = t, rl.Stdout(), true
	f.width = config.FuncGetWidth
	f.height = func() int {
		_, h, err := readline.GetSize(int(out.Fd()))
		if err != nil {
			return 0
		}
		return h
	}
	return nil
}

// Ask goes on with the line being read when there is one: a case can end
// while somebody types.
func (t *terminal) Ask(prompt, text string) {
	if t.begun() {
		t.Prompt(prompt)
		return
	}
	t.set(text)
	t.rl.SetPrompt(prompt)
	go func() {
		defer t.caught()
		line, err := t.rl.ReadlineWithDefault(text)
		long := t.over()
		switch {
		case errors.Is(err, readline.ErrInterrupt):
			err = ErrInterrupted
		case err != nil:
			err = io.EOF
		}
		t.lines <- typed{line, long, err}
	}()
}

func (t *terminal) Lines() <-chan typed     { return t.lines }
func (t *terminal) Typing() <-chan struct{} { return t.typing }
func (t *terminal) Panics() <-chan any      { return t.panics }

// Text is what stands on the line being read.
func (t *terminal) Text() string {
	t.mu.Lock()
	defer t.mu.Unlock()
	return t.text
}

// begun marks that a line is being read, and reports whether one was already.
func (t *terminal) begun() bool {
	t.mu.Lock()
	defer t.mu.Unlock()
	was := t.reading
	t.reading = true
	return was
}

// over marks that the line has been read, and reports whether it was cut.
func (t *terminal) over() (long bool) {
	t.mu.Lock()
	defer t.mu.Unlock()
	long = t.long
	t.reading, t.text, t.long = false, "", false
	return long
}

func (t *terminal) set(text string) {
	t.mu.Lock()
	defer t.mu.Unlock()
	t.text = text
}

func (t *terminal) Prompt(prompt string) {
	t.rl.SetPrompt(prompt)
	t.rl.Refresh()
}

// listen hears of every key, and cuts off what there is no room for.
func (t *terminal) listen(line []rune, pos int, key rune) ([]rune, int, bool) {
	if key == 0 {
		return nil, 0, false // a line begins to be read
	}
	text, whole := session.Fitting(string(line))
	t.mu.Lock()
	t.text, t.long = text, t.long || !whole
	t.mu.Unlock()
	select {
	case t.typing <- struct{}{}:
	default:
	}
	if whole {
		return nil, 0, false
	}
	line = []rune(text)
	return line, min(pos, len(line)), true
}

// caught hands a panic of a reading goroutine to the one that can put the
// terminal right.
func (t *terminal) caught() {
	if p := recover(); p != nil {
		select {
		case t.panics <- p:
		default:
		}
	}
}

// Close puts the terminal right. A read that does not come back must not keep
// the program from ending.
func (t *terminal) Close() {
	done := make(chan struct{})
	go func() {
		defer close(done)
		t.rl.Close()
	}()
	select {
	case <-done:
	case <-time.After(300 * time.Millisecond):
	}
	t.rl.Terminal.ExitRawMode()
}

// completer offers whole sentences.
type completer struct {
	t     *terminal
	offer func(line string) []string
}

// Do returns what could follow the line up to the cursor; length is how much
// before the cursor is shown with each, here the word being typed.
func (c completer) Do(line []rune, pos int) (out [][]rune, length int) {
	defer c.t.caught()
	before := line[:pos]
	for _, whole := range c.offer(string(before)) {
		if r := []rune(whole); len(r) > len(before) {
			out = append(out, r[len(before):])
		}
	}
	for length < len(before) && before[len(before)-1-length] != ' ' {
		length++
	}
	return out, length
}
