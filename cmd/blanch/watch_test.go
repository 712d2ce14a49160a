package main

import (
	"bufio"
	"context"
	"encoding/json"
	"io"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"syscall"
	"testing"
	"time"

	"blanch/content"
	"blanch/scenarios"
)

// patience is how long a test waits for a line that must come.
const patience = 30 * time.Second

// lines reads lines as they come.
func lines(t *testing.T, from io.Reader) (next func(want string) string) {
	t.Helper()
	came := make(chan string)
	go func() {
		defer close(came)
		for s := bufio.NewScanner(from); s.Scan(); {
			came <- s.Text()
		}
	}()
	return func(want string) string {
		t.Helper()
		deadline := time.After(patience)
		for {
			select {
			case line, open := <-came:
				if !open {
					t.Fatalf("it ended before %q came", want)
				}
				if strings.Contains(line, want) {
					return line
				}
			case <-deadline:
				t.Fatalf("%q did not come", want)
			}
		}
	}
}

func write(t *testing.T, file, text string) {
	t.Helper()
	if err := os.WriteFile(file, []byte(text), 0o600); err != nil {
		t.Fatal(err)
	}
}

func scaffolded(t *testing.T, kind, name string) string {
	t.Helper()
	text, err := content.Scaffold(kind, name)
	if err != nil {
		t.Fatal(err)
	}
	return text
}

// Watching checks again when the case changes, when a place that it names
// changes, goes, comes or cannot be read, when a file is added and when one goes; walk-throughs are played each time, and a case without faults
// is tried by simulated learners.
func TestWatch(t *testing.T) {
	dir := t.TempDir()
	file := filepath.Join(dir, "cases", "night.yaml")
	if err := os.MkdirAll(filepath.Dir(file), 0o700); err != nil {
		t.Fatal(err)
	}
	if err := os.MkdirAll(filepath.Join(dir, "places"), 0o700); err != nil {
		t.Fatal(err)
	}
	text := strings.Replace(scaffolded(t, "case", "night"), "place: tern-ward", "place: east-ward", 1)
	write(t, file, text)
	place := scaffolded(t, "place", "east-ward")
	write(t, filepath.Join(dir, "places", "east-ward.yaml"), place)

	out, in := io.Pipe()
	p := &program{out: in, err: in}
	ctx, stop := context.WithCancel(context.Background())
	ended := make(chan error, 1)
	go func() {
		err := p.watch(ctx, []string{filepath.Dir(file)}, checking{})
		in.Close()
		ended <- err
	}()
	next := lines(t, out)

	next("1 file checked, 3 walk-throughs played: no faults")
	next("night, tried 20 times by each kind of learner:")
	write(t, file, strings.Replace(text, "age: 68 y", "age: 6 y", 1))
	next("out-of-range")
	next("1 file checked, 0 walk-throughs played: 1 fault")
	write(t, file, strings.Replace(text, "loses: [line-proved]", "loses: [watched]", 1))
	next("walk-through-differs")
	write(t, file, text)
	next("no faults")
	write(t, filepath.Join(dir, "places", "east-ward.yaml"), strings.Replace(place, "  pump-1:", "  pump-7:", 1))
	next("unknown-pump")
	write(t, filepath.Join(dir, "places", "east-ward.yaml"), place)
	next("no faults")
	beside := filepath.Join(dir, "places", "east-ward.yaml")
	if err := os.Remove(beside); err != nil {
		t.Fatal(err)
	}
	next("unknown-place")
	if err := os.Mkdir(beside, 0o700); err != nil {
		t.Fatal(err)
	}
	next("its place: read " + beside)
	if err := os.Remove(beside); err != nil {
		t.Fatal(err)
	}
	next("unknown-place")
	write(t, beside, place)
	next("no faults")
	other := filepath.Join(dir, "cases", "other.yaml")
	write(t, other, scaffolded(t, "case", "other"))
	next("2 files checked, 6 walk-throughs played: no faults")
	if err := os.Remove(other); err != nil {
		t.Fatal(err)
	}
	next("1 file checked, 3 walk-throughs played: no faults")
	next("watching")
	stop()
	if err := <-ended; err != nil {
		t.Errorf("watching ended with %v", err)
	}
}

// A file that a case names is stamped before it is read, so that a change while
// it is being read is seen.
func TestStampedBeforeItIsRead(t *testing.T) {
	dir := folder(t, map[string]string{"my-case.yaml": naming(t, "policy", "alder-court", "mine"), "mine.yaml": scaffolded(t, "policy", "mine")})
	file := filepath.Join(dir, "mine.yaml")
	before := stampOf(file)
	c := newChecker()
	load := c.policies.load
	c.policies.load = func(file string, src []byte) (*scenarios.Policy, []scenarios.Complaint) {
		write(t, file, string(src)+"# a change\n")
		return load(file, src)
	}
	if err := c.readPaths([]string{filepath.Join(dir, "my-case.yaml")}); err != nil {
		t.Fatal(err)
	}
	if err := c.check(); err != nil {
		t.Fatal(err)
	}
	if got := c.looked[file]; got != before || got == stampOf(file) {
		t.Errorf("stamped %v; it was %v and is %v", got, before, stampOf(file))
	}
}

// With --json each check is one line, and Ctrl-C ends the real program with
// exit code 0.
func TestWatchProgram(t *testing.T) {
	file := filepath.Join(t.TempDir(), "night.yaml")
	write(t, file, scaffolded(t, "case", "night"))
	self, err := os.Executable()
	if err != nil {
		t.Fatal(err)
	}
	blanch := filepath.Join(t.TempDir(), "blanch") // the test binary is the program under this name
	if err := os.Symlink(self, blanch); err != nil {
		t.Skip("no symbolic links here")
	}
	cmd := exec.Command(blanch, "check", "--watch", "--json", file)
	out, err := cmd.StdoutPipe()
	if err != nil {
		t.Fatal(err)
	}
	if err := cmd.Start(); err != nil {
		t.Fatal(err)
	}
	next := lines(t, out)
	for _, faults := range []float64{0, 1} {
		var report map[string]any
		if err := json.Unmarshal([]byte(next("{")), &report); err != nil || report["faults"] != faults {
			t.Errorf("got %v, %v, want %v faults", report, err, faults)
		}
		write(t, file, strings.Replace(scaffolded(t, "case", "night"), "age: 68 y", "age: 6 y", 1))
	}
	if err := cmd.Process.Signal(syscall.SIGINT); err != nil {
		t.Fatal(err)
	}
	if err := cmd.Wait(); err != nil {
		t.Errorf("it ended with %v", err)
	}
}
