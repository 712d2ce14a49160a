package main

import (
	"bytes"
	"errors"
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"strconv"
	"strings"
	"sync"
	"syscall"
	"testing"
	"time"

	"github.com/creack/pty"

	"blanch/cmd/blanch/internal/progress"
	"blanch/cmd/blanch/internal/store"
	"blanch/sim"
)

// seat is the command running on a terminal of its own.
type seat struct {
	t    *testing.T
	cmd  *exec.Cmd
	tty  *os.File
	done chan struct{} // closed when nothing more comes

	mu  sync.Mutex
	out bytes.Buffer
}

// sit starts the command on a terminal with its attempts in home.
func sit(t *testing.T, home string, args ...string) *seat {
	t.Helper()
	bin, err := exec.LookPath("blanch")
	if err != nil {
		lacking(t, "the command cannot be started here: %v", err)
	}
	s := &seat{t: t, cmd: exec.Command(bin, args...), done: make(chan struct{})}
	s.cmd.Env = append(os.Environ(), "BLANCH_HOME="+home, "BLANCH_PLAIN=", "BLANCH_LINES=1", "TERM=xterm")
	s.tty, err = pty.StartWithSize(s.cmd, &pty.Winsize{Rows: 200, Cols: 100})
	if errors.Is(err, pty.ErrUnsupported) || errors.Is(err, os.ErrNotExist) || errors.Is(err, os.ErrPermission) {
		lacking(t, "no pseudo-terminal can be had here: %v", err)
	}
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() { s.kill(); s.tty.Close() })
	go func() {
		defer close(s.done)
		b := make([]byte, 4096)
		for {
			n, err := s.tty.Read(b)
			s.mu.Lock()
			s.out.Write(b[:n])
			s.mu.Unlock()
			if err != nil {
				return
			}
		}
	}()
	return s
}

var control = regexp.MustCompile(`\x1b\[[0-9;?]*[A-Za-z]|[\r\x07]`)

// seen is what has been written so far, without what moves the cursor.
func (s *seat) seen() string {
	s.mu.Lock()
	defer s.mu.Unlock()
	return control.ReplaceAllString(s.out.String(), "")
}

func (s *seat) typeIn(text string) {
	s.t.Helper()
	if _, err := s.tty.WriteString(text); err != nil {
		s.t.Fatal(err)
	}
}

// expect waits for a text.
func (s *seat) expect(text string) {
	s.t.Helper()
	s.until(text, func() bool { return strings.Contains(s.seen(), text) })
}

// until waits for a condition.
func (s *seat) until(what string, cond func() bool) {
	s.t.Helper()
	for end := time.Now().Add(20 * time.Second); time.Now().Before(end); time.Sleep(10 * time.Millisecond) {
		if cond() {
			return
		}
	}
	s.t.Fatalf("waited in vain for %q; on the screen:\n%s", what, s.seen())
}

// kill ends the command as a lost machine does.
func (s *seat) kill() {
	s.cmd.Process.Kill()
	s.cmd.Wait()
}

// leaves waits for the end and gives the exit code.
func (s *seat) leaves() int {
	s.t.Helper()
	ended := make(chan struct{})
	go func() { s.cmd.Wait(); close(ended) }()
	select {
	case <-ended:
	case <-time.After(20 * time.Second):
		s.t.Fatalf("the command does not end; on the screen:\n%s", s.seen())
	}
	return s.cmd.ProcessState.ExitCode()
}

// begin plays the small case up to the start of its clock.
func begin(t *testing.T, speed string) (s *seat, home string) {
	t.Helper()
	home = t.TempDir()
	s = sit(t, home, "play", "testdata/files/small.yaml", "--seed", "7", "--speed", speed)
	s.expect("Press Enter to start")
	s.typeIn("\r")
	s.expect("hands free")
	return s, home
}

// kept is the recording in a folder.
func kept(t *testing.T, home string) store.Log {
	t.Helper()
	paths, _ := filepath.Glob(filepath.Join(home, "*.jsonl"))
	if len(paths) != 1 {
		t.Fatalf("%d recordings in the folder, want 1", len(paths))
	}
	log, err := store.Open(paths[0])
	if err != nil {
		t.Fatal(err)
	}
	return log
}

// offered wants the next start of the command to offer the attempt.
func offered(t *testing.T, home string) {
	t.Helper()
	s := sit(t, home)
	s.expect("Unfinished")
	s.expect("A small bridge, at 0:")
	s.typeIn("quit\r")
	if code := s.leaves(); code != exitFine {
		t.Errorf("leaving home: exit code %d", code)
	}
}

// entries finds what was shown of the journal.
var entries = regexp.MustCompile(`(?m)^\d+:\d\d:\d\d  (The monitor|You: |Done: |Someone).*$`)

