package store

import (
	"bufio"
	"errors"
	"fmt"
	"go/build"
	"io"
	"os"
	"os/exec"
	"path/filepath"
	"strconv"
	"testing"
)

// helperPath makes the test binary a process that appends until it is killed.
const helperPath = "BLANCH_TEST_APPEND_TO"

func TestMain(m *testing.M) {
	if path := os.Getenv(helperPath); path != "" {
		fmt.Fprintln(os.Stderr, appendForEver(path))
		os.Exit(1)
	}
	os.Exit(m.Run())
}

// appendForEver prints the time of each line once Append has returned.
func appendForEver(path string) error {
	r, log, err := OpenAppend(path)
	if err != nil {
		return err
	}
	for at := log.Reached + 1; ; at++ {
		if err := r.Append(Line{Do: &Do{At: at, Said: "look " + strconv.FormatInt(at, 10)}}); err != nil {
			return err
		}
		fmt.Println(at)
	}
}

// startHelper returns a running helper and its acknowledgements.
func startHelper(t *testing.T, path string) (*exec.Cmd, *bufio.Reader) {
	t.Helper()
	self, err := os.Executable()
	if err != nil {
		t.Fatal(err)
	}
	cmd := exec.Command(self)
	cmd.Env = append(os.Environ(), helperPath+"="+path)
	cmd.Stderr = os.Stderr
	out, err := cmd.StdoutPipe()
	if err != nil {
		t.Fatal(err)
	}
	if err := cmd.Start(); err != nil {
		t.Fatal(err)
	}
	return cmd, bufio.NewReader(out)
}

// acknowledged reads one acknowledgement.
func acknowledged(out *bufio.Reader) (int64, error) {
	line, err := out.ReadString('\n')
	if err != nil {
		return 0, err
	}
	return strconv.ParseInt(line[:len(line)-1], 10, 64)
}

// TestKill kills a process that is appending, over and over on one recording:
// every acknowledged line is there, in order. It shows what the death of the
// program does; that a sync outlasts a loss of power is not for a test to show.
func TestKill(t *testing.T) {
	rounds := 5
	if os.Getenv("BLANCH_LONG") != "" {
		rounds = 200
	}
	path := record(t, nil)
	for round := range rounds {
		cmd, out := startHelper(t, path)
		var last int64
		for range 3 + 7*(round%4) {
			at, err := acknowledged(out)
			if err != nil {
				t.Fatal(err)
			}
			last = at
		}
		if err := cmd.Process.Kill(); err != nil {
			t.Fatal(err)
		}
		// Acknowledged, but not yet read when the process was killed.
		for {
			at, err := acknowledged(out)
			if errors.Is(err, io.EOF) {
				break
			}
			if err != nil {
				t.Fatal(err)
			}
			last = at
		}
		cmd.Wait() // says that it was killed
		log, err := Open(path)
		if err != nil {
			t.Fatalf("round %d: %v", round, err)
		}
		if n := int64(len(log.Lines)); n < last || n > last+1 {
			t.Fatalf("round %d: %d lines are back of %d acknowledged", round, n, last)
		}
		for i, l := range log.Lines {
			if at := int64(i + 1); l.Do == nil || l.Do.At != at || l.Do.Said != "look "+strconv.FormatInt(at, 10) {
				t.Fatalf("round %d: line %d is %+v", round, at, l.Do)
			}
		}
	}
}

func TestLockBetweenProcesses(t *testing.T) {
	path := record(t, nil)
	cmd, out := startHelper(t, path)
	if _, err := acknowledged(out); err != nil {
		t.Fatal(err)
	}
	read := make(chan struct{})
	go func() {
		defer close(read)
		io.Copy(io.Discard, out) // so that the helper goes on
	}()
	if _, _, err := OpenAppend(path); !errors.Is(err, ErrInUse) {
		t.Errorf("while another process appends: got %v, want %v", err, ErrInUse)
	}
	if _, err := Open(path); err != nil {
		t.Errorf("reading while another process appends: %v", err)
	}
	cmd.Process.Kill()
	<-read // Wait closes the pipe
	cmd.Wait()
	r, _, err := OpenAppend(path)
	if err != nil {
		t.Fatalf("after the other process died: %v", err)
	}
	r.Close()
}

func TestLockInOneProcess(t *testing.T) {
	path := filepath.Join(t.TempDir(), "a.jsonl")
	r, err := Create(path, sample())
	if err != nil {
		t.Fatal(err)
	}
	if _, _, err := OpenAppend(path); !errors.Is(err, ErrInUse) {
		t.Errorf("while created: got %v, want %v", err, ErrInUse)
	}
	if busy, err := locked(path); !busy || err != nil {
		t.Errorf("while created: locked gives %v, %v", busy, err)
	}
	r.Close()
	if busy, err := locked(path); busy || err != nil {
		t.Errorf("after close: locked gives %v, %v", busy, err)
	}
	r, _, err = OpenAppend(path)
	if err != nil {
		t.Fatalf("after close: %v", err)
	}
	r.Close()
}

// TestEverySystemHasOneLock: those without one say so when an attempt is to be
// kept, and the program builds there all the same.
func TestEverySystemHasOneLock(t *testing.T) {
	for system, want := range map[string]string{
		"linux": "lock_flock.go", "darwin": "lock_flock.go", "illumos": "lock_flock.go", "openbsd": "lock_flock.go",
		"windows": "lock_windows.go", "solaris": "lock_none.go", "aix": "lock_none.go", "plan9": "lock_none.go", "wasip1": "lock_none.go",
	} {
		on := build.Default
		on.GOOS = system
		var have []string
		for _, file := range []string{"lock_flock.go", "lock_windows.go", "lock_none.go"} {
			if match, err := on.MatchFile(".", file); err != nil {
				t.Fatal(err)
			} else if match {
				have = append(have, file)
			}
		}
		if len(have) != 1 || have[0] != want {
			t.Errorf("%s has %q, want %s", system, have, want)
		}
	}
}
