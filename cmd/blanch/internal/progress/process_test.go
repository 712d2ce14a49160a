package progress

import (
	"bufio"
	"fmt"
	"io"
	"os"
	"os/exec"
	"strconv"
	"sync"
	"testing"
)

// These make the test binary a process that records answers until it has as
// many as it was told, or is killed.
const (
	helperPath = "BLANCH_TEST_RECORD_TO"
	helperName = "BLANCH_TEST_RECORD_NAME"
	helperMany = "BLANCH_TEST_RECORD_MANY"
)

func TestMain(m *testing.M) {
	if path := os.Getenv(helperPath); path != "" {
		many, err := strconv.Atoi(os.Getenv(helperMany))
		if err == nil {
			err = recordMany(path, os.Getenv(helperName), many)
		}
		if err != nil {
			fmt.Fprintln(os.Stderr, err)
			os.Exit(1)
		}
		os.Exit(0)
	}
	os.Exit(m.Run())
}

// recordMany prints a line once Record has returned.
func recordMany(path, name string, many int) error {
	p, err := Open(path)
	if err != nil {
		return err
	}
	for i := range many {
		c, err := p.Record(right(name, after(float64(i))))
		if err != nil {
			return err
		}
		fmt.Println(c.Answers)
	}
	return nil
}

func startHelper(t *testing.T, path, name string, many int) (*exec.Cmd, *bufio.Reader) {
	t.Helper()
	self, err := os.Executable()
	if err != nil {
		t.Fatal(err)
	}
	cmd := exec.Command(self)
	cmd.Env = append(os.Environ(), helperPath+"="+path, helperName+"="+name, helperMany+"="+strconv.Itoa(many))
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

// TestProcesses: several processes record into one file at the same time, from
// before it exists, and no answer is lost or counted twice.
func TestProcesses(t *testing.T) {
	many := 25
	if os.Getenv("BLANCH_LONG") != "" {
		many = 500
	}
	path := newPath(t)
	var running []*exec.Cmd
	var reading sync.WaitGroup
	names := []string{"a", "b", "c"}
	for _, name := range names {
		cmd, out := startHelper(t, path, name, many)
		reading.Go(func() { io.Copy(io.Discard, out) })
		running = append(running, cmd)
	}
	mine := open(t, path)
	for i := range many {
		record(t, mine, right("mine", after(float64(i))))
	}
	reading.Wait() // Wait closes the pipes
	for _, cmd := range running {
		if err := cmd.Wait(); err != nil {
			t.Error(err)
		}
	}
	if err := mine.Refresh(); err != nil {
		t.Fatal(err)
	}
	for _, p := range []*Progress{mine, open(t, path)} {
		for _, name := range append(names, "mine") {
			if c, _ := p.Card(name); c.Answers != many || c.Right != many {
				t.Errorf("%s: %d answers on %d days, want %d", name, c.Answers, c.Right, many)
			}
		}
		if p.Faults() != nil || len(p.used) != 4*many {
			t.Errorf("%d lines and %q, want %d and nothing", len(p.used), p.Faults(), 4*many)
		}
	}
}

// TestKill kills a process that records, over and over on one file: every answer
// of which it said that it was kept is there, and at most one more.
func TestKill(t *testing.T) {
	rounds := 4
	if os.Getenv("BLANCH_LONG") != "" {
		rounds = 100
	}
	path := newPath(t)
	for round := range rounds {
		name := fmt.Sprint("round ", round)
		cmd, out := startHelper(t, path, name, 1e9)
		said := 0
		for range 2 + 5*(round%3) {
			if _, err := out.ReadString('\n'); err != nil {
				t.Fatal(err)
			}
			said++
		}
		if err := cmd.Process.Kill(); err != nil {
			t.Fatal(err)
		}
		for {
			if _, err := out.ReadString('\n'); err != nil {
				break
			}
			said++
		}
		cmd.Wait() // says that it was killed
		p := open(t, path)
		if c, _ := p.Card(name); c.Answers < said || c.Answers > said+1 || len(p.faults) > 0 {
			t.Fatalf("round %d: %d answers are there of %d, and %q", round, c.Answers, said, p.faults)
		}
	}
}
