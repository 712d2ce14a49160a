package main

import (
	"bytes"
	"path/filepath"
	"strings"
	"testing"
)

func TestCommandsAreShownAsTyped(t *testing.T) {
	for word, want := range map[string]string{
		"night-bridge": "night-bridge", "cases/night_1.yaml": "cases/night_1.yaml", "my cases/a.yaml": "'my cases/a.yaml'",
		"it's.yaml": `'it'\''s.yaml'`, "a;b": "'a;b'", "$x": "'$x'",
		"b$HOME`id`.jsonl": "'b$HOME`id`.jsonl'", "": "''",
	} {
		if got := asTyped(word); got != want {
			t.Errorf("%s: %s, want %s", word, got, want)
		}
	}
}

// A command that is shown for a new file can be pasted, whatever its folder is
// called.
func TestNewShowsCommandsAsTyped(t *testing.T) {
	dir := filepath.Join(t.TempDir(), "b$HOME`id`")
	out, code := command("new", "case", "night", "--in", dir)
	file := "'" + filepath.Join(dir, "night.yaml") + "'"
	for _, want := range []string{"  blanch check " + file + "\n", "  blanch preview " + file + "\n", "  blanch play " + file + "\n"} {
		if code != exitFine || !strings.Contains(out, want) {
			t.Errorf("exit code %d, no %q in %s", code, want, out)
		}
	}
	if out, _ = command("new", "items", "some", "--in", dir); !strings.Contains(out, "preview items '") {
		t.Error(out)
	}
}

// So can those about a recording and a script.
func TestRecordingsAreShownAsTyped(t *testing.T) {
	t.Setenv("BLANCH_HOME", t.TempDir())
	dir := folder(t, map[string]string{"b$HOME`id`/script.txt": "at 0 min: read the order\n"})
	named := func(name string) (path, typed string) {
		path = filepath.Join(dir, "b$HOME`id`", name)
		return path, "'" + path + "'"
	}
	whole, _ := named("whole.jsonl")
	half, halfTyped := named("half.jsonl")
	script, _ := named("script.txt")
	other, otherTyped := named("other.txt")
	if out, code := command("play", "night-bridge", "--script", script, "--record", whole); code != exitFine {
		t.Fatal(out)
	}
	var out bytes.Buffer
	run([]string{"play", "night-bridge", "--record", half}, strings.NewReader("\nread the order\nquit\n"), &out, &out)
	if !strings.Contains(out.String(), "\n  blanch resume "+halfTyped+"\n") {
		t.Errorf("after leaving: %s", out.String())
	}
	for _, c := range []struct {
		args []string
		want string
	}{
		{[]string{"replay", half}, "blanch resume " + halfTyped + " goes on"},
		{[]string{"replay", half, "--move"}, "blanch resume " + halfTyped + " goes on"},
		{[]string{"replay", whole, "--move", "1 later by 5 min", "--script-out", other}, "script: " + otherTyped + ". To play it: blanch play night-bridge --script " + otherTyped + " "},
	} {
		if out, _ := command(c.args...); !strings.Contains(out, c.want) {
			t.Errorf("%q does not say %q: %s", c.args, c.want, out)
		}
	}
}
