package quantity

import (
	"slices"
	"unicode/utf8"
)

// nearest lists the symbols of the units that word was most likely meant to
// be, by the letters to change: at most a third of its length, at least one.
// All that are equally near are listed, for to offer only mcg where mg was
// meant would be to suggest a mistake.
func nearest(word string) []string {
	n := utf8.RuneCountInString(word)
	if n < 2 || n > 24 {
		return nil
	}
	var found []string
	least := max(1, n/3) + 1
	for _, w := range words {
		if utf8.RuneCountInString(w) < 2 {
			continue
		}
		d := distance(word, w)
		symbol := bases[spellings[w]].symbol
		switch {
		case d < least:
			least, found = d, []string{symbol}
		case d == least && found != nil && !slices.Contains(found, symbol):
			found = append(found, symbol)
		}
	}
	return found
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
