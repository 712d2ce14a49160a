package scenarios

import "strings"

// Nearest is the name that was most likely meant by word, or "" when none of
// them is near.
func Nearest(word string, among []string) string {
	plain := strings.NewReplacer("_", " ", "-", " ")
	wrong := []rune(plain.Replace(strings.ToLower(word)))
	best, least := "", max(1, min(len(wrong)/3, 4))+1
	for _, name := range among {
		right := []rune(plain.Replace(strings.ToLower(name)))
		if len(right)-len(wrong) >= least || len(wrong)-len(right) >= least {
			continue
		}
		if d := distance(wrong, right); d < least {
			best, least = name, d
		}
	}
	return best
}

// distance counts the letters to change, add, drop or swap with the next one
// to make a into b.
func distance(a, b []rune) int {
	before, above, row := make([]int, len(b)+1), make([]int, len(b)+1), make([]int, len(b)+1)
	for j := range above {
		above[j] = j
	}
	for i := range a {
		row[0] = i + 1
		for j := range b {
			change := above[j]
			if a[i] != b[j] {
				change++
			}
			row[j+1] = min(change, row[j]+1, above[j+1]+1)
			if i > 0 && j > 0 && a[i] == b[j-1] && a[i-1] == b[j] {
				row[j+1] = min(row[j+1], before[j-1]+1)
			}
		}
		before, above, row = above, row, before
	}
	return above[len(b)]
}
