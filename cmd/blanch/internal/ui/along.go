package ui

// along goes through a list and stops at its ends, as every list does.
func along(at, step, n int) int { return max(0, min(at+step, n-1)) }

// turn goes round a list, for one key that has no other way back.
func turn(at, step, n int) int {
	if n == 0 {
		return 0
	}
	return (at + step + n) % n
}
