package prompt

import (
	"strings"
	"testing"

	"github.com/rivo/uniseg"

	"blanch/cmd/blanch/internal/session"
)

func TestWrapKeepsToTheWidth(t *testing.T) {
	long := strings.Repeat("word ", 40) + strings.Repeat("x", 200) + " " + strings.Repeat("\u6f22\u5b57", 60)
	for _, rows := range [][]string{wrap("", "", long), wrap("0:00:00  ", "         ", long), joined(strings.Fields(strings.Repeat("part ", 60)))} {
		for _, row := range rows {
			if w := uniseg.StringWidth(row); w > folded {
				t.Errorf("a row is %d cells wide, want at most %d: %q", w, folded, row)
			}
		}
	}
	got := strings.Join(strings.Fields(strings.Join(wrap("", "", strings.Repeat("word ", 40)), " ")), " ")
	if want := strings.TrimSpace(strings.Repeat("word ", 40)); got != want {
		t.Errorf("folding changed the words: %q", got)
	}
}

func TestEntriesHangUnderTheirText(t *testing.T) {
	rows := render(session.Line{Kind: session.Happened, At: "0:31:20", Text: strings.Repeat("pressure ", 12)})
	if len(rows) != 2 || !strings.HasPrefix(rows[0], "0:31:20  pressure") || !strings.HasPrefix(rows[1], "         pressure") {
		t.Errorf("rows are %q", rows)
	}
}
