package session

import (
	"fmt"
	"strings"
)

// LongestTyped bounds what can be typed at once, in bytes, whatever the face.
const LongestTyped = 2000

// TooLong is said when something does not fit.
var TooLong = fmt.Sprintf("Only %d characters fit here; the rest was left out.", LongestTyped)

// Fitting is as much of what was typed as there is room for; false when some
// was left out.
func Fitting(typed string) (string, bool) {
	if len(typed) <= LongestTyped {
		return typed, true
	}
	return strings.ToValidUTF8(typed[:LongestTyped], ""), false // half a character is none
}
