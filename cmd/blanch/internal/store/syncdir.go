package store

import (
	"errors"
	"os"
	"runtime"
	"syscall"
)

// syncDir makes the name of a new file as lasting as its content, where the
// system can: Windows has no such thing, and network disks may not.
func syncDir(dir string) error {
	if runtime.GOOS == "windows" {
		return nil
	}
	d, err := os.Open(dir)
	if err != nil {
		return err
	}
	return errors.Join(cannot(d.Sync()), d.Close())
}

// cannot leaves out of an error that there is no such thing here, which is no
// fault of the disk.
func cannot(err error) error {
	if errors.Is(err, syscall.EINVAL) || errors.Is(err, errors.ErrUnsupported) {
		return nil
	}
	return err
}
