package main

import (
	"bytes"
	"errors"
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"strconv"
	"strings"
	"testing"

	"blanch/cmd/blanch/internal/store"
)

// TestAFullDiskIsNotCalledSaved plays into a file that has no room for its last
// line: the marks are shown, and nobody is told that they are kept.
func TestAFullDiskIsNotCalledSaved(t *testing.T) {
	bin, err := exec.LookPath("blanch")
	if err != nil {
		lacking(t, "the command cannot be started here: %v", err)
	}
	sh, err := exec.LookPath("sh")
	if err != nil {
		lacking(t, "no shell that limits the size of files: %v", err)
	}
	dir := t.TempDir()
	limited := func(blocks int, path string) (out, told string, code int) {
		t.Helper()
		limit := ""
		if blocks > 0 {
			limit = "ulimit -f " + strconv.Itoa(blocks) + " && "
		}
		cmd := exec.Command(sh, "-c", limit+`exec "$0" play testdata/files/small.yaml --lines --seed 3 --record "$1"`, bin, path)
		cmd.Stdin = strings.NewReader("\nread the order\nread the notes\nwait 11 min\nwait 10 min\nwait 10 min\nwait 10 min\nI looked\nquit\n")
		var stdout, stderr bytes.Buffer
		cmd.Stdout, cmd.Stderr = &stdout, &stderr
		err := cmd.Run()
		var exit *exec.ExitError
		if err != nil && !errors.As(err, &exit) {
			t.Fatal(err)
		}
		return stdout.String(), stderr.String(), cmd.ProcessState.ExitCode()
	}

	whole := filepath.Join(dir, "whole.jsonl")
	out, told, code := limited(0, whole)
	if code != exitFine || !strings.Contains(out, "Finished and saved (seed 3)") {
		t.Fatalf("exit code %d, %s\n%s", code, told, out)
	}
	src, err := os.ReadFile(whole)
	if err != nil {
		t.Fatal(err)
	}
	last := bytes.LastIndexByte(src[:len(src)-1], '\n') + 1
	blocks := (len(src) - 1) / blockSize(t, sh)
	if blocks*blockSize(t, sh) <= last {
		t.Fatalf("no end of a block lies in the last line, of %d bytes from %d on", len(src)-last, last)
	}

	cut := filepath.Join(dir, "cut.jsonl")
	out, told, code = limited(blocks, cut)
	if code != exitUnreadable || strings.Contains(out, "Finished and saved") || strings.Contains(out, "\nSaved") {
		t.Errorf("exit code %d, want %d; it ends with\n%s", code, exitUnreadable, out[max(0, len(out)-300):])
	}
	for _, want := range []string{"NOT saved from 0:30:00 on: ", "file too large", "blanch resume " + cut} {
		if !strings.Contains(told, want) {
			t.Errorf("not told: %q\n%s", want, told)
		}
	}
	if !strings.Contains(out, "NOT saved from 0:30:00 on: ") || !strings.Contains(out, "Result:") {
		t.Errorf("the marks do not say it:\n%s", out)
	}
	if log, err := store.Open(cut); err != nil || log.Ended != nil {
		t.Errorf("the recording: %v, ended %t", err, log.Ended != nil)
	}
}

// blockSize is what the shell counts the size of files in.
func blockSize(t *testing.T, sh string) int {
	t.Helper()
	path := filepath.Join(t.TempDir(), "a")
	exec.Command(sh, "-c", `ulimit -f 1; printf '%2000s' x >"$0"`, path).Run() // fails, as it should
	info, err := os.Stat(path)
	if err != nil || info.Size() < 512 || info.Size() > 1024 {
		lacking(t, "this shell does not limit the size of files: %v", err)
	}
	return int(info.Size())
}

