package main

import (
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"strconv"
	"strings"
	"testing"
	"time"

	"blanch/sim"
)

// pane is the command on a terminal of 80 columns and 24 rows that tmux keeps.
type pane struct {
	t      *testing.T
	socket string
}

// panes starts the command in tmux with its attempts in home.
func panes(t *testing.T, home, args string) *pane {
	t.Helper()
	if testing.Short() {
		t.Skip("a play in real time takes seconds")
	}
	for _, need := range []string{"tmux", "blanch"} {
		if _, err := exec.LookPath(need); err != nil {
			lacking(t, "the screen cannot be played here: %v", err)
		}
	}
	p := &pane{t, fmt.Sprintf("blanch-test-%d-%d", os.Getpid(), time.Now().UnixNano())}
	inside := fmt.Sprintf("env -i PATH='%s' HOME='%s' BLANCH_HOME='%s' TERM=tmux-256color LC_ALL=C.UTF-8 blanch %s; echo EXIT=$?; sleep 60", os.Getenv("PATH"), home, home, args)
	p.tmux("-f", "/dev/null", "new-session", "-d", "-x", "80", "-y", "24", inside)
	t.Cleanup(func() { exec.Command("tmux", "-L", p.socket, "kill-server").Run() })
	return p
}

// lacking skips a test for want of something to play it with, but not where
// everything has to be there.
func lacking(t *testing.T, format string, args ...any) {
	t.Helper()
	if os.Getenv("CI") == "true" {
		t.Fatalf(format, args...)
	}
	t.Skipf(format, args...)
}

func (p *pane) tmux(args ...string) string {
	p.t.Helper()
	out, err := exec.Command("tmux", append([]string{"-L", p.socket}, args...)...).CombinedOutput()
	if err != nil {
		p.t.Fatalf("tmux %q: %v: %s", args, err, out)
	}
	return string(out)
}

func (p *pane) text() string {
	return p.tmux("capture-pane", "-p")
}

// see waits for a text.
func (p *pane) see(part string) *pane {
	p.t.Helper()
	return p.until(part, func(text string) bool { return strings.Contains(text, part) })
}

// until waits for what the screen is to look like.
func (p *pane) until(what string, like func(text string) bool) *pane {
	p.t.Helper()
	for end := time.Now().Add(30 * time.Second); time.Now().Before(end); time.Sleep(20 * time.Millisecond) {
		if like(p.text()) {
			return p
		}
	}
	p.t.Fatalf("waited in vain for %q; on the screen:\n%s", what, p.text())
	return p
}

// press presses keys by tmux's names; what begins with = is typed.
func (p *pane) press(keys ...string) *pane {
	p.t.Helper()
	for _, k := range keys {
		before := p.text()
		if text, typed := strings.CutPrefix(k, "="); typed {
			p.tmux("send-keys", "-l", text)
		} else {
			p.tmux("send-keys", k)
		}
		// What follows Escape before it was read would count as one key with it.
		for n := 0; k == "Escape" && n < 250 && p.text() == before; n++ {
			time.Sleep(20 * time.Millisecond)
		}
	}
	return p
}

// do finds a sentence by typing part of it, fills its gaps, reads what it will
// do and does it, and waits for the end.
func (p *pane) do(part string, fills ...string) *pane {
	p.t.Helper()
	p.press("/").see("Any step:").press("="+part, "Enter")
	for _, f := range fills {
		p.see("Next: ")
		if f != "" {
			p.press("=" + f)
		}
		p.press("Enter")
	}
	return p.agree()
}

// agree does what the screen says it will do, and waits for its end.
func (p *pane) agree() *pane {
	p.t.Helper()
	p.see("Enter does it").press("Enter")
	p.until("the sentence to be taken", func(text string) bool { return !strings.Contains(text, "Enter does it") })
	return p.see(" held")
}

