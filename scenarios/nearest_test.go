package scenarios

import "testing"

func TestNearestMeant(t *testing.T) {
	for _, f := range []struct {
		word  string
		among []string
		want  string
	}{
		{"sxe", []string{"age", "sex", "skin"}, "sex"}, // two letters swapped
		{"wieght", []string{"weight", "height"}, "weight"},
		{"heart-rate", []string{"heart rate"}, "heart rate"},
		{"Heart_Rate", []string{"heart rate"}, "heart rate"},
		{"ab", []string{"cd", "ef"}, ""},
		{"", []string{"a", "abc"}, "a"},
		{"rode", []string{"rate", "rope", "rides"}, "rope"}, // one letter before two
		{"xyzzy", []string{"weight"}, ""},
	} {
		if got := Nearest(f.word, f.among); got != f.want {
			t.Errorf("Nearest(%q, %q) is %q, want %q", f.word, f.among, got, f.want)
		}
	}
}

func TestDistance(t *testing.T) {
	for _, f := range []struct {
		a, b string
		want int
	}{
		{"", "", 0}, {"a", "", 1}, {"", "abc", 3}, {"abc", "abc", 0}, {"abc", "acb", 1}, {"abcd", "badc", 2},
		{"kitten", "sitting", 3}, // the textbook pair
		{"ca", "abc", 3},         // swapped letters are not taken apart again
	} {
		if got := distance([]rune(f.a), []rune(f.b)); got != f.want {
			t.Errorf("%q to %q: %d, want %d", f.a, f.b, got, f.want)
		}
	}
}
