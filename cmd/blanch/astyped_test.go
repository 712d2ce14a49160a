package main

import "testing"

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
