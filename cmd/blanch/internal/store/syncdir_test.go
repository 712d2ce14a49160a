package store

import (
	"errors"
	"io/fs"
	"path/filepath"
	"syscall"
	"testing"
)

// TestFoldersThatCannotBeSynced: network disks say so, and that is no fault; a
// full or broken disk is one.
func TestFoldersThatCannotBeSynced(t *testing.T) {
	for number, fault := range map[syscall.Errno]bool{syscall.EINVAL: false, syscall.ENOTSUP: false, syscall.ENOSPC: true, syscall.EIO: true} {
		if err := cannot(&fs.PathError{Op: "sync", Path: "attempts", Err: number}); (err != nil) != fault {
			t.Errorf("%v: got %v, want a fault: %t", number, err, fault)
		}
	}
	if err := syncDir(t.TempDir()); err != nil {
		t.Error(err)
	}
	if err := syncDir(filepath.Join(t.TempDir(), "none")); !errors.Is(err, fs.ErrNotExist) {
		t.Errorf("a folder that is not there: %v", err)
	}
}
