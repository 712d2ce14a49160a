package main

import (
	"bytes"
	"errors"
	"os"
	"os/exec"
	"path/filepath"
	"strconv"
	"strings"
	"unicode/utf8"

	"github.com/rogpeppe/go-internal/testscript"

	"blanch/cmd/blanch/internal/store"
)

// scriptCommands are the words that the scripts have beside the usual ones.
var scriptCommands = map[string]func(ts *testscript.TestScript, neg bool, args []string){
	"exits":      exits,
	"spoil":      spoil,
	"forge":      forge,
	"replay-all": replayAll,
	"narrow":     narrow,
}

// exits runs a command and wants exactly this exit code.
func exits(ts *testscript.TestScript, neg bool, args []string) {
	want, err := strconv.Atoi(args[0])
	ts.Check(err)
	err = ts.Exec(args[1], args[2:]...)
	got := 0
	var exit *exec.ExitError
	if errors.As(err, &exit) {
		got = exit.ExitCode()
	} else {
		ts.Check(err)
	}
	if (got == want) == neg {
		ts.Fatalf("exit code %d, want %d", got, want)
	}
}

// spoil changes bytes of a file and nothing that depends on them.
func spoil(ts *testscript.TestScript, _ bool, args []string) {
	path := ts.MkAbs(args[0])
	src, err := os.ReadFile(path)
	ts.Check(err)
	changed := bytes.Replace(src, []byte(args[1]), []byte(args[2]), 1)
	if bytes.Equal(src, changed) {
		ts.Fatalf("%s does not hold %q", args[0], args[1])
	}
	ts.Check(os.WriteFile(path, changed, 0o600))
}

// forge writes a recording anew with something changed, checksums and all:
// "journal OLD NEW" in what was stored, or "revision 0 N".
func forge(ts *testscript.TestScript, _ bool, args []string) {
	path := ts.MkAbs(args[0])
	log, err := store.Open(path)
	ts.Check(err)
	ts.Check(os.Remove(path))
	if args[1] == "revision" {
		log.Head.Revision, err = strconv.Atoi(args[3])
		ts.Check(err)
	}
	rec, err := store.Create(path, log.Head)
	ts.Check(err)
	for _, l := range log.Lines {
		if l.Ended != nil && args[1] == "journal" {
			l.Ended.Journal = strings.Replace(l.Ended.Journal, args[2], args[3], 1)
		}
		ts.Check(rec.Append(l))
	}
	ts.Check(rec.Close())
}

// replayAll replays every recording of a folder.
func replayAll(ts *testscript.TestScript, _ bool, args []string) {
	paths, err := filepath.Glob(filepath.Join(ts.MkAbs(args[0]), "*.jsonl"))
	ts.Check(err)
	if len(paths) == 0 {
		ts.Fatalf("no recording in %s", args[0])
	}
	for _, path := range paths {
		ts.Check(ts.Exec("blanch", "replay", path))
	}
}

// narrow wants no line of stdout or of a file to be wider than 80 columns.
func narrow(ts *testscript.TestScript, neg bool, args []string) {
	wide := ""
	for line := range strings.Lines(ts.ReadFile(args[0])) {
		if line = strings.TrimRight(line, "\n"); utf8.RuneCountInString(line) > 80 {
			wide = line
		}
	}
	if (wide == "") == neg {
		ts.Fatalf("%s: wider than 80 columns: %q", args[0], wide)
	}
}
