package content

import (
	"strings"
	"testing"
)

// Each of the words to write over stands in one place of one scaffold, and
// what asks to be written over there is among them.
func TestWordsToWriteOver(t *testing.T) {
	all := ""
	for _, kind := range Scaffolds() {
		text, err := Scaffold(kind, "new-name")
		if err != nil {
			t.Fatal(err)
		}
		for _, line := range strings.Split(text, "\n") {
			if !strings.HasPrefix(line, "#") {
				all += line + "\n"
			}
		}
	}
	for _, words := range ToWriteOver() {
		if strings.Count(all, words) != 1 {
			t.Errorf("%q stands %d times in the scaffolds", words, strings.Count(all, words))
		}
		all = strings.ReplaceAll(all, words, "")
	}
	for _, asks := range []string{"till to be", "to write over"} {
		if strings.Contains(all, asks) {
			t.Errorf("%q is left in the scaffolds, and is not among the words to write over", asks)
		}
	}
}

// A new fragment tells how a case uses it, by its own name.
func TestNewFragmentSaysItsOwnName(t *testing.T) {
	text, err := Scaffold("fragment", "arm-told")
	if err != nil || !strings.Contains(text, "uses: [arm-told]") || strings.Contains(text, "[leak-told]") {
		t.Errorf("%v in\n%s", err, text)
	}
}
