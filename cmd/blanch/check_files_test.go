package main

import (
	"encoding/json"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"blanch/scenarios"
)

// faultsOf are the codes of the errors of a check, each with its file.
func faultsOf(c *checker) []string {
	var codes []string
	for _, f := range c.complaints {
		if f.Level == scenarios.Error {
			codes = append(codes, f.Code+" "+filepath.Base(f.Pos.File))
		}
	}
	return codes
}

// folder writes files into a folder of their own.
func folder(t *testing.T, files map[string]string) string {
	t.Helper()
	dir := t.TempDir()
	for name, text := range files {
		if err := os.MkdirAll(filepath.Dir(filepath.Join(dir, name)), 0o700); err != nil {
			t.Fatal(err)
		}
		write(t, filepath.Join(dir, name), text)
	}
	return dir
}

func naming(t *testing.T, what, id, instead string) string {
	t.Helper()
	sound := scaffolded(t, "case", "my-case")
	text := strings.Replace(sound, what+": "+id, what+": "+instead, 1)
	if text == sound {
		t.Fatal("the scaffold has changed")
	}
	return text
}

// A case is checked and its walk-throughs are played when the file that it
// names gives itself another name, whether that file is checked too or not.
func TestACaseWithAFileOfAnotherNameIsChecked(t *testing.T) {
	for what, id := range map[string]string{"policy": "alder-court", "place": "tern-ward"} {
		dir := folder(t, map[string]string{"my-case.yaml": naming(t, what, id, "mine"), "mine.yaml": scaffolded(t, what, "other")})
		for _, paths := range [][]string{{dir}, {filepath.Join(dir, "my-case.yaml")}, {filepath.Join(dir, "mine.yaml"), filepath.Join(dir, "my-case.yaml")}} {
			c, err := check(paths)
			if err != nil {
				t.Fatal(err)
			}
			if got := faultsOf(c); !slices.Equal(got, []string{"wrong-name mine.yaml"}) || c.walks != 3 {
				t.Errorf("%s, %d paths: %q, %d walk-throughs", what, len(paths), got, c.walks)
			}
		}
	}
}

// What a case names and what has faults is not unknown besides, in whatever
// folder it was checked, and neither for a walk-through.
func TestFaultyIsNotUnknown(t *testing.T) {
	faulty := strings.Replace(scaffolded(t, "policy", "mine"), "least share: 65 %", "least share: 650 %", 1)
	walked := strings.Replace(scaffolded(t, "case", "my-case"), "    passes: true\n", "    passes: true\n    policy: mine\n", 1)
	for name, text := range map[string]string{"of the case": naming(t, "policy", "alder-court", "mine"), "of a walk-through": walked} {
		dir := folder(t, map[string]string{"a/my-case.yaml": text, "b/mine.yaml": faulty})
		c, err := check([]string{dir})
		if err != nil {
			t.Fatal(err)
		}
		if got := faultsOf(c); !slices.Equal(got, []string{"out-of-range mine.yaml"}) {
			t.Errorf("%s: %q", name, got)
		}
	}
}

// Two files that give themselves one name are a fault with both places.
func TestTwoFilesOfOneName(t *testing.T) {
	for _, kind := range []string{"place", "policy", "fragment"} {
		dir := folder(t, map[string]string{"a.yaml": scaffolded(t, kind, "pa"), "b.yaml": scaffolded(t, kind, "pa")})
		c, err := check([]string{dir})
		if err != nil {
			t.Fatal(err)
		}
		if got := faultsOf(c); !slices.Equal(got, []string{"given-twice b.yaml"}) {
			t.Errorf("%s: %q", kind, got)
			continue
		}
		for _, f := range c.complaints {
			if f.Code == "given-twice" && (f.Also == nil || filepath.Base(f.Also.File) != "a.yaml" || f.Pos.Line != f.Also.Line || f.Pos.Line < 2) {
				t.Errorf("%s: at %s, and also %v", kind, f.Pos, f.Also)
			}
		}
	}
}

