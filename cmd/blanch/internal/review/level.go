package review

import "fmt"

// Level is how hard a question is, from 1, the easiest. The first three have
// the names that learners and authors know them by.
type Level int

var levelNames = [...]string{"first", "middle", "advanced"}

// String is the level's name.
func (l Level) String() string {
	if l < 1 || int(l) > len(levelNames) {
		return fmt.Sprintf("level %d", int(l))
	}
	return levelNames[l-1]
}
