//go:build !windows && !(darwin || dragonfly || freebsd || illumos || linux || netbsd || openbsd)

package store

import (
	"fmt"
	"os"
	"runtime"
)

// tryLock cannot do it: a lock has to end with the process that holds it,
// whichever way that ends.
func tryLock(*os.File) (release func() error, err error) {
	return nil, fmt.Errorf("attempts cannot be kept on %s, which has no lock that ends with the program: play on Linux, macOS, Windows, illumos or a BSD", runtime.GOOS)
}
