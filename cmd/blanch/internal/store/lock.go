package store

import (
	"errors"
	"os"
	"time"
)

// A folder being listed holds each lock for a moment to see whether it is
// free, so a refusal is only believed when it lasts.
const (
	lockTries = 10
	lockPause = 10 * time.Millisecond
)

// lock takes the exclusive lock of a recording until release is called or the
// process ends, whichever way it ends.
func lock(f *os.File) (release func() error, err error) {
	return lockWithin(f, lockTries)
}

// lockWithin tries so often, and pauses in between.
func lockWithin(f *os.File, tries int) (release func() error, err error) {
	for try := 1; ; try++ {
		release, err = tryLock(f)
		if !errors.Is(err, ErrInUse) || try >= tries {
			return release, err
		}
		time.Sleep(lockPause)
	}
}

// locked reports whether a recording is open for appending somewhere.
func locked(path string) (bool, error) {
	f, err := os.OpenFile(path, os.O_RDWR, 0)
	if err != nil {
		return false, err
	}
	defer f.Close()
	release, err := tryLock(f)
	if errors.Is(err, ErrInUse) {
		return true, nil
	}
	if err != nil {
		return false, err
	}
	return false, release()
}
