package quiz

import (
	"slices"
	"testing"
)

// Steps that may all change places are told together.
func TestStepsInAnyOrderAreToldTogether(t *testing.T) {
	place := map[string]int{"a": 4, "b": 2, "c": 5, "d": 1, "e": 3}
	for _, c := range []struct {
		may  [][]string
		want []string
	}{
		{[][]string{{"a", "b"}, {"b", "c"}, {"a", "c"}}, []string{"4, 2 and 5 may stand in any order."}},
		{[][]string{{"a", "b"}}, []string{"4 and 2 may also change places."}},
		{[][]string{{"a", "b"}, {"b", "c"}}, []string{"4 and 2 may also change places.", "2 and 5 may also change places."}},
		{[][]string{{"a", "b"}, {"d", "e"}}, []string{"4 and 2 may also change places.", "1 and 3 may also change places."}},
		{[][]string{{"a", "gone"}}, nil},
	} {
		if got := free(c.may, place); !slices.Equal(got, c.want) {
			t.Errorf("%v: got %q, want %q", c.may, got, c.want)
		}
	}
}
