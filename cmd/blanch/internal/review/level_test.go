package review

import "testing"

func TestLevelsAreCalledByTheirNames(t *testing.T) {
	for level, want := range map[Level]string{1: "first", 2: "middle", 3: "advanced", 4: "level 4", 0: "level 0"} {
		if got := level.String(); got != want {
			t.Errorf("%d is %q, want %q", int(level), got, want)
		}
	}
}
