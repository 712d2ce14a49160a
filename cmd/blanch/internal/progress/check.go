package progress

import (
	"fmt"
	"time"
	"unicode/utf8"

	"blanch/cmd/blanch/internal/review"
)

// Bounds of what an answer may say. A name is short since it is in every line;
// nobody sits a week over one question.
const (
	maxName = 200 // bytes
	maxSpan = 7 * 24 * time.Hour
)

// check says what is wrong with an answer.
func check(a review.Answer) error {
	if err := a.Check(); err != nil {
		return err
	}
	switch {
	case len(a.Name) > maxName:
		return fmt.Errorf("question name is %d bytes long, want at most %d", len(a.Name), maxName)
	case !utf8.ValidString(a.Name):
		return fmt.Errorf("question name %q is not valid UTF-8", a.Name)
	case a.At.IsZero():
		return fmt.Errorf("answer to %q has no time, want when it was given", a.Name)
	case a.At.UTC().Year() < 1 || a.At.UTC().Year() > 9999:
		return fmt.Errorf("answer to %q is of the year %d, want 1 to 9999", a.Name, a.At.UTC().Year())
	case a.Try < 1:
		return fmt.Errorf("answer to %q is of try %d, want 1 or more", a.Name, a.Try)
	case a.Took < 0 || a.Took > maxSpan:
		return fmt.Errorf("answer to %q took %v, want 0 to %v", a.Name, a.Took, maxSpan)
	case a.Allowed < 0 || a.Allowed > maxSpan:
		return fmt.Errorf("answer to %q was allowed %v, want 0 to %v", a.Name, a.Allowed, maxSpan)
	}
	return nil
}
