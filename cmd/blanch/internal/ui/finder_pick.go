package ui

import (
	"slices"
	"strings"
)

// begin goes to the choice that the words typed to find the sentence name. A
// name among them that is none of the choices is told, so that nobody takes
// the usual one for it.
func (f *finder) begin(words []string) {
	for _, w := range words {
		if i := slices.Index(f.gap.Choices, strings.Trim(w, ",")); i >= 0 {
			f.list.at = i
			return
		}
	}
	for _, w := range words {
		i := fitting(f.gap.Choices, w)
		switch {
		case i >= 0:
			f.list.at = i
		case len(f.gap.Choices) > 0 && f.u.s().Names(w) && !strings.Contains(f.said(), w):
			f.fault = w + " is none of these."
		}
	}
}

// fitting is the first choice that begins with what is typed, or else has a
// word that does; -1 for none.
func fitting(choices []string, typed string) int {
	for _, lead := range []string{"", " ", "-"} {
		for i, c := range choices {
			if lead == "" && strings.HasPrefix(c, typed) || lead != "" && strings.Contains(c, lead+typed) {
				return i
			}
		}
	}
	return -1
}

// pick goes to the first choice that begins with what is typed, or else has a
// word that does. What fits nothing begins anew.
func (f *finder) pick(typed string) {
	typed = strings.ToLower(typed)
	if i := fitting(f.gap.Choices, typed); i >= 0 {
		f.list.at, f.picked = i, typed
		return
	}
	if n := len([]rune(f.picked)); n > 0 {
		last := []rune(typed)
		f.picked = ""
		f.pick(string(last[len(last)-1]))
	}
}
