package sim

import (
	"flag"
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"testing"
)

var update = flag.Bool("update", false, "write the expected transcripts")

// TestTranscripts plays the files of testdata/transcripts: lines that begin
// with ">" are "time action" or only a time to wait for, "# seed N" and "# no
// leak" set the scene, and all else is what the engine then says.
func TestTranscripts(t *testing.T) {
	files, err := filepath.Glob("testdata/transcripts/*.txt")
	if err != nil || len(files) == 0 {
		t.Fatal("no transcripts", err)
	}
	for _, file := range files {
		t.Run(strings.TrimSuffix(filepath.Base(file), ".txt"), func(t *testing.T) {
			want, err := os.ReadFile(file)
			if err != nil {
				t.Fatal(err)
			}
			got := transcript(t, string(want))
			if *update {
				if err := os.WriteFile(file, []byte(got), 0o644); err != nil {
					t.Fatal(err)
				}
			} else if got != string(want) {
				t.Errorf("differs at:\n%s", firstDifference(string(want), got))
			}
		})
	}
}

func transcript(t *testing.T, text string) string {
	var b strings.Builder
	var e *Engine
	c, seed := testCase(), luckySeed(t, 1)
	say := func(entries []Entry) {
		for _, en := range entries {
			if en.Kind != Started && (en.Kind != Reading || en.At%(20*Minute) == 0) {
				fmt.Fprintf(&b, "%s  %s\n", en.At.Exact(), en.Text())
			}
		}
	}
	for line := range strings.Lines(text) {
		line = strings.TrimSpace(line)
		switch {
		case line == "# no leak":
			c.Leak = Fate{Kind: NoLeak}
			fmt.Fprintln(&b, line)
		case line == "# set up":
			e = newEngine(t, c, seed)
			if n := follow(t, e, setUp); n > 0 {
				t.Fatalf("%d steps of the set-up were refused", n)
			}
			fmt.Fprintln(&b, line)
		case strings.HasPrefix(line, "#"):
			fmt.Fprintln(&b, line)
		case strings.HasPrefix(line, "> "):
			fmt.Fprintln(&b, line)
			if e == nil {
				e = newEngine(t, c, seed)
			}
			var h, m, s int
			if _, err := fmt.Sscanf(line, "> %d:%d:%d", &h, &m, &s); err != nil {
				t.Fatalf("%q: %v", line, err)
			}
			say(e.Advance(Time(h)*Hour + Time(m)*Minute + Time(s)*Second))
			if _, said, ok := strings.Cut(line[2:], " "); ok {
				a, err := ParseAction(said)
				if err != nil {
					fmt.Fprintf(&b, "?  %v\n", err)
					continue
				}
				say(e.Do(a))
			}
		}
	}
	return b.String()
}
