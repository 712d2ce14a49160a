package scenarios

import (
	"testing"

	"blanch/sim"
)

func TestParseSteps(t *testing.T) {
	src := "# a script\n\nat 0 min: read the order\n  then: read the notes\nafter 30 s:\nat 1.5 h: write in the notes: arm cool\n"
	steps, out := ParseSteps("s.txt", []byte(src))
	if len(out) > 0 {
		t.Fatal(out)
	}
	pos := func(line, column int) Pos { return Pos{"s.txt", line, column} }
	want := []Step{
		{AtTime, 0, "read the order", pos(3, 1), pos(3, 11)},
		{Then, 0, "read the notes", pos(4, 3), pos(4, 9)},
		{After, 30 * sim.Second, "", pos(5, 1), pos(5, 12)},
		{AtTime, 90 * sim.Minute, "write in the notes: arm cool", pos(6, 1), pos(6, 11)},
	}
	if len(steps) != len(want) {
		t.Fatalf("got %v", steps)
	}
	for i := range want {
		if steps[i] != want[i] {
			t.Errorf("step %d: got %+v, want %+v", i, steps[i], want[i])
		}
	}
}

func TestParseStepsFaults(t *testing.T) {
	src := "at 5 min: read the order\nat 2 min: read the notes\nin 3 min: read the notes\nat 4: read the notes\nthen: raed the notes\nafter 2 mg: read the notes\n: read the notes\nat -1 min: read the notes\n"
	steps, out := ParseSteps("s.txt", []byte(src))
	want := []struct {
		code         string
		line, column int
	}{
		{"out-of-order", 2, 1}, {"bad-step", 3, 1}, {"bad-step-time", 4, 4}, {"unknown-action", 5, 7},
		{"bad-step-time", 6, 7}, {"bad-step", 7, 1}, {"bad-step-time", 8, 4},
	}
	if steps != nil || len(out) != len(want) {
		t.Fatalf("%d complaints, want %d: %v", len(out), len(want), out)
	}
	for i, w := range want {
		if c := out[i]; c.Code != w.code || c.Pos != (Pos{"s.txt", w.line, w.column}) {
			t.Errorf("got %s at %s (%s), want %s at %d:%d", c.Code, c.Pos, c.Said, w.code, w.line, w.column)
		}
	}
}