// number is what home counts a case as, once it shows it.
func (p *pane) number(title string) string {
	p.t.Helper()
	counted := regexp.MustCompile(`([1-9])  ` + regexp.QuoteMeta(title)).FindStringSubmatch(p.see(title).text())
	if counted == nil {
		p.t.Fatalf("%q has no number; on the screen:\n%s", title, p.text())
	}
	return counted[1]
}

// TestAPlayOnTheScreen plays a shipped case in a real terminal, from home to
// the debrief, by keyboard alone, and replays what it left.
func TestAPlayOnTheScreen(t *testing.T) {
	home := t.TempDir()
	p := panes(t, home, "")
	p.press(p.number("A bridge through the night")).see("You practise to").press("End").see("Enter start the clock").press("Enter")
	p.see("0:00:00   x60 held").press("x").see("x600 held")
	p.do("read the order").see("keep the mean at")
	p.press("l", "Right", "u").agree().see("share in vein").press("Escape")
	p.do("mix", "4 mg", "250 mL", "").see("sum open: concentration")
	p.press("b").see("sum: concentration").press("Home", "Enter").see("Your answer in mcg/mL").press("=16 mcg/mL", "Enter").see("you gave 16 mcg/mL").press("Escape")
	p.do("label") // there is one bag, so it is not asked for
	p.do("hang", "").see("sum open: rate").press("Escape").see("go on with the case").press("Escape")
	p.do("prime").do("set", "", "11 mL/h")
	p.do("primed to the tip")
	p.do("let it run").see("running")
	p.press("w").see("How long").press("=10", "Enter").see("held")
	p.press("o").see("right-dorsal-hand").press("Down", "Enter").see("like the skin around").see("held").press("Down", "Enter").see("soft").press("Escape")
	p.press("n").see("Write:").press("=Running through the hand.", "Enter").see("Done: write in the notes")
	p.press("Escape").see("end the case").press("End", "Enter").see("yes, end it").press("Down", "Enter").see("Before the marks")
	for range 6 {
		p.press("Enter")
		time.Sleep(100 * time.Millisecond)
		if strings.Contains(p.text(), "Result:") {
			break
		}
	}
	p.see("Result: ").press("Right").see("What was true but not shown").press("Right", "Right").see("teaching model").press("Escape").see("rehearse a vasopressor").press("q").see("EXIT=0").see("blanch replay")

	paths, _ := filepath.Glob(filepath.Join(home, "*.jsonl"))
	if len(paths) != 1 {
		t.Fatalf("%d recordings, want 1", len(paths))
	}
	if out, err := exec.Command("blanch", "replay", paths[0]).CombinedOutput(); err != nil {
		t.Errorf("replay: %v\n%s", err, out)
	}
}

var shownClock = regexp.MustCompile(`(\d+):(\d\d):(\d\d)   x60 running`)

// TestKilledOnTheScreen kills the command while its clock runs: no more than a
// real second is lost, home offers the attempt, and it goes on where it stood.
func TestKilledOnTheScreen(t *testing.T) {
	home := t.TempDir()
	p := panes(t, home, "play night-bridge --seed 3")
	p.see("You practise to").press("End").see("Enter start the clock").press("Enter").see("x60 held").press("Space").see("0:02:")
	shown := shownClock.FindStringSubmatch(p.text())
	if shown == nil {
		t.Fatalf("no running clock on the screen:\n%s", p.text())
	}
	pid, err := strconv.Atoi(strings.TrimSpace(p.tmux("display", "-p", "#{pane_pid}")))
	if err != nil {
		t.Fatal(err)
	}
	children, err := exec.Command("pgrep", "-P", strconv.Itoa(pid)).Output()
	if err != nil {
		lacking(t, "the command's process cannot be found here: %v", err)
	}
	child, err := strconv.Atoi(strings.Fields(string(children))[0])
	if err != nil {
		t.Fatal(err)
	}
	process, err := os.FindProcess(child)
	if err != nil {
		t.Fatal(err)
	}
	if err := process.Kill(); err != nil {
		t.Fatal(err)
	}
	p.see("EXIT=137")
	stood := sim.Time(0)
	for _, part := range shown[1:] {
		n, _ := strconv.Atoi(part)
		stood = stood*60 + sim.Time(n)*sim.Second
	}
	reached := sim.Time(kept(t, home).Reached)
	if lost := stood - reached; lost > 60*sim.Second {
		t.Errorf("the clock was shown at %s and %s is recorded: more than a real second is lost", stood.Exact(), reached.Exact())
	}

	r := panes(t, home, "")
	r.see("r  go on: A bridge through the night, at 0:0").press("r").see(reached.Exact()).see("held")
	r.press("n").see("Write:").press("=half a sen").see("half a sen")
	deadline := time.Now().Add(10 * time.Second)
	for kept(t, home).Draft != "write in the notes: half a sen" && time.Now().Before(deadline) {
		time.Sleep(50 * time.Millisecond)
	}
	r.press("C-c").see("EXIT=4").see("blanch resume")
	if text := r.text(); strings.Contains(text, "Write:") {
		t.Errorf("the screen is left as it was drawn:\n%s", text)
	}
	again := panes(t, home, "resume")
	again.see("half a sen").press("Escape", "q").see("The clock stands. Everything").press("q").see("EXIT=0")
}

