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

// distance counts the letters to change, add or drop to make a into b.
func distance(a, b []rune) int {
	row := make([]int, len(b)+1)
	for j := range row {
		row[j] = j
	}
	for i := range a {
		corner := row[0]
		row[0] = i + 1
		for j := range b {
			change := corner
			if a[i] != b[j] {
				change++
			}
			corner = row[j+1]
			row[j+1] = min(change, row[j]+1, corner+1)
		}
	}
	return row[len(b)]
}
