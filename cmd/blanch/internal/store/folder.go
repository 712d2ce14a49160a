package store

import (
	"cmp"
	"crypto/rand"
	"encoding/hex"
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"runtime"
	"slices"
	"strings"
	"time"
)

// suffix ends the name of every recording.
const suffix = ".jsonl"

// Folder is a directory of recordings, one file an attempt.
type Folder string

// Attempt is a recording found in a folder.
type Attempt struct {
	Path     string
	Reached  int64 // simulated milliseconds
	Ended    bool
	Modified time.Time // wall clock of the last append
	InUse    bool      // someone plays it now; only NotEnded looks
}

// Home is where attempts are kept: BLANCH_HOME, or else blanch under
// XDG_STATE_HOME, under ~/.local/state, or under %LocalAppData% on Windows. It
// need not exist yet.
func Home() (Folder, error) {
	if dir := os.Getenv("BLANCH_HOME"); dir != "" {
		abs, err := filepath.Abs(dir)
		return Folder(abs), err
	}
	// The XDG Base Directory Specification has relative paths ignored.
	if dir := os.Getenv("XDG_STATE_HOME"); filepath.IsAbs(dir) {
		return Folder(filepath.Join(dir, "blanch")), nil
	}
	if dir := os.Getenv("LocalAppData"); runtime.GOOS == "windows" && dir != "" {
		return Folder(filepath.Join(dir, "blanch")), nil
	}
	home, err := os.UserHomeDir()
	if err != nil {
		return "", fmt.Errorf("no folder for attempts, want BLANCH_HOME set: %w", err)
	}
	return Folder(filepath.Join(home, ".local", "state", "blanch")), nil
}

// NewPath returns a path for a new attempt at a case, having made the folder.
// The name begins with the case's ID and is never given twice.
func (f Folder) NewPath(caseID string) (string, error) {
	if err := os.MkdirAll(string(f), 0o700); err != nil {
		return "", err
	}
	var once [6]byte
	rand.Read(once[:]) // never fails
	name := plainName(caseID) + "-" + time.Now().UTC().Format("20060102-150405") + "-" + hex.EncodeToString(once[:])
	return filepath.Join(string(f), name+suffix), nil
}

// plainName keeps what is safe in a file name everywhere.
func plainName(id string) string {
	const most = 60
	plain := strings.Map(func(r rune) rune {
		switch {
		case r >= 'a' && r <= 'z', r >= '0' && r <= '9':
			return r
		case r >= 'A' && r <= 'Z':
			return r - 'A' + 'a'
		}
		return '-'
	}, id)
	plain = strings.Trim(plain[:min(len(plain), most)], "-")
	return cmp.Or(plain, "attempt")
}

// Attempts lists the recordings, the last appended to first. Only the end of
// each is read; what is wrong further up is told when it is opened. Those that
// can be read are returned even when the error tells of some that cannot. A
// folder that does not exist holds none.
func (f Folder) Attempts() ([]Attempt, error) {
	entries, err := os.ReadDir(string(f))
	if errors.Is(err, fs.ErrNotExist) {
		return nil, nil
	}
	if err != nil {
		return nil, err
	}
	var (
		found  []Attempt
		faults []error
	)
	for _, e := range entries {
		if !e.Type().IsRegular() || !strings.HasSuffix(e.Name(), suffix) {
			continue
		}
		a, err := look(filepath.Join(string(f), e.Name()))
		switch {
		case errors.Is(err, errNoHead), errors.Is(err, fs.ErrNotExist):
			// Never begun, or removed meanwhile.
		case err != nil:
			faults = append(faults, err)
		default:
			found = append(found, a)
		}
	}
	slices.SortFunc(found, func(a, b Attempt) int {
		return cmp.Or(b.Modified.Compare(a.Modified), cmp.Compare(b.Path, a.Path))
	})
	return found, errors.Join(faults...)
}

// NotEnded lists, as Attempts does, those that have not ended, and says which of
// them someone is playing.
func (f Folder) NotEnded() ([]Attempt, error) {
	all, err := f.Attempts()
	var (
		open   []Attempt
		faults = []error{err}
	)
	for _, a := range all {
		if a.Ended {
			continue
		}
		a.InUse, err = locked(a.Path)
		faults = append(faults, err)
		if err == nil {
			open = append(open, a)
		}
	}
	return open, errors.Join(faults...)
}

// Free are those of the attempts that nobody is playing.
func Free(open []Attempt) []Attempt {
	return slices.DeleteFunc(slices.Clone(open), func(a Attempt) bool { return a.InUse })
}

// Latest returns the attempt last appended to, finished or not. The error wraps
// fs.ErrNotExist when there is none.
func (f Folder) Latest() (Attempt, error) {
	all, err := f.Attempts()
	if len(all) > 0 {
		return all[0], nil
	}
	if err != nil {
		return Attempt{}, err
	}
	return Attempt{}, fmt.Errorf("no attempt in %s: %w", f, fs.ErrNotExist)
}
