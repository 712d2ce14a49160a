package main

import (
	"bytes"
	"errors"
	"io/fs"
	"os"
	"regexp"
	"strings"
	"testing"

	"blanch/content"
)

// block is a fenced block of the guide.
type block struct {
	line  int
	about string // "yaml", "yaml fault", "console"
	text  []string
}

func blocksOf(t *testing.T, guide string) []block {
	t.Helper()
	var out []block
	open := false
	for i, l := range strings.Split(guide, "\n") {
		switch about, fence := strings.CutPrefix(l, "```"); {
		case fence && !open:
			out, open = append(out, block{line: i + 1, about: about}), true
		case fence:
			open = false
		case open:
			out[len(out)-1].text = append(out[len(out)-1].text, l)
		}
	}
	if open {
		t.Fatal("a block of the guide is not closed")
	}
	return out
}

// topKey is a key that stands at the beginning of a line.
var topKey = regexp.MustCompile(`^([a-z][a-z -]*):`)

// sections cuts a file at its top keys. What stands before the first has the
// key "".
func sections(lines []string) (keys []string, parts map[string][]string) {
	parts, keys = map[string][]string{}, []string{""}
	key := ""
	for _, l := range lines {
		if m := topKey.FindStringSubmatch(l); m != nil {
			key = m[1]
			keys = append(keys, key)
		}
		parts[key] = append(parts[key], l)
	}
	return keys, parts
}

// putIn does what the guide tells: what a block shows replaces what the file
// has under the same keys, and what it does not have is added at its end.
func putIn(file string, shown []string) (string, error) {
	src, err := os.ReadFile(file)
	if err != nil && !errors.Is(err, fs.ErrNotExist) {
		return "", err
	}
	keys, parts := sections(strings.Split(strings.TrimRight(string(src), "\n"), "\n"))
	newKeys, newParts := sections(shown)
	for _, k := range newKeys[1:] {
		if parts[k] == nil {
			keys = append(keys, k)
		}
		parts[k] = append(newParts[k], trailing(parts[k])...)
	}
	var b strings.Builder
	for _, k := range keys {
		for _, l := range parts[k] {
			b.WriteString(l + "\n")
		}
	}
	return b.String(), os.WriteFile(file, []byte(b.String()), 0o600)
}

// trailing are the blank lines and comments at the end of a section, which
// belong to what comes after it.
func trailing(part []string) []string {
	end := len(part)
	for end > 0 && (strings.TrimSpace(part[end-1]) == "" || strings.HasPrefix(part[end-1], "#")) {
		end--
	}
	return part[end:]
}

// Every example of the guide is followed to the letter, from an empty folder:
// files are made and changed as it says, each change checks clean unless it is
// called a fault, commands are run and print what is shown, and what comes
// out at the end plays.
func TestGuide(t *testing.T) {
	t.Chdir(t.TempDir())
	t.Setenv("BLANCH_HOME", t.TempDir())
	const usual = "dusk-leak.yaml"
	changes, commands := 0, 0
	for _, b := range blocksOf(t, content.Guide()) {
		switch b.about {
		case "yaml", "yaml fault":
			file := usual
			shown := b.text
			if name, ok := strings.CutPrefix(shown[0], "# "); ok && strings.HasSuffix(name, ".yaml") {
				file, shown = name, shown[1:]
			}
			before, err := os.ReadFile(file)
			if err != nil {
				t.Fatalf("line %d: %v", b.line, err)
			}
			if _, err := putIn(file, shown); err != nil {
				t.Fatalf("line %d: %v", b.line, err)
			}
			after, _ := os.ReadFile(file)
			if bytes.Equal(before, after) {
				t.Errorf("line %d: the example changes nothing", b.line)
			}
			out, code := command("check", "--strict", file)
			if wrong := code != exitFine; wrong != (b.about == "yaml fault") {
				t.Errorf("line %d: exit code %d\n%s", b.line, code, out)
			}
			changes++
		case "console":
			follow(t, b)
			commands++
		case "text":
			if err := os.WriteFile(strings.TrimPrefix(b.text[0], "# "), []byte(strings.Join(b.text, "\n")+"\n"), 0o600); err != nil {
				t.Fatal(err)
			}
		default:
			t.Errorf("line %d: a block %q is not executed", b.line, b.about)
		}
	}
	if changes < 10 || commands < 10 {
		t.Errorf("only %d changes and %d commands", changes, commands)
	}
	if out, code := command("check", "--strict", "."); code != exitFine {
		t.Errorf("what the guide leads to is not clean:\n%s", out)
	}
}

// command runs blanch and gives all that it prints.
func command(args ...string) (string, int) {
	var out bytes.Buffer
	code := run(args, strings.NewReader(""), &out, &out)
	return out.String(), code
}

// follow runs the commands of a block; the lines under each must be printed,
// in that order. A line of three points stands for any others.
func follow(t *testing.T, b block) {
	t.Helper()
	printed := ""
	for i, l := range b.text {
		if typed, ok := strings.CutPrefix(l, "$ blanch"); ok {
			printed, _ = command(split(typed)...)
			continue
		}
		if l == "..." || l == "" {
			continue
		}
		at := strings.Index("\n"+printed, "\n"+l+"\n")
		if at < 0 {
			t.Errorf("line %d: not printed: %s\nbut\n%s", b.line+1+i, l, printed)
			return
		}
		printed = printed[min(len(printed), at+len(l)):]
	}
}

// split cuts a command line; quotation marks hold words together.
func split(typed string) []string {
	var out []string
	for i, part := range strings.Split(typed, `"`) {
		if i%2 == 1 {
			out = append(out, part)
			continue
		}
		out = append(out, strings.Fields(part)...)
	}
	return out
}