// A file that is named in several ways is checked once and told once.
func TestOneFileInSeveralSpellings(t *testing.T) {
	dir := folder(t, map[string]string{
		"kp.yaml": strings.Replace(scaffolded(t, "place", "kp"), "ultrasound: true", "ultrasound: ture", 1),
		"kc.yaml": naming(t, "place", "tern-ward", "kp"),
	})
	t.Chdir(dir)
	for _, paths := range [][]string{{"kp.yaml", "kc.yaml"}, {"./kp.yaml", "./kc.yaml"}, {"kc.yaml", dir + "/kp.yaml"}, {".", "../" + filepath.Base(dir)}, {"kc.yaml"}} {
		c, err := check(paths)
		if err != nil {
			t.Fatal(err)
		}
		if got := faultsOf(c); !slices.Equal(got, []string{"not-true-or-false kp.yaml"}) {
			t.Errorf("%q: %q", paths, got)
		}
		if len(paths) > 1 && len(c.files) != 2 {
			t.Errorf("%q: files %q", paths, c.files)
		}
	}
}

// What is there under the name that a case gives and cannot be read is an
// error of its own, for the checks and for playing.
func TestWhatIsNamedAndCannotBeRead(t *testing.T) {
	for what, id := range map[string]string{"place": "tern-ward", "policy": "alder-court", "fragment": "leak-response"} {
		text := scaffolded(t, "case", "my-case")
		if what == "fragment" {
			text = strings.Replace(text, "\nrules:\n", "\nuses: [leak-response]\nrules:\n", 1)
		}
		dir := folder(t, map[string]string{"my-case.yaml": text, id + ".yaml/x": ""})
		file := filepath.Join(dir, "my-case.yaml")
		for _, args := range [][]string{{"check", file}, {"play", file, "--script", os.DevNull}} {
			out, code := command(args...)
			if code != exitUnreadable || !strings.Contains(out, "its "+what) || !strings.Contains(out, id+".yaml") || strings.Contains(out, "unknown-") {
				t.Errorf("%s: exit code %d: %s", args[0], code, out)
			}
		}
	}
}

// A file that is passed over is told of, and one whose first line names our
// schema is not passed over.
func TestPassedOver(t *testing.T) {
	sound := scaffolded(t, "case", "my-case")
	_, bare, _ := strings.Cut(sound, "\n")
	dir := folder(t, map[string]string{"a.yaml": sound, "b.yaml": "tilte: broken\n" + bare, "notes.txt": "tilte: broken\n"})
	out, code := command("check", dir)
	if code != exitFine || !strings.Contains(out, "1 file was passed over: "+filepath.Join(dir, "b.yaml")+" does not begin with format:\n1 file checked") {
		t.Errorf("exit code %d: %s", code, out)
	}
	out, code = command("check", "--json", dir)
	var report struct {
		PassedOver []string `json:"passed_over"`
	}
	if err := json.Unmarshal([]byte(out), &report); err != nil || code != exitFine || !slices.Equal(report.PassedOver, []string{filepath.Join(dir, "b.yaml")}) {
		t.Errorf("exit code %d, %v: %s", code, err, out)
	}
	first, rest, _ := strings.Cut(sound, "\n")
	write(t, filepath.Join(dir, "b.yaml"), first+"\ntilte: broken\n"+rest)
	out, code = command("check", dir)
	if code != exitFaults || !strings.Contains(out, "2 files checked") || strings.Contains(out, "passed over") || !strings.Contains(out, `b.yaml:2:1: error: the case has no field "tilte"`) {
		t.Errorf("exit code %d: %s", code, out)
	}
	for i := range 8 {
		write(t, filepath.Join(dir, string(rune('p'+i))+".yaml"), "on: push\n")
	}
	if out, _ = command("check", dir); !strings.Contains(out, "8 files were passed over: ") || !strings.Contains(out, " and 3 more do not begin with format:") {
		t.Error(out)
	}
}
