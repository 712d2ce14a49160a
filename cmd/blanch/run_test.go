package main

import (
	"bytes"
	"errors"
	"fmt"
	"io/fs"
	"os"
	"strings"
	"syscall"
	"testing"

	"blanch/cmd/blanch/internal/prompt"
	"blanch/cmd/blanch/internal/session"
	"blanch/cmd/blanch/internal/store"
	"blanch/cmd/blanch/internal/ui"
)

// TestExitCodes: a fault of ours is not told as a command that was not
// understood, and neither is one of the disk.
func TestExitCodes(t *testing.T) {
	full := &fs.PathError{Op: "write", Path: "a.jsonl", Err: syscall.ENOSPC}
	for name, c := range map[string]struct {
		err  error
		want int
	}{
		"nothing":           {nil, exitFine},
		"left":              {prompt.ErrLeft, exitFine},
		"interrupted":       {ui.ErrInterrupted, exitInterrupted},
		"misused":           {misused("--runs %d", 3), exitUsage},
		"a full disk":       {fmt.Errorf("beginning: %w", full), exitUnreadable},
		"a call":            {os.NewSyscallError("flock", syscall.ENOLCK), exitUnreadable},
		"a link":            {&os.LinkError{Op: "rename", Err: syscall.EXDEV}, exitUnreadable},
		"in use":            {fmt.Errorf("x: %w", store.ErrInUse), exitUnreadable},
		"refused":           {&session.RefusedError{Report: "x"}, exitUnreadable},
		"anything else":     {errors.New("broken on purpose"), exitBroken},
		"a panic":           {&ui.PanicError{Value: "broken on purpose"}, exitBroken},
		"a panic, not kept": {alsoLost(&ui.PanicError{Value: "broken on purpose"}, unreadable(full)), exitBroken},
		"left, not kept":    {alsoLost(prompt.ErrLeft, unreadable(full)), exitUnreadable},
		"Ctrl-C, not kept":  {alsoLost(ui.ErrInterrupted, unreadable(full)), exitUnreadable},
		"ended, not kept":   {alsoLost(nil, unreadable(full)), exitUnreadable},
		"ended and kept":    {alsoLost(nil, nil), exitFine},
	} {
		var told bytes.Buffer
		p := &program{err: &told}
		if code := p.code(c.err); code != c.want {
			t.Errorf("%s: exit code %d, want %d; told %q", name, code, c.want, told.String())
		}
		if strings.Contains(told.String(), "blanch help") != (c.want == exitUsage) {
			t.Errorf("%s: told %q", name, told.String())
		}
		if strings.Contains(name, "panic") && !strings.Contains(told.String(), "broken on purpose") || strings.Contains(name, "not kept") && !strings.Contains(told.String(), "no space left") {
			t.Errorf("%s: told %q", name, told.String())
		}
	}
}

// TestWhatTheCommandCannotUnderstand ends with 2, whoever finds it out.
func TestWhatTheCommandCannotUnderstand(t *testing.T) {
	for _, args := range [][]string{
		{"wander"}, {"play"}, {"play", "a", "b"}, {"replay"}, {"resume", "a", "b"}, {"--no-such"}, {"play", "x", "--no-such"}, {"play", "night-bridge", "--seed", "x"},
		{"policy", "diff", "a"}, {"quiz", "progress", "x"}, {"completion", "bash", "x"},
		{"play", "night-bridge", "--speed", "-5"}, {"play", "night-bridge", "--speed", "NaN"}, {"play", "night-bridge", "--speed", "1e300"}, {"play", "night-bridge", "--speed", "+Inf"},
		{"resume", "--speed", "-5"}, {"resume", "--speed", "NaN"}, {"resume", "--speed", "1e300"}, {"resume", "x.jsonl", "--speed", "2e6"},
	} {
		var out, told bytes.Buffer
		if code := run(args, strings.NewReader(""), &out, &told); code != exitUsage {
			t.Errorf("%q: exit code %d, want %d: %s", args, code, exitUsage, told.String())
		}
	}
	for _, speed := range []float64{0, 0.5, 60, 1e6} {
		if err := validSpeed(speed); err != nil {
			t.Error(err)
		}
	}
}
