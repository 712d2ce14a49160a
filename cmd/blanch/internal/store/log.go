package store

import (
	"bytes"
	"errors"
	"fmt"
	"io"
	"os"
)

// Log is what a recording holds.
type Log struct {
	Head    Head
	Lines   []Line // in order, drafts left out
	Draft   string // the last draft after the last action, "" for none
	Reached int64  // latest time of any line, in milliseconds
	Ended   *Ended // nil while the attempt is unfinished
	Torn    int    // bytes of an append that never finished, dropped
}

// errNoHead is a file whose first append never finished: nothing was begun.
var errNoHead = errors.New("no whole line, want the head of a recording")

// Open reads a recording without locking it.
func Open(path string) (Log, error) {
	f, err := os.Open(path)
	if err != nil {
		return Log{}, err
	}
	defer f.Close()
	log, _, err := read(f)
	return log, wrap(path, err)
}

// read returns also the state in which the next line finds the recording.
func read(f *os.File) (Log, sequence, error) {
	src, err := io.ReadAll(io.LimitReader(f, MaxFile+1))
	if err != nil {
		return Log{}, sequence{}, err
	}
	return parse(src)
}

// parse reads the bytes of a recording.
func parse(src []byte) (Log, sequence, error) {
	var (
		log Log
		seq sequence
	)
	if len(src) > MaxFile {
		return log, seq, fmt.Errorf("file is longer than %d bytes, want at most that", MaxFile)
	}
	for number := 1; len(src) > 0; number++ {
		line, rest, whole := bytes.Cut(src, []byte("\n"))
		if len(line) >= MaxLine {
			return Log{}, sequence{}, fmt.Errorf("line %d: longer than %d bytes, want at most that", number, MaxLine)
		}
		if !whole {
			log.Torn = len(line)
			break
		}
		if err := log.take(line, &seq); err != nil {
			return Log{}, sequence{}, fmt.Errorf("line %d: %w", number, err)
		}
		src = rest
	}
	if seq.n == 0 {
		return Log{}, sequence{}, errNoHead
	}
	return log, seq, nil
}

// take adds one whole line to the log.
func (log *Log) take(line []byte, seq *sequence) error {
	p, err := unframe(line)
	if err != nil {
		return err
	}
	if p.N != seq.n {
		return fmt.Errorf("line is numbered %d, want %d: a line is lost or moved", p.N, seq.n)
	}
	if seq.n == 0 {
		if p.Head == nil || p.Line != (Line{}) {
			return errors.New("first line is not a head, want one")
		}
		if err := p.Head.check(); err != nil {
			return err
		}
		log.Head = *p.Head
		seq.n = 1
		return nil
	}
	if p.Head != nil {
		return errors.New("a second head, want only the first line to be one")
	}
	if err := seq.admit(p.Line); err != nil {
		return err
	}
	switch l := p.Line; {
	case l.Draft != nil:
		log.Draft = l.Draft.Text
		return nil
	case l.Do != nil, l.Ended != nil:
		log.Draft = ""
		log.Ended = l.Ended
	}
	log.Lines = append(log.Lines, p.Line)
	log.Reached = seq.at
	return nil
}

// wrap puts the file's name before an error that lacks it.
func wrap(path string, err error) error {
	if err == nil {
		return nil
	}
	return fmt.Errorf("recording %s: %w", path, err)
}
