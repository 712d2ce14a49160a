//go:build darwin || dragonfly || freebsd || illumos || linux || netbsd || openbsd

package store

import (
	"errors"
	"os"
	"syscall"
)

// tryLock locks the file itself.
func tryLock(f *os.File) (release func() error, err error) {
	fd := int(f.Fd())
	for {
		err = syscall.Flock(fd, syscall.LOCK_EX|syscall.LOCK_NB)
		if !errors.Is(err, syscall.EINTR) {
			break
		}
	}
	switch {
	case errors.Is(err, syscall.EWOULDBLOCK):
		return nil, ErrInUse
	case err != nil:
		return nil, os.NewSyscallError("flock", err)
	}
	return func() error {
		return os.NewSyscallError("flock", syscall.Flock(fd, syscall.LOCK_UN))
	}, nil
}
