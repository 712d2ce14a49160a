package prompt

import (
	"strings"
	"testing"

	"blanch/cmd/blanch/internal/session"
)

func TestHomeResumesAndTellsWhatIsOpenElsewhere(t *testing.T) {
	open := []session.Recorded{{Path: "busy.jsonl", Title: "One", Reached: "0:10", InUse: true}, {Path: "free.jsonl", Title: "Two", Reached: "0:20"}}
	for _, typed := range []string{"r", "resume"} {
		var out strings.Builder
		f, err := Open(strings.NewReader(typed+"\n"), &out, Options{})
		if err != nil {
			t.Fatal(err)
		}
		c, err := f.Home(nil, open)
		if err != nil || c.Resume != "free.jsonl" {
			t.Errorf("%q: %+v, %v", typed, c, err)
		}
		if !strings.Contains(out.String(), "Open in another window or terminal\n  One, at 0:10") || strings.Contains(out.String(), "resume 2") {
			t.Errorf("home shows\n%s", out.String())
		}
	}
}

// TestThePromptFitsANarrowTerminal: longer than the row it would be written
// again and again.
func TestThePromptFitsANarrowTerminal(t *testing.T) {
	for w, narrow := range map[int]bool{0: false, 30: true, 80: false} {
		f := &Face{width: func() int { return w }}
		if f.narrow() != narrow {
			t.Errorf("%d columns: narrow %t", w, f.narrow())
		}
	}
}