// TestAForeignRecordingIsPrintedHarmless: recordings are what people send each
// other, and what stands in one never reaches the terminal raw.
func TestAForeignRecordingIsPrintedHarmless(t *testing.T) {
	home := t.TempDir()
	t.Setenv("BLANCH_HOME", home)
	const nasty = "x\x1b]0;owned\x07y\u009b31mz\u202ew"
	seen := func(args ...string) string {
		t.Helper()
		var out, told bytes.Buffer
		run(args, strings.NewReader("quit\n"), &out, &told)
		all := out.String() + told.String()
		if strings.ContainsAny(all, "\x1b\x07\u009b\u202e") {
			t.Errorf("%q prints raw:\n%+q", args, all)
		}
		return all
	}
	path := filepath.Join(home, "one.jsonl")
	steps := filepath.Join(home, "steps.txt")
	if err := os.WriteFile(steps, []byte("at 0 min: read the order\n"), 0o600); err != nil {
		t.Fatal(err)
	}
	seen("play", "testdata/files/small.yaml", "--script", steps, "--record", path)
	log, err := store.Open(path)
	if err != nil {
		t.Fatal(err)
	}
	forged := func(name string, change func(h *store.Head, lines []store.Line) []store.Line) string {
		t.Helper()
		h := log.Head
		lines := change(&h, append([]store.Line(nil), log.Lines...))
		to := filepath.Join(home, name)
		r, err := store.Create(to, h)
		if err != nil {
			t.Fatal(err)
		}
		for _, l := range lines {
			err = errors.Join(err, r.Append(l))
		}
		if err := errors.Join(err, r.Close()); err != nil {
			t.Fatal(err)
		}
		return to
	}
	ended := func(journal, sheet string) store.Line {
		return store.Line{Ended: &store.Ended{At: log.Reached, Journal: journal, Sheet: sheet}}
	}
	want := func(text string) {
		t.Helper()
		if !strings.Contains(text, "x?]0;owned?y?31mz?w") {
			t.Errorf("it is not shown at all:\n%s", text)
		}
	}

	stored := forged("stored.jsonl", func(h *store.Head, lines []store.Line) []store.Line {
		h.Revision = 9999
		return append(lines[:len(lines)-1], ended("0:00:00  "+nasty+"\n0:01:00  more\n", nasty+"\n"))
	})
	if text := seen("replay", stored); !strings.Contains(text, "\n0:01:00  more\n") {
		t.Errorf("line ends are lost:\n%s", text)
	}
	want(seen("replay", stored))
	reflected := forged("reflected.jsonl", func(h *store.Head, lines []store.Line) []store.Line {
		end := lines[len(lines)-1]
		return append(lines[:len(lines)-1], store.Line{Do: &store.Do{At: log.Reached, Said: "reflect 1: " + nasty}}, end)
	})
	want(seen("replay", reflected))
	seen("replay", reflected, "--policy", "gannet-street")
	seen("replay", reflected, "--move")
	forged("head.jsonl", func(h *store.Head, lines []store.Line) []store.Line {
		h.CaseFile, h.Case = nasty, "nothing\n"
		return []store.Line{{Do: &store.Do{At: 5, Said: nasty}}, {Draft: &store.Draft{Text: nasty}}}
	})
	want(seen())
	seen("resume")
	seen("replay", filepath.Join(home, "head.jsonl"))
	good := forged("draft.jsonl", func(h *store.Head, lines []store.Line) []store.Line {
		return []store.Line{{Reached: &store.Reached{At: 5}}, {Draft: &store.Draft{Text: nasty}}}
	})
	want(seen("resume", good))
	forged("note.jsonl", func(h *store.Head, lines []store.Line) []store.Line {
		return []store.Line{{Do: &store.Do{At: 5, Said: "write in the notes: " + nasty}}}
	})
	seen("resume", filepath.Join(home, "note.jsonl"))
}

// TestResumeTellsWhatItCannotRead and goes on with the last that it can.
func TestResumeTellsWhatItCannotRead(t *testing.T) {
	home := t.TempDir()
	t.Setenv("BLANCH_HOME", home)
	var out, told bytes.Buffer
	if code := run([]string{"play", "testdata/files/small.yaml", "--lines"}, strings.NewReader("\nread the order\nquit\n"), &out, &told); code != exitFine {
		t.Fatalf("exit code %d: %s", code, told.String())
	}
	paths, _ := filepath.Glob(filepath.Join(home, "*.jsonl"))
	src, err := os.ReadFile(paths[0])
	if err != nil {
		t.Fatal(err)
	}
	for name, damaged := range map[string][]byte{
		"zz-end.jsonl":    append([]byte("{}\n"), "{}\n"...),
		"zz-head.jsonl":   bytes.Replace(src, []byte(`"revision":`), []byte(`"revisiom":`), 1),
		"zz-middle.jsonl": bytes.Replace(src, []byte(`"said":"read the order`), []byte(`"said":"read the ordes`), 1),
	} {
		if bytes.Equal(damaged, src) {
			t.Fatalf("%s is not damaged", name)
		}
		if err := os.WriteFile(filepath.Join(home, name), damaged, 0o600); err != nil {
			t.Fatal(err)
		}
	}
	out.Reset()
	told.Reset()
	if code := run([]string{"resume", "--lines"}, strings.NewReader("quit\n"), &out, &told); code != exitFine {
		t.Errorf("exit code %d", code)
	}
	if !strings.Contains(out.String(), "A small bridge, resumed") {
		t.Errorf("it does not go on:\n%s", out.String())
	}
	for _, name := range []string{"zz-end", "zz-head", "zz-middle"} {
		if want := fmt.Sprintf("recording %s: ", filepath.Join(home, name+".jsonl")); !strings.Contains(told.String(), want) {
			t.Errorf("not told: %q\n%s", want, told.String())
		}
	}
	out.Reset()
	told.Reset()
	run(nil, strings.NewReader("quit\n"), &out, &told)
	for _, name := range []string{"zz-end", "zz-head"} {
		if !strings.Contains(told.String(), name) {
			t.Errorf("home does not tell of %s:\n%s", name, told.String())
		}
	}
	if !strings.Contains(out.String(), "A small bridge, at 0:00") {
		t.Errorf("home does not offer it:\n%s", out.String())
	}
}