// TestTheScreenNeedsATerminal: without one, and where lines were asked for, the
// prompt is there.
func TestTheScreenNeedsATerminal(t *testing.T) {
	p := panes(t, t.TempDir(), "--lines")
	p.see("Type a number to read its briefing").press("=quit", "Enter").see("EXIT=0")
	ascii := panes(t, t.TempDir(), "--ascii --no-colour")
	ascii.number("A bridge through the night")
	ascii.see("--------------------")
	ascii.press("q").see("EXIT=0")
}

// TestALostConnection takes the terminal away while the clock runs.
func TestALostConnection(t *testing.T) {
	home := t.TempDir()
	p := panes(t, home, "play night-bridge --seed 3")
	p.see("You practise to").press("End").see("Enter start the clock").press("Enter").see("x60 held").press("Space").see("0:01:")
	p.tmux("kill-server")
	deadline := time.Now().Add(10 * time.Second)
	for kept(t, home).Reached < int64(sim.Minute) && time.Now().Before(deadline) {
		time.Sleep(50 * time.Millisecond)
	}
	if log := kept(t, home); log.Reached < int64(sim.Minute) {
		t.Errorf("%s is recorded, want at least the minute that was shown", sim.Time(log.Reached).Exact())
	}
	r := panes(t, home, "")
	r.see("r  go on: A bridge through the night").press("r").see("x60 held").press("q").see("The clock stands. Everything").press("q").see("EXIT=0")
}

func TestLocaleSaysWhetherUTF8(t *testing.T) {
	for _, c := range []struct {
		system string
		env    map[string]string
		want   bool
	}{
		{"linux", map[string]string{}, false},
		{"linux", map[string]string{"LANG": "en_GB.UTF-8"}, true},
		{"linux", map[string]string{"LANG": "en_GB.UTF-8", "LC_ALL": "C"}, false},
		{"linux", map[string]string{"LANG": "C", "LC_CTYPE": "C.utf8"}, true},
		{"windows", map[string]string{}, true},
		{"windows", map[string]string{"LC_ALL": "C"}, false},
	} {
		if got := utf8Locale(c.system, func(name string) string { return c.env[name] }); got != c.want {
			t.Errorf("%s, %v: %t, want %t", c.system, c.env, got, c.want)
		}
	}
}

func TestWhatCanBeDrawnOn(t *testing.T) {
	for _, c := range []struct {
		system, term string
		want         bool
	}{
		{"linux", "xterm", true}, {"linux", "", false}, {"linux", "dumb", false}, {"darwin", "", false},
		{"windows", "", true}, {"windows", "xterm", true}, {"windows", "dumb", false},
	} {
		if got := draws(c.system, func(string) string { return c.term }); got != c.want {
			t.Errorf("%s with TERM=%q: %t, want %t", c.system, c.term, got, c.want)
		}
	}
}
