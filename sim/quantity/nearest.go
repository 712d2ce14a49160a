package quantity

import "unicode/utf8"

// nearest is the word that word was most likely meant to be, by the number
// of letters to change; empty when none is within a third of its length
// (at least one letter). Of equals the first wins.
func nearest(word string, among []string) string {
	n := utf8.RuneCountInString(word)
	best, least := "", max(1, n/3)+1
	if n < 2 || n > 24 {
		return ""
	}
	for _, w := range among {
		if utf8.RuneCountInString(w) < 2 {
			continue
		}
		if d := distance(word, w); d < least {
			best, least = w, d
		}
	}
	return best
}

// distance counts the letters to insert, drop or change between two words.
func distance(a, b string) int {
	from, to := []rune(a), []rune(b)
	row := make([]int, len(to)+1)
	for j := range row {
		row[j] = j
	}
	for i, x := range from {
		diagonal := row[0]
		row[0] = i + 1
		for j, y := range to {
			cost := diagonal
			if x != y {
				cost++
			}
			diagonal = row[j+1]
			row[j+1] = min(cost, row[j]+1, diagonal+1)
		}
	}
	return row[len(to)]
}
