package ui

// warn says once, and loudly, that the attempt is no longer being saved. The
// head and the pause go on saying it. It reports whether it did.
func (u *UI) warn() bool {
	if u.play == nil || u.warned || u.s().Unsaved() == nil {
		return false
	}
	u.warned = true
	u.flash, u.loud = u.s().NotSaved(), true
	return true
}
