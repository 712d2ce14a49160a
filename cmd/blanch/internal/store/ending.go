package store

import (
	"bufio"
	"bytes"
	"errors"
	"fmt"
	"io"
	"os"
)

// firstLook is how much of the end of a recording is read at first. What a
// finished attempt came to usually fits.
const firstLook = 16 << 10

// look reads the end of a recording for the list: how far it came and whether
// it has ended. The head, which carries whole files, is left alone.
func look(path string) (Attempt, error) {
	f, err := os.Open(path)
	if err != nil {
		return Attempt{}, err
	}
	defer f.Close()
	info, err := f.Stat()
	if err != nil {
		return Attempt{}, err
	}
	size := info.Size()
	if size > MaxFile {
		return Attempt{}, wrap(path, fmt.Errorf("file is longer than %d bytes, want at most that", MaxFile))
	}
	for want := int64(firstLook); ; want *= 4 {
		from := max(0, size-want)
		src := make([]byte, size-from)
		n, err := f.ReadAt(src, from)
		if err != nil && !errors.Is(err, io.EOF) { // the file may have been cut meanwhile
			return Attempt{}, err
		}
		reached, ended, found, err := ending(src[:n], from == 0)
		switch {
		case err != nil:
			return Attempt{}, wrap(path, err)
		case found:
			return Attempt{Path: path, Reached: reached, Ended: ended, Modified: info.ModTime()}, nil
		case from == 0:
			return Attempt{}, wrap(path, errNoHead)
		}
	}
}

// ending finds the last whole line that has a time, or the head, among the
// last bytes of a recording. Whole says that these are all of its bytes.
func ending(src []byte, whole bool) (reached int64, ended, found bool, err error) {
	src = src[:bytes.LastIndexByte(src, '\n')+1] // the rest is an append that never finished
	for len(src) > 0 {
		start := bytes.LastIndexByte(src[:len(src)-1], '\n') + 1
		if start == 0 && !whole {
			return 0, false, false, nil // it may begin further up
		}
		p, err := unframe(src[start : len(src)-1])
		switch {
		case err != nil && whole:
			return 0, false, false, fmt.Errorf("line %d: %w", bytes.Count(src, []byte("\n")), err)
		case err != nil:
			return 0, false, false, fmt.Errorf("a line near the end: %w", err)
		case p.Head != nil:
			return 0, false, true, nil
		case p.Do != nil:
			return p.Do.At, false, true, nil
		case p.Reached != nil:
			return p.Reached.At, false, true, nil
		case p.Ended != nil:
			return p.Ended.At, true, true, nil
		}
		src = src[:start]
	}
	return 0, false, false, nil
}

// ReadHead reads what the attempt began from.
func (a Attempt) ReadHead() (Head, error) {
	f, err := os.Open(a.Path)
	if err != nil {
		return Head{}, err
	}
	defer f.Close()
	line, err := bufio.NewReader(io.LimitReader(f, MaxLine)).ReadBytes('\n')
	if errors.Is(err, io.EOF) {
		err = errNoHead
	}
	if err != nil {
		return Head{}, wrap(a.Path, err)
	}
	var (
		log Log
		seq sequence
	)
	if err := log.take(bytes.TrimSuffix(line, []byte("\n")), &seq); err != nil {
		return Head{}, wrap(a.Path, fmt.Errorf("line 1: %w", err))
	}
	return log.Head, nil
}