func TestKilledWhileTheClockRuns(t *testing.T) {
	const speed = 120 // simulated seconds a real second
	s, home := begin(t, "120")
	s.typeIn("wait 11 min\r")
	s.expect("0:05:00  The monitor")
	s.until("the time at the prompt to pass 0:06", func() bool { return strings.Contains(s.seen(), "0:06:") })
	s.kill()
	<-s.done
	shown := s.seen()

	times := regexp.MustCompile(`(\d+):(\d\d):(\d\d) running`).FindAllStringSubmatch(shown, -1)
	last := times[len(times)-1]
	stood := sim.Time(0)
	for _, part := range last[1:] {
		n, err := strconv.Atoi(part)
		if err != nil {
			t.Fatal(err)
		}
		stood = stood*60 + sim.Time(n)*sim.Second
	}
	reached := sim.Time(kept(t, home).Reached)
	if lost := stood - reached; lost > speed*sim.Second {
		t.Errorf("the clock was shown at %s and %s is recorded: more than a real second is lost", stood.Exact(), reached.Exact())
	}
	offered(t, home)

	r := sit(t, home, "resume", "--speed", "0")
	r.expect("A small bridge, resumed")
	r.expect(reached.Exact() + "  mean")
	r.typeIn("journal\r")
	for _, e := range entries.FindAllString(shown, -1) {
		r.expect(e)
	}
	r.typeIn("wait 1 min\r")
	r.expect((reached + sim.Minute).Exact() + "  mean")
}

func TestKilledInTheMiddleOfAnAction(t *testing.T) {
	s, home := begin(t, "60")
	s.typeIn("walk away for 9 min\r")
	s.expect("0:00:00  You: walk away for 9 min")
	s.expect("0:02:")
	s.kill()
	offered(t, home)

	r := sit(t, home, "resume", "--speed", "0")
	r.expect("hands busy until 0:09:00: walk away for 9 min")
	r.typeIn("\r")
	r.expect("0:09:00  Done: walk away for 9 min.")
	r.expect("0:09:00  mean")
}

func TestKilledHalfWayThroughTyping(t *testing.T) {
	s, home := begin(t, "0")
	s.typeIn("read the order\r")
	s.expect("0:00:30  Norepinephrine 0.05 mcg/kg/min")
	s.typeIn("write in the notes: half a sen")
	s.until("the draft to be kept", func() bool { return kept(t, home).Draft == "write in the notes: half a sen" })
	s.kill()
	offered(t, home)

	r := sit(t, home, "resume", "--speed", "0")
	r.expect("0:00:30  Done: read the order")
	r.expect("> write in the notes: half a sen")
	r.typeIn("tence\r")
	r.expect("0:00:30  You: write in the notes: half a sentence")
}

func TestLeavingAlwaysSaves(t *testing.T) {
	for name, leave := range map[string]func(s *seat){
		"Ctrl-C":    func(s *seat) { s.typeIn("\x03") },
		"terminate": func(s *seat) { s.cmd.Process.Signal(syscall.SIGTERM) },
		"hang up":   func(s *seat) { s.cmd.Process.Signal(syscall.SIGHUP) },
	} {
		t.Run(name, func(t *testing.T) {
			s, home := begin(t, "60")
			s.typeIn("wait 11 min\r")
			s.expect("0:01:")
			leave(s)
			s.expect("blanch resume")
			s.expect(home)
			if code := s.leaves(); code != exitInterrupted {
				t.Errorf("exit code %d, want %d", code, exitInterrupted)
			}
			if log := kept(t, home); log.Reached < int64(sim.Minute) {
				t.Errorf("%s is recorded, want at least a minute", sim.Time(log.Reached).Exact())
			}
			offered(t, home)
		})
	}
}

func TestTabCompletesSentences(t *testing.T) {
	s, _ := begin(t, "0")
	s.typeIn("examine l\t\r")
	s.expect("You: examine left-cephalic-forearm")
	s.typeIn("send for second-nurse\r")
	s.expect("Done: send for second-nurse")
	s.typeIn("choose \t20\t47\tat 40 degrees\r")
	s.expect("You: choose left-cephalic-forearm with 20 gauge 47.8 mm at 40 degrees")
}

// Ctrl-C ends a quiz at once, and what was answered is kept.
func TestInterruptedQuizKeepsItsAnswers(t *testing.T) {
	home := t.TempDir()
	s := sit(t, home, "quiz", "--seed", "3")
	s.expect("practice> ")
	s.typeIn("pass\r")
	s.expect("practice, again> ")
	s.typeIn("\x03")
	if code := s.leaves(); code != exitInterrupted {
		t.Errorf("exit code %d, want %d", code, exitInterrupted)
	}
	s.expect("1 answer is kept in your progress")
	kept, err := progress.Open(progress.Path(store.Folder(home)))
	if err != nil {
		t.Fatal(err)
	}
	if n := len(kept.Due(time.Now())); n != 1 || len(kept.Faults()) != 0 {
		t.Errorf("%d answers kept, want 1: %v", n, kept.Faults())
	}
}
