package quiz

import (
	"testing"

	"blanch/scenarios"
)

// A learner is told a question's level by the word its author wrote.
func TestLevelsAreToldAsWritten(t *testing.T) {
	for _, level := range scenarios.ItemLevels {
		q, err := question("a/b", "line", level, false)
		if err != nil || q.Level.String() != level {
			t.Errorf("%q is told as %q (%v)", level, q.Level, err)
		}
	}
}
