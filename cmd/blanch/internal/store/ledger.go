package store

import (
	"bytes"
	"errors"
	"fmt"
	"io"
	"io/fs"
	"os"
	"path/filepath"
	"unicode/utf8"
)

// ledgerTries bounds the wait for another process, which holds the lock for one
// append only: ten seconds.
const ledgerTries = 1000

// Ledger is a file of lines with checksums to which several processes append by
// turns. What a line holds is its user's affair. Nothing that was written whole
// is ever changed or removed, and a line that cannot be read hides no other. A
// Ledger is for one goroutine; others, and other processes, open their own.
type Ledger struct {
	path  string
	sync  func(*os.File) error
	at    int64 // bytes taken in
	lines int   // lines taken in
	bare  bool  // the last line taken in had no line end yet
}

// Entry is one line of a ledger.
type Entry struct {
	Line    int    // in the file, from 1
	Content []byte // without frame and checksum
	Err     error  // why it cannot be read; Content is nil then
}

// NewLedger is the ledger of a path. Neither file nor folder need exist: the
// first append makes them, private to the user.
func NewLedger(path string) *Ledger {
	return &Ledger{path: path, sync: (*os.File).Sync}
}

// Take reads the lines that were added since the last time, by whomever. Torn
// counts the bytes of an append at the end that never finished or is not yet
// finished: they are no line. It changes nothing on the disk and needs no lock.
func (l *Ledger) Take() (fresh []Entry, torn int, err error) {
	f, err := os.Open(l.path)
	if errors.Is(err, fs.ErrNotExist) && l.at == 0 {
		return nil, 0, nil
	}
	if err != nil {
		return nil, 0, err
	}
	defer f.Close()
	return l.take(f)
}

func (l *Ledger) take(f *os.File) ([]Entry, int, error) {
	info, err := f.Stat()
	if err != nil {
		return nil, 0, err
	}
	if info.Size() < l.at {
		return nil, 0, fmt.Errorf("%s: file is %d bytes long and was %d: it was cut or replaced, open it anew", l.path, info.Size(), l.at)
	}
	if info.Size() > MaxFile {
		return nil, 0, fmt.Errorf("%s: file is longer than %d bytes, want at most that", l.path, MaxFile)
	}
	src, err := io.ReadAll(io.NewSectionReader(f, l.at, MaxFile))
	if err != nil {
		return nil, 0, err
	}
	fresh, torn := l.parse(src)
	return fresh, torn, nil
}

// parse takes in the bytes after those taken in before. At the end a line whose
// line end alone is missing is whole, and what does not begin as a line of ours
// is no append of ours: it is a bad line, and nobody cuts it off.
func (l *Ledger) parse(src []byte) (fresh []Entry, torn int) {
	if rest, ended := bytes.CutPrefix(src, []byte("\n")); l.bare && ended {
		src, l.bare = rest, false
		l.at++
	}
	for len(src) > 0 {
		line, rest, ended := bytes.Cut(src, []byte("\n"))
		e := Entry{Line: l.lines + 1}
		if len(line) >= MaxLine {
			e.Err = fmt.Errorf("longer than %d bytes, want at most that", MaxLine)
		} else {
			e.Content, e.Err = unwrap(line)
		}
		if !ended && e.Err != nil && beginsFrame(line) {
			return fresh, len(line)
		}
		l.at += int64(len(src) - len(rest))
		l.lines++
		l.bare = !ended
		fresh = append(fresh, e)
		src = rest
	}
	return fresh, 0
}

func beginsFrame(line []byte) bool {
	n := min(len(line), len(frameOpen))
	return string(line[:n]) == frameOpen[:n]
}

// Append adds one line and waits until the disk has it. While nobody else can
// append, next is given the lines that were added since the last Take or
// Append, and returns the content that follows them; with its error nothing is
// written, not even to mend a torn end. Content is one line of UTF-8. After any
// other error what the disk holds is found out by Take.
func (l *Ledger) Append(next func(fresh []Entry) ([]byte, error)) error {
	written, err := l.append(next)
	if err != nil {
		return err // what was written all the same is taken in by the next Take
	}
	l.at += int64(written)
	l.lines++
	l.bare = false
	return nil
}

// append returns how many bytes it wrote after the last line taken in.
func (l *Ledger) append(next func(fresh []Entry) ([]byte, error)) (written int, err error) {
	dir := filepath.Dir(l.path)
	if err := os.MkdirAll(dir, 0o700); err != nil {
		return 0, err
	}
	f, err := os.OpenFile(l.path, os.O_RDWR|os.O_CREATE, 0o600)
	if err != nil {
		return 0, err
	}
	defer func() { err = errors.Join(err, f.Close()) }()
	release, err := lockWithin(f, ledgerTries)
	if err != nil {
		return 0, fmt.Errorf("%s: %w", l.path, err)
	}
	defer func() { err = errors.Join(err, release()) }()
	fresh, torn, err := l.take(f)
	if err != nil {
		return 0, err
	}
	content, err := next(fresh)
	if err != nil {
		return 0, err
	}
	line, err := ledgerLine(content)
	if err != nil {
		return 0, fmt.Errorf("%s: %w", l.path, err)
	}
	if l.bare {
		line = append([]byte("\n"), line...)
	}
	if err := l.write(f, line, torn); err != nil {
		return 0, fmt.Errorf("%s: append failed: %w", l.path, err)
	}
	if l.at == 0 {
		return len(line), syncDir(dir)
	}
	return len(line), nil
}

// ledgerLine frames content that a reader will take as one line.
func ledgerLine(content []byte) ([]byte, error) {
	if bytes.ContainsRune(content, '\n') || !utf8.Valid(content) {
		return nil, fmt.Errorf("content %s is not one line of UTF-8", shorten(string(content)))
	}
	return frameContent(content)
}

// write puts a line after the last whole one and cuts off what is torn.
func (l *Ledger) write(f *os.File, line []byte, torn int) error {
	if l.at+int64(len(line)) > MaxFile {
		return fmt.Errorf("file would be longer than %d bytes, want at most that", MaxFile)
	}
	if torn > 0 {
		if err := f.Truncate(l.at); err != nil {
			return err
		}
	}
	if _, err := f.WriteAt(line, l.at); err != nil {
		return err
	}
	return l.sync(f)
}
