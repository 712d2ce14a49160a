package session

import (
	"strings"

	"blanch/scenarios"
)

// Harmless makes text safe for a terminal, line by line. What a recording holds
// was perhaps written by someone else.
func Harmless(text string) string {
	lines := strings.Split(text, "\n")
	for i, l := range lines {
		lines[i] = scenarios.Harmless(strings.ReplaceAll(l, "\t", "    "))
	}
	return strings.Join(lines, "\n")
}
