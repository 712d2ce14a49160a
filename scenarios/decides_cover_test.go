package scenarios

import (
	"slices"
	"testing"
)

// Every set of the words that conditions name is posed, however many there are.
func TestPoseHasEverySet(t *testing.T) {
	var conditions []condition
	for _, w := range SecondCheckMoments {
		conditions = append(conditions, condition{how: "has", word: w})
	}
	sets := map[string]bool{}
	for _, p := range pose("second checks", conditions) {
		sets[p.says] = true
	}
	// Not the empty one: no word is left that the list could have instead.
	if want := 1<<len(SecondCheckMoments) - 1; len(sets) != want {
		t.Errorf("%d sets, want %d", len(sets), want)
	}
	last := SecondCheckMoments[len(SecondCheckMoments)-1]
	if !sets[last] || !slices.ContainsFunc(conditions, func(c condition) bool { return c.word == last }) {
		t.Errorf("%s alone is not posed", last)
	}
}
