package session

// Recorded is a recording as it stands in a list, in plain words: of an attempt
// that waits to be resumed, or of one to read again.
type Recorded struct {
	Path, Title, Reached, Played string // Played by the clock on the wall
	InUse                        bool   // it is open elsewhere
}
