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

// TestAGapWithOneNameIsNotAskedFor: the whole sentence is still agreed to, and
// going back leads to the last thing that was asked.
func TestAGapWithOneNameIsNotAskedFor(t *testing.T) {
	d := sit(t, 80, 24)
	d.press("Down", "Enter", "End", "Enter", "/", "flush", "Enter")
	d.want("Next: a volume").press("10 mL", "Enter").want("flush right-dorsal-hand with 10 mL", "Enter does it")
	if len(d.kept.said) != 0 {
		t.Fatalf("it was done before it was agreed to: %v", d.kept.said)
	}
	d.press("Esc").want("> 10 mL").press("Esc").want("Any step: flush").press("Esc")

	d.press("/", "feel", "Enter").want("feel around right-dorsal-hand", "Enter does it")
	d.press("Esc").want("> feel around <line>").press("Enter", "Enter").settle()
	if n := len(d.kept.said); n != 1 || d.kept.said[0].Text != "feel around right-dorsal-hand" {
		t.Errorf("what was done is %v", d.kept.said)
	}

	// Two veins: which of them is asked.
	d.press("/", "examine", "Enter").want("> right-dorsal-hand", "left-cephalic-forearm").press("Esc", "Esc")
	// Two pumps, of which one can be stopped: the other when it is named.
	d = sit(t, 80, 24)
	d.press("Down", "Enter", "End", "Enter", "/", "start", "Enter").want("> pump-1", "pump-2").press("Esc", "Esc")
	d.start().press("/", "stop", "Enter").want("stop pump-1", "Enter does it").press("Esc", "Esc")
	d.press("/", "stop pump-2 now", "Enter").want("> pump-2").press("Enter").want("stop pump-2", "Not possible now: ")
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
