package scenarios

import (
	"strings"
	"unicode"
)

// Extent is the column behind the last character that a complaint points at,
// for editors that mark a stretch of a line: the value that the message
// quotes, a quoted text, or else one word. It is at least one column past
// the place of the complaint. src is the file that the complaint is about.
func Extent(c Complaint, src []byte) int {
	line, found := lineAt(src, c.Pos.Line)
	runes := []rune(line)
	if !found || c.Pos.Column > len(runes) {
		return c.Pos.Column + 1
	}
	rest := runes[c.Pos.Column-1:]
	longest := 1
	for i, part := range strings.Split(c.Said, `"`) {
		if i%2 == 1 && strings.HasPrefix(string(rest), part) {
			longest = max(longest, len([]rune(part)))
		}
	}
	if longest > 1 {
		return c.Pos.Column + longest
	}
	if first := rest[0]; first == '"' || first == '\'' {
		for i := 1; i < len(rest); i++ {
			if rest[i] == first {
				return c.Pos.Column + i + 1
			}
		}
		return c.Pos.Column + len(rest)
	}
	end := 0
	for end < len(rest) && (unicode.IsLetter(rest[end]) || unicode.IsDigit(rest[end]) || strings.ContainsRune("-_.", rest[end])) {
		end++
	}
	return c.Pos.Column + max(1, end)
}
