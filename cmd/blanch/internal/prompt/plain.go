package prompt

import (
	"bufio"
	"fmt"
	"io"
	"strings"
)

// longestLine bounds what is read as one line, in bytes.
const longestLine = 64 << 10

// plain reads lines from anything and writes prompts as text.
type plain struct {
	scan  *bufio.Scanner
	out   io.Writer
	echo  bool // nothing else shows what was read
	lines chan typed
}

func newPlain(in io.Reader, out io.Writer, echo bool) *plain {
	p := &plain{scan: bufio.NewScanner(in), out: out, echo: echo, lines: make(chan typed, 1)}
	p.scan.Buffer(make([]byte, 0, 4096), longestLine)
	return p
}

func (p *plain) Ask(prompt, text string) {
	if text != "" {
		fmt.Fprintf(p.out, "(you were typing: %s)\n", text)
	}
	io.WriteString(p.out, prompt)
	go func() {
		if !p.scan.Scan() {
			io.WriteString(p.out, "\n")
			p.lines <- typed{err: io.EOF}
			return
		}
		line := strings.ToValidUTF8(p.scan.Text(), "")
		if p.echo {
			io.WriteString(p.out, line+"\n")
		}
		p.lines <- typed{text: line}
	}()
}

func (p *plain) Lines() <-chan typed     { return p.lines }
func (p *plain) Typing() <-chan struct{} { return nil }
func (p *plain) Text() string            { return "" }
func (p *plain) Prompt(string)           {}
func (p *plain) Panics() <-chan any      { return nil }
func (p *plain) Close()                  {}
