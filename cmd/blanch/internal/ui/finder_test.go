package ui

import (
	"strings"
	"testing"
)

// TestWhatWasDoneSaysWhen in the lists, beside how long it takes and within
// 80 columns.
func TestWhatWasDoneSaysWhen(t *testing.T) {
	d := sit(t, 80, 24)
	d.press("Down", "Enter", "End", "Enter", "Enter")
	if strings.Contains(d.text(), "done 0:") {
		t.Errorf("before anything was done:\n%s", d.text())
	}
	d.press("Esc").say("read the order", "fetch the extravasation kit").press("Enter")
	row := d.row("read the order")
	if !strings.Contains(row, "30 s") || !strings.HasSuffix(row, "done 0:00") {
		t.Errorf("the order's row is %q", row)
	}
	d.press("Esc", "/", "fetch")
	row = d.row("fetch the extravasation kit")
	if !strings.Contains(row, "  done 0:0") || !strings.HasSuffix(row, "the walk there and back") {
		t.Errorf("the kit's row is %q", row)
	}
}

// TestEveryMarkFitsBesideItsDuration, whatever the sentence.
func TestEveryMarkFitsBesideItsDuration(t *testing.T) {
	const said, takes = 50, 24
	d := sit(t, 80, 24)
	d.press("Down", "Enter", "End", "Enter")
	for _, o := range d.u.s().Offers("", 0) {
		lasts := cut(o.Takes, takes)
		row := offerRow(spaced(o.Sentence), lasts, "done 10:59", said, takes)
		if width(row) > said+takes || !strings.Contains(row, "done 10:59") || !strings.Contains(row, "  "+lasts) {
			t.Errorf("%s: %q", o.Name, row)
		}
	}
}

// row is the row of the screen that has some words.
func (d *hand) row(words string) string {
	d.t.Helper()
	for row := range strings.SplitSeq(d.text(), "\n") {
		if strings.Contains(row, words) {
			return row
		}
	}
	d.t.Fatalf("no row has %q\n%s", words, d.text())
	return ""
}
