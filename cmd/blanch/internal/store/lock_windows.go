package store

import (
	"errors"
	"os"
	"syscall"
)

// The names of these are not in package syscall.
const (
	fileFlagDeleteOnClose = 0x04000000
	errorSharingViolation = syscall.Errno(32)
)

// tryLock opens a lock file beside the recording that nobody else can open at
// the same time and that goes away with the process: a lock on the recording
// itself would keep readers out.
func tryLock(f *os.File) (release func() error, err error) {
	name := f.Name() + ".lock"
	ptr, err := syscall.UTF16PtrFromString(name)
	if err != nil {
		return nil, err
	}
	const nobodyElse = 0
	h, err := syscall.CreateFile(ptr, syscall.GENERIC_WRITE, nobodyElse, nil,
		syscall.OPEN_ALWAYS, syscall.FILE_ATTRIBUTE_NORMAL|fileFlagDeleteOnClose, 0)
	// A lock file on its way to deletion denies access for a moment.
	if errors.Is(err, errorSharingViolation) || errors.Is(err, syscall.ERROR_ACCESS_DENIED) {
		return nil, ErrInUse
	}
	if err != nil {
		return nil, &os.PathError{Op: "lock", Path: name, Err: err}
	}
	return func() error { return syscall.CloseHandle(h) }, nil
}
