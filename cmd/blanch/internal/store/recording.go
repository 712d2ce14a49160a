package store

import (
	"errors"
	"fmt"
	"os"
	"path/filepath"
)

// ErrInUse is wrapped by errors about a recording that is already open for
// appending, here or in another process.
var ErrInUse = errors.New("open in another window or terminal: leave it there first, then go on here")

var errClosed = errors.New("closed, want it open for appending")

// Recording is open for appending and locked until it is closed.
type Recording struct {
	path    string
	file    *os.File
	release func() error
	sync    func(*os.File) error

	seq    sequence
	size   int64 // up to the end of the last whole line
	torn   bool  // bytes of an unfinished append follow
	failed error // why no more can be appended
}

// Create begins a recording with its head, of which it fills in format and
// digests. It never overwrites: the error for a path that exists is
// fs.ErrExist.
func Create(path string, head Head) (*Recording, error) {
	return create(path, head, (*os.File).Sync)
}

// create lets a test see and leave out the syncs.
func create(path string, head Head, sync func(*os.File) error) (*Recording, error) {
	if err := head.texts(); err != nil {
		return nil, wrap(path, err)
	}
	head = head.seal()
	line, err := frame(payload{Head: &head})
	if err != nil {
		return nil, wrap(path, err)
	}
	f, err := os.OpenFile(path, os.O_RDWR|os.O_CREATE|os.O_EXCL, 0o600)
	if err != nil {
		return nil, err
	}
	r, err := begin(path, f, sync)
	if err != nil {
		return nil, errors.Join(err, os.Remove(path))
	}
	if err := r.write(line); err != nil {
		return nil, errors.Join(err, r.Close(), os.Remove(path))
	}
	if err := syncDir(filepath.Dir(path)); err != nil {
		return nil, errors.Join(wrap(path, err), r.Close(), os.Remove(path))
	}
	r.seq.n = 1
	return r, nil
}

// OpenAppend reads a recording and opens it to go on. The error wraps ErrInUse
// when it is open for appending elsewhere.
func OpenAppend(path string) (*Recording, Log, error) {
	f, err := os.OpenFile(path, os.O_RDWR, 0)
	if err != nil {
		return nil, Log{}, err
	}
	r, err := begin(path, f, (*os.File).Sync)
	if err != nil {
		return nil, Log{}, err
	}
	log, seq, err := read(f)
	if err != nil {
		return nil, Log{}, errors.Join(wrap(path, err), r.Close())
	}
	info, err := f.Stat()
	if err != nil {
		return nil, Log{}, errors.Join(err, r.Close())
	}
	r.seq = seq
	r.size = info.Size() - int64(log.Torn)
	r.torn = log.Torn > 0
	return r, log, nil
}

// begin locks an opened file, and closes it when it cannot.
func begin(path string, f *os.File, sync func(*os.File) error) (*Recording, error) {
	release, err := lock(f)
	if err != nil {
		return nil, errors.Join(wrap(path, err), f.Close())
	}
	return &Recording{path: path, file: f, release: release, sync: sync}, nil
}

// Append writes one line and waits until the disk has it. A line that cannot
// come next is refused and changes nothing. After an error of the file itself
// nothing more can be appended: what the disk then holds is found out by
// opening the recording again.
func (r *Recording) Append(l Line) error {
	if r.failed != nil {
		return wrap(r.path, r.failed)
	}
	next := r.seq
	if err := next.admit(l); err != nil {
		return wrap(r.path, err)
	}
	line, err := frame(payload{N: r.seq.n, Line: l})
	if err != nil {
		return wrap(r.path, err)
	}
	if r.size+int64(len(line)) > MaxFile {
		return wrap(r.path, fmt.Errorf("file would be longer than %d bytes, want at most that", MaxFile))
	}
	if err := r.write(line); err != nil {
		return err
	}
	r.seq = next
	return nil
}

// write puts a line after the last whole one.
func (r *Recording) write(line []byte) error {
	err := r.tidy()
	if err == nil {
		_, err = r.file.WriteAt(line, r.size)
	}
	if err == nil {
		err = r.sync(r.file)
	}
	if err != nil {
		r.failed = fmt.Errorf("append failed: %w", err)
		return wrap(r.path, r.failed)
	}
	r.size += int64(len(line))
	return nil
}

// tidy removes an unfinished append, of which a shorter line would leave the
// end standing.
func (r *Recording) tidy() error {
	if !r.torn {
		return nil
	}
	if err := r.file.Truncate(r.size); err != nil {
		return err
	}
	r.torn = false
	return nil
}

// Close unlocks and closes the recording. Closing again does nothing.
func (r *Recording) Close() error {
	if r.file == nil {
		return nil
	}
	err := errors.Join(r.release(), r.file.Close())
	r.file, r.failed = nil, errClosed
	return wrap(r.path, err)
}
