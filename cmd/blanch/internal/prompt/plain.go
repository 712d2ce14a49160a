package prompt

import (
	"bufio"
	"errors"
	"io"
	"strings"

	"blanch/cmd/blanch/internal/session"
)

// plain reads lines from anything and writes prompts as text.
type plain struct {
	in    *bufio.Reader
	out   io.Writer
	echo  bool // nothing else shows what was read
	lines chan typed
}

func newPlain(in io.Reader, out io.Writer, echo bool) *plain {
	return &plain{in: bufio.NewReader(in), out: out, echo: echo, lines: make(chan typed, 1)}
}

func (p *plain) Ask(prompt, text string) {
	if text != "" {
		io.WriteString(p.out, "(you were typing: "+session.Harmless(text)+")\n")
	}
	io.WriteString(p.out, prompt)
	go func() {
		t := p.read()
		switch {
		case t.err != nil:
			io.WriteString(p.out, "\n")
		case p.echo:
			io.WriteString(p.out, session.Harmless(t.text)+"\n")
		}
		p.lines <- t
	}()
}

// read reads one line. Of a long one it keeps as much as there is room for, and
// reads on to its end, so that the next line is the next one.
func (p *plain) read() typed {
	var kept []byte
	long, begun := false, false
	for {
		part, err := p.in.ReadSlice('\n')
		begun = begun || len(part) > 0
		room := session.LongestTyped + len("\r\n") - len(kept)
		if len(part) > room {
			part, long = part[:max(0, room)], true
		}
		kept = append(kept, part...)
		if errors.Is(err, bufio.ErrBufferFull) {
			continue
		}
		if err != nil && !begun {
			return typed{err: io.EOF}
		}
		line := strings.TrimSuffix(strings.TrimSuffix(string(kept), "\n"), "\r")
		return typed{text: strings.ToValidUTF8(line, ""), long: long}
	}
}

func (p *plain) Lines() <-chan typed     { return p.lines }
func (p *plain) Typing() <-chan struct{} { return nil }
func (p *plain) Text() string            { return "" }
func (p *plain) Prompt(string)           {}
func (p *plain) Panics() <-chan any      { return nil }
func (p *plain) Close()                  {}
